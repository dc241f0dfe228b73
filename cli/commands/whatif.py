"""`rinkfold whatif`."""

from __future__ import annotations

from typing import Annotated, Any

import typer

from ..arguments import AsJson, GameFile, Names
from ..quick import QuickCommand

__all__ = ["whatif"]


class InOrder(QuickCommand):
    """A command that keeps the order of options of different names."""

    def parse_args(self, ctx: Any, args: list[str]) -> list[str]:
        """As every command, with the suppositions made one option."""
        from ..supposing import suppositions

        return super().parse_args(ctx, suppositions(args))


whatif = typer.Typer(
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    context_settings={"help_option_names": ["-h", "--help"]},
)


@whatif.command("whatif", cls=InOrder)
def _whatif(
    game: GameFile,
    void: Annotated[
        list[str] | None, typer.Option(metavar="SEQ", help="Suppose that this event never counted.")
    ] = None,
    amend: Annotated[
        list[str] | None,
        typer.Option(metavar="SEQ field=value", help="Suppose that it was written so; several fields may follow."),
    ] = None,
    insert: Annotated[
        list[str] | None, typer.Option(metavar="ENTRY", help="Suppose that this was written too, a short entry.")
    ] = None,
    change: Annotated[list[str] | None, typer.Option("--change", hidden=True)] = None,
    names: Names = False,
    as_json: AsJson = False,
) -> None:
    """What would have been different: from which reading on, who goes back when, skaters, goals, goalkeepers, totals.

    Each option may be given several times; they apply in the order given. Nothing is written.
    """
    from ...timeline.views.difference import differences
    from ..errors import refuse
    from ..opening import open_log
    from ..paper import say, say_json, style_of
    from ..supposing import EXAMPLES, suppose
    from ..two_games import TwoGames

    if not change:
        refuse("nothing_supposed", "Nothing is supposed.", " Or: ".join(EXAMPLES.values()))
    supposed = suppose(open_log(game), change, names=names)
    found = differences(supposed.before, supposed.after)
    two = TwoGames(supposed.before, supposed.after, found, ("as recorded", "supposed"))
    if as_json:
        from ..answers.whatif import whatif_answer

        say_json(whatif_answer(supposed, two))
        return
    from ..people import people_of
    from ..tables.whatif import whatif_lines

    people = people_of(supposed.after.header, (one.event for one in supposed.after.folded.placed), names=names)
    say(whatif_lines(supposed, two, people, style_of()))
