"""A finding, and the kinds of findings that the checks know."""

from __future__ import annotations

from typing import TYPE_CHECKING

from attrs import frozen

from ...moment import Moment
from ...problems import Severity

if TYPE_CHECKING:
    from .step import Step

__all__ = ["Finding", "Kind"]


@frozen(kw_only=True)
class Finding:
    """Something in a record that cannot be right, is missing or looks wrong.

    Attributes:
        code: a stable word for programs; it never changes its meaning.
        seq, at: the event and its reading; ``None`` where the whole record is meant, or the event has no reading.
        message: what was found and what was expected.
        fix: what to do; short entries stand in backquotes, ``…`` in them is for what only people can know.
    """

    code: str
    severity: Severity
    seq: int | None
    at: Moment | None
    message: str
    fix: str


@frozen
class Kind:
    """A kind of finding.

    Attributes:
        code: see `Finding`.
        severity: ``error``: it cannot be right; ``warning``: it looks wrong, or an official has to know;
            ``note``: worth knowing, and legal.
        says, remedy: what it says and what to do, in general.
    """

    code: str
    severity: Severity
    says: str
    remedy: str

    def of(self, step: Step, message: str, fix: str) -> Finding:
        """A finding of this kind about one event that counts."""
        return self.about(message, fix, seq=step.event.seq, at=step.at)

    def about(self, message: str, fix: str, *, seq: int | None = None, at: Moment | None = None) -> Finding:
        """A finding of this kind about the record, or about an event that stands nowhere in the game."""
        return Finding(code=self.code, severity=self.severity, seq=seq, at=at, message=message, fix=fix)
