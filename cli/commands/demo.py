"""`rinkfold demo`."""

from __future__ import annotations

__all__ = ["demo"]


def demo() -> None:
    """Play the example game and show what the tool can say about it."""
    from ..example import example_game, telling_moments
    from ..paper import say, style_of
    from ..people import people_of
    from ..tables.demo import demo_lines

    game = example_game()
    people = people_of(game.header, (one.event for one in game.folded.placed))
    say(demo_lines(game, telling_moments(), people, style_of()))
