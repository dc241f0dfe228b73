"""`rinkfold penalties`."""

from __future__ import annotations

from ..arguments import AsJson, GameFile, Names

__all__ = ["penalties"]


def penalties(game: GameFile, names: Names = False, as_json: AsJson = False) -> None:
    """The life of every penalty, from the call to the door."""
    from ..opening import open_game
    from ..paper import say, say_json, style_of

    played = open_game(game)
    if as_json:
        from ..answers.penalties import penalties_answer

        say_json(penalties_answer(played, names=names))
        return
    from ..people import people_of
    from ..tables.penalties import penalty_lines

    people = people_of(played.header, (one.event for one in played.folded.placed), names=names)
    say(penalty_lines(played, people, style_of()))
