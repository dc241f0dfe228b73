# Shared by .ci/run and .ci/full: steps that are counted, and the tests' own numbers gathered at the end.
# Expects $root, the checkout, and $scratch, a folder that is thrown away afterwards.

export PIP_DISABLE_PIP_VERSION_CHECK=1 PYTHONDONTWRITEBYTECODE=1
# A virtual environment that is active outside must not be the one that is tested.
unset VIRTUAL_ENV PYTHONPATH PYTHONHOME
# One run tests one commit, also when another is made meanwhile.
: "${TESTED_COMMIT:=$(git -c safe.directory='*' -C "$root" rev-parse HEAD)}"
export TESTED_COMMIT
failed=()
left_out=()

say() { printf '\n== %s\n' "$*"; }

# What a command prints is shown only when it fails.
quietly() { "$@" >"$scratch/log" 2>&1 || { cat "$scratch/log"; return 1; }; }

# step TITLE COMMAND...: run it, note a failure, go on; the failure is also the step's own status.
step() {
  local title=$1 began=$SECONDS
  shift
  say "$title"
  if "$@"; then
    echo "-- $title: good, $((SECONDS - began)) s"
  else
    failed+=("$title")
    echo "-- $title: FAILED, $((SECONDS - began)) s"
    return 1
  fi
}

# tests NAME COMMAND...: the same, and pytest leaves its numbers in $scratch/results/NAME.xml. Of the two families of that
# format xunit1 is the one in which a test may note properties of its own.
tests() {
  local name=$1
  shift
  mkdir -p "$scratch/results"
  PYTEST_ADDOPTS="'--junit-xml=$scratch/results/$name.xml' -o junit_family=xunit1" step "$name" "$@"
}

# A clone by file transport of what is committed, also where another user owns the repository.
fresh_clone() {
  printf '[safe]\n\tdirectory = *\n' >"$scratch/gitconfig"
  GIT_CONFIG_GLOBAL="$scratch/gitconfig" git clone --quiet "$root" "$1" &&
    git -C "$1" -c advice.detachedHead=false checkout --quiet --detach "$TESTED_COMMIT"
}

# closing: what ran, what was left out and why, what failed. Its status is that of the whole run.
closing() {
  say "what ran and what was left out"
  local reason
  python3 "$root/.ci/tally.py" "$@" "$scratch"/results/*.xml || failed+=("tests were left out or none ran")
  for reason in "${left_out[@]}"; do echo "left out: $reason"; done
  if ((${#failed[@]})); then
    printf 'FAILED: %s\n' "${failed[@]}"
    return 1
  fi
  echo "all good"
}
