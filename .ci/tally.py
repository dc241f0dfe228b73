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


def reason(skip: ET.Element) -> str:
    """Why a test was left out; for a whole module that was, pytest keeps the reason in the text and not the message."""
    message = skip.get("message", "no reason given")
    return (skip.text or message) if message == "collection skipped" else message


def reasons(path: Path, expected_to_fail: bool) -> Counter[str]:
    """Why tests were left out, or why those that ran were expected to fail; each reason with its count."""
    skips = ET.parse(path).getroot().iter("skipped")
    return Counter(reason(skip) for skip in skips if (skip.get("type") == "pytest.xfail") == expected_to_fail)


def tally(path: Path, nothing_left_out: bool) -> bool:
    """Print the numbers of one run; whether they are acceptable."""
    total = sum(int(suite.get("tests", "0")) for suite in ET.parse(path).getroot().iter("testsuite"))
    left_out, known_to_fail = reasons(path, False), reasons(path, True)
    ran = total - left_out.total()
    print(f"{path.stem}: {ran} tests ran, {left_out.total()} left out, {known_to_fail.total()} expected to fail")
    for why, count in left_out.items():
        print(f"    left out: {count} x {why}")
    for why, count in known_to_fail.items():
        print(f"    expected to fail: {count} x {why}")
    unexcused = [why for why in left_out if not why.startswith(OTHER_SYSTEM)]
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
