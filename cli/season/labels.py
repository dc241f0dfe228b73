"""What scorekeepers are called: by their names only where names were asked for."""

from __future__ import annotations

from collections.abc import Mapping

from attrs import frozen

from .totals import Season

__all__ = ["Labels"]


@frozen
class Labels:
    """The scorekeepers of a season in the order of their names, and what each is called."""

    order: tuple[str | None, ...]
    called: Mapping[str | None, str | None]

    @classmethod
    def of(cls, season: Season, *, names: bool) -> Labels:
        """Without names they are ``"scorekeeper 1"``, ``"scorekeeper 2"`` … in the order of their names."""
        known = sorted(who for who in season.scorekeepers if who is not None)
        called: dict[str | None, str | None] = {
            who: who if names else f"scorekeeper {number}" for number, who in enumerate(known, 1)
        }
        called[None] = None
        return cls((*known, *([None] if None in season.scorekeepers else [])), called)

    def scorekeeper(self, who: str | None) -> str | None:
        """What `who` is called; ``None`` where nobody is named."""
        return self.called.get(who)
