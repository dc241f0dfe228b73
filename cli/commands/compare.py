"""`rinkfold compare`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import AsJson, Names

__all__ = ["compare"]

One = Annotated[str, typer.Argument(metavar="A.jsonl", help="One record of the game.", show_default=False)]
Other = Annotated[str, typer.Argument(metavar="B.jsonl", help="Another record of it.", show_default=False)]


def compare(a: One, b: Other, names: Names = False, as_json: AsJson = False) -> None:
    """Two records of one game, side by side: whether the events differ, then what the answers differ in.

    Exit code 0: the same; 1: they differ; 2: one cannot be read.
    """
    from ..comparing import Comparison, open_both
    from ..errors import ANSWER_IS_NO
    from ..paper import say, say_json, style_of

    comparison = Comparison(*open_both(a, b))
    if as_json:
        from ..answers.compare import compare_answer

        say_json(compare_answer(comparison, names=names))
    else:
        from ..people import people_of
        from ..tables.compare import compare_lines

        one = comparison.one
        people = people_of(one.header, (placed.event for placed in one.folded.placed), names=names)
        say(compare_lines(comparison, people, style_of(), (a, b)))
    if not comparison.same:
        raise typer.Exit(ANSWER_IS_NO)
