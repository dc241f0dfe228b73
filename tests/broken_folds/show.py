"""What notices each fault: ``python -m broken_folds.show``, from the folder of the tests."""

from __future__ import annotations

from collections.abc import Iterator

from .faults import FAULTS, broken
from .suite import FAMILIES, first_failures

GAMES = 60


def table() -> Iterator[str]:
    """A line of a Markdown table for each fault, with the first of each family that fails."""
    yield "| the broken fold | " + " | ".join(FAMILIES) + " |"
    yield "|---" * (len(FAMILIES) + 1) + "|"
    for fault in FAULTS:
        with broken(fault):
            noticed = first_failures(GAMES)
        names = (f"`{noticed[family].name}`" if family in noticed else "" for family in FAMILIES)
        yield f"| {fault.says} | " + " | ".join(names) + " |"


if __name__ == "__main__":
    print("\n".join(table()))
