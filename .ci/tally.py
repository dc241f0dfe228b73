"""Print how many tests ran and which were left out and why, from pytest's JUnit files.

Usage: tally.py [--nothing-left-out] FILE.xml ...

Exit code 1 when a file is missing, when one of the runs executed no test, and, under --nothing-left-out, when a test
was left out for another reason than that it belongs to another operating system.
"""

import sys
import xml.etree.ElementTree as ET
from collections import Counter
from pathlib import Path

OTHER_SYSTEM = ("only on Windows", "only on macOS")


def left_out(suite: ET.Element) -> Counter[str]:
    """The reasons why tests of this run were left out, each with the number of tests."""
    skips = (skip for case in suite.iter("testcase") for skip in case.iter("skipped"))
    return Counter(skip.get("message", "no reason given") for skip in skips)


def tally(path: Path, nothing_left_out: bool) -> bool:
    """Print the numbers of one run; whether they are acceptable."""
    suites = list(ET.parse(path).getroot().iter("testsuite"))
    total = sum(int(suite.get("tests", "0")) for suite in suites)
    reasons = sum((left_out(suite) for suite in suites), Counter[str]())
    ran = total - reasons.total()
    print(f"{path.stem}: {ran} tests ran, {reasons.total()} left out")
    for reason, count in reasons.items():
        print(f"    left out: {count} x {reason}")
    unexcused = [reason for reason in reasons if not reason.startswith(OTHER_SYSTEM)]
    return ran > 0 and not (nothing_left_out and unexcused)


def main(arguments: list[str]) -> int:
    """Tally each file named; every one is printed, also after one that is not acceptable."""
    strict = "--nothing-left-out" in arguments
    paths = [Path(name) for name in arguments if not name.startswith("--")]
    absent = [path for path in paths if not path.is_file()]
    for path in absent:
        print(f"{path.stem}: no results")
    accepted = [tally(path, strict) for path in paths if path not in absent]
    return 0 if accepted and all(accepted) and not absent else 1


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
