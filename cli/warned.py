"""What `check` would newly find if an entry were written: warnings to be overridden, and hints."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence

from attrs import evolve, frozen

from ..timeline.views.findings import Finding
from ..timeline.views.findings.checks import KINDS

__all__ = ["Warned", "new_findings"]

_REMEDIES: Mapping[str, str] = {kind.code: kind.remedy for kind in KINDS}
_OF_COURSE = frozenset({"written_late", "recorded_late", "still_open", "not_signed"})
"""Hints that the writer of the entry knows already."""


@frozen
class Warned:
    """What is newly found.

    Attributes:
        warnings: errors and warnings; who writes the entry all the same overrides them.
        hints: notes about the entry itself; there is nothing to override.
    """

    warnings: tuple[Finding, ...]
    hints: tuple[Finding, ...]


def new_findings(before: Iterable[Finding], after: Sequence[Finding], seq: int) -> Warned:
    """What `after` has beyond `before`; `seq` is the entry, which is not written yet, so that it cannot be amended."""
    known = Counter(map(_key, before))
    new = []
    for finding in after:
        known[_key(finding)] -= 1
        if known[_key(finding)] < 0:
            new.append(evolve(finding, fix=_REMEDIES[finding.code]) if finding.seq == seq else finding)
    return Warned(
        tuple(one for one in new if one.severity != "note"),
        tuple(one for one in new if one.severity == "note" and one.seq == seq and one.code not in _OF_COURSE),
    )


def _key(finding: Finding) -> tuple[str, int | None]:
    """What makes two findings the same, though one counts more than the other."""
    return finding.code, finding.seq
