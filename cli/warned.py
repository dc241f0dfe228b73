"""What `check` newly finds with an entry: warnings, which its writer should look at again, and hints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence

from attrs import evolve, frozen

from ..timeline.views.findings import Finding
from ..timeline.views.findings.checks import KINDS

__all__ = ["NOTHING_NEW", "Warned", "new_findings"]

_REMEDIES: Mapping[str, str] = {kind.code: kind.remedy for kind in KINDS}
_OF_COURSE = frozenset({"written_late", "recorded_late", "still_open", "not_signed"})
"""Hints that the writer of the entry knows already."""


@frozen
class Warned:
    """What is newly found.

    Attributes:
        warnings: errors and warnings; on a page they are overridden by who writes the entry all the same.
        hints: notes about the entry itself; there is nothing to override.
    """

    warnings: tuple[Finding, ...]
    hints: tuple[Finding, ...]

    def unwritten(self, seq: int) -> Warned:
        """The same while the entry `seq` is not written, so that it cannot be amended."""
        return Warned(tuple(_general(self.warnings, seq)), tuple(_general(self.hints, seq)))


NOTHING_NEW = Warned((), ())


def _general(found: Iterable[Finding], seq: int) -> Iterator[Finding]:
    """The remedies of what is about `seq` without its number."""
    return (evolve(one, fix=_REMEDIES.get(one.code, one.fix)) if one.seq == seq else one for one in found)


def new_findings(before: Iterable[Finding], after: Sequence[Finding], seq: int) -> Warned:
    """What `after` has beyond `before`, where the entry `seq` is what is new."""
    known = Counter(map(_key, before))
    new = []
    for finding in after:
        known[_key(finding)] -= 1
        if known[_key(finding)] < 0:
            new.append(finding)
    return Warned(
        tuple(one for one in new if one.severity != "note"),
        tuple(one for one in new if one.severity == "note" and one.seq == seq and one.code not in _OF_COURSE),
    )


def _key(finding: Finding) -> tuple[str, int | None]:
    """What makes two findings the same, though one counts more than the other."""
    return finding.code, finding.seq
