"""`rinkfold rules`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import AsJson
from ..quick import QuickCommand, QuickGroup

__all__ = ["rules"]

rules = typer.Typer(
    cls=QuickGroup,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
    no_args_is_help=True,
    context_settings={"help_option_names": ["-h", "--help"]},
    help="The rulesets that come with the program, or stand in a file.",
)

Name = Annotated[str, typer.Argument(metavar="RULESET", help="A ruleset's name, or a file.", show_default=False)]


@rules.command("list", cls=QuickCommand)
def list_(as_json: AsJson = False) -> None:
    """Every ruleset by its name, with what it applies in one line."""
    from ... import rulesets
    from ..paper import say, say_json, style_of

    known = [rulesets.load(name) for name in rulesets.names()]
    if as_json:
        from ..answers.rules import list_answer

        say_json(list_answer(known))
        return
    from ..tables.rules import list_lines

    say(list_lines(known, style_of()))


@rules.command("show", cls=QuickCommand)
def show(ruleset: Name, as_json: AsJson = False) -> None:
    """Every rule of one ruleset: its value, what it means, and where it stands."""
    from ... import rulesets
    from ..paper import say, say_json, style_of

    found = rulesets.load(ruleset)
    if as_json:
        from ..answers.rules import show_answer

        say_json(show_answer(found))
        return
    from ..tables.rules import show_lines

    say(show_lines(found, style_of()))
