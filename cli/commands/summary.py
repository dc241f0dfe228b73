"""`rinkfold summary`."""

from __future__ import annotations

from ..arguments import AsJson, GameFile, Names

__all__ = ["summary"]


def summary(game: GameFile, names: Names = False, as_json: AsJson = False) -> None:
    """Goals, goalkeepers, penalty minutes and power plays."""
    from ..opening import open_game
    from ..paper import say, say_json, style_of

    played = open_game(game)
    if as_json:
        from ..answers.summary import summary_answer

        say_json(summary_answer(played))
        return
    from ..people import people_of
    from ..tables.summary import summary_lines

    people = people_of(played.header, (one.event for one in played.folded.placed), names=names)
    say(summary_lines(played, people, style_of()))
