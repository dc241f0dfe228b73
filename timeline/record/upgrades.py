"""Where a log of an earlier format is brought up to the format of today.

Format 1 is the first, so nothing stands here yet. Format 2 will bring a function ``upgrade_1_2(line)``, which takes the
object of one line of format 1 and returns the object of the same line in format 2, and the entry ``1: upgrade_1_2`` in
`STEPS`. Format 1 stays readable for ever: steps are added and never removed.
"""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import Any

from attrs import frozen

from ..problems import Problem, ProblemsFound
from ..wording import show

__all__ = ["FORMAT", "FORMATS", "STEPS", "Formats", "Step"]

FORMAT = 1
"""The format that is written."""

Step = Callable[[dict[str, Any]], dict[str, Any]]
STEPS: Mapping[int, Step] = {}
"""For each earlier format the function that brings one line of it to the next."""


@frozen(kw_only=True)
class Formats:
    """The formats that can be read.

    Attributes:
        newest: the format of today.
        steps: for each earlier format the function that brings one line of it to the next.
    """

    newest: int = FORMAT
    steps: Mapping[int, Step] = STEPS

    def upgrade_from(self, found: int) -> Step | None:
        """What brings a line of format `found` to the newest; None where nothing is to be done.

        Raises:
            ProblemsFound: the format is newer than this release, or never was.
        """
        if found == self.newest:
            return None
        if found not in self.steps or any(number not in self.steps for number in range(found, self.newest)):
            raise ProblemsFound([self._refusal(found)])

        def upgrade(line: dict[str, Any]) -> dict[str, Any]:
            for number in range(found, self.newest):
                line = self.steps[number](line)
            return line

        return upgrade

    def _refusal(self, found: int) -> Problem:
        newer = found > self.newest
        return Problem(
            code="newer_format" if newer else "unknown_format",
            message=f"The log is written in format {show(found)}; this release reads format {self.newest}"
            f"{' and earlier' if self.steps else ''}.",
            fix="Install a later release to read it." if newer else f"Write the log in format {self.newest}.",
            line=1,
            seq=1,
            field="format",
        )


FORMATS = Formats()
"""What this release reads."""
