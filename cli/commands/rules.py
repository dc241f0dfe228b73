"""`rinkfold rules`."""

from __future__ import annotations

from typing import TYPE_CHECKING, Annotated

import typer

from ..arguments import AsJson
from ..quick import QuickCommand, QuickGroup

if TYPE_CHECKING:
    from ...timeline.rules import Ruleset

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
    """Every ruleset by its name, with what it applies in one line.

    Exit code 1: one that an installed package offers cannot be used; it is told and left out.
    """
    from ..errors import ANSWER_IS_NO
    from ..paper import complain, say, say_json, style_of

    known, broken = _all()
    for why in broken:
        complain(why)
    if as_json:
        from ..answers.rules import list_answer

        say_json(list_answer(known))
    else:
        from ..tables.rules import list_lines

        say(list_lines(known, style_of()))
    if broken:
        raise typer.Exit(ANSWER_IS_NO)


def _all() -> tuple[list[Ruleset], list[str]]:
    """Every ruleset that is right, and what is wrong with the others."""
    from ... import rulesets
    from ...timeline.problems import ProblemsFound

    known, broken = [], []
    for name in rulesets.names():
        try:
            known.append(rulesets.load(name))
        except ProblemsFound as found:
            broken.append(str(found))
    return known, broken


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


@rules.command("check", cls=QuickCommand)
def check(
    ruleset: Name,
    strict: Annotated[bool, typer.Option("--strict", help="Notes count as findings too.")] = False,
    as_json: AsJson = False,
) -> None:
    """Everything that is wrong with a ruleset file, and what is allowed but odd; each with what to write.

    Exit code 0: nothing, or notes only; 1: errors or warnings, with --strict notes too; 2: the file cannot be read.
    """
    from ... import rulesets
    from ..errors import ANSWER_IS_NO
    from ..paper import say, say_json, style_of

    found = rulesets.check(ruleset)
    right = None if any(problem.severity == "error" for problem in found) else rulesets.load(ruleset)
    if as_json:
        from ..answers.rules import check_answer

        say_json(check_answer(ruleset, right, found))
    else:
        from ..tables.rules_check import check_lines

        say(check_lines(ruleset, right, found, style_of()))
    if any(strict or problem.severity != "note" for problem in found):
        raise typer.Exit(ANSWER_IS_NO)


One = Annotated[str, typer.Argument(metavar="A", help="A ruleset's name, or a file.", show_default=False)]
Other = Annotated[str, typer.Argument(metavar="B", help="Another one.", show_default=False)]


@rules.command("diff", cls=QuickCommand)
def diff(a: One, b: Other, as_json: AsJson = False) -> None:
    """What two rulesets set differently, each value with its source.

    Exit code 0: the same; 1: they differ; 2: one is not there or not right.
    """
    from ... import rulesets
    from ..answers.rules import diff_answer, words_apart
    from ..errors import ANSWER_IS_NO
    from ..paper import say, say_json, style_of

    one, other = rulesets.load(a), rulesets.load(b)
    if as_json:
        say_json(diff_answer(one, other))
    else:
        from ..tables.rules_diff import diff_lines

        say(diff_lines(one, other, style_of()))
    if rulesets.diff(one, other) or any(words_apart(one, other)):
        raise typer.Exit(ANSWER_IS_NO)
