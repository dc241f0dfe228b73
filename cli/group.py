"""The commands of `rinkfold` by name. A command's module is imported when it is the one that runs, or for `--help`."""

from __future__ import annotations

import importlib
from collections.abc import Mapping
from typing import Annotated, Any

import typer

from .errors import guarded
from .quick import QuickCommand, QuickGroup

__all__ = ["COMMANDS", "program"]

COMMANDS: Mapping[str, str] = {
    "demo": "demo",
    "new": "new",
    "record": "record",
    "live": "live",
    "box": "box",
    "strength": "strength",
    "penalties": "penalties",
    "summary": "summary",
    "explain": "explain",
    "whatif": "whatif",
    "compare": "compare",
    "check": "check",
    "report": "report",
    "verify": "verify",
    "import": "import_",
    "export": "export",
    "season": "season",
    "rules": "rules",
    "stream": "stream",
    "schema": "schema",
}
"""Each command's module in `commands`, in the order of the help. The module has a function, or a typer application of
several commands, of the same name."""


class Commands(QuickGroup):
    """A group that knows its commands by name and imports only the one that runs."""

    def __init__(self, **options: Any) -> None:
        """As every group; the names are set for the hint after a slip of the pen."""
        super().__init__(**options)
        self.commands.update(dict.fromkeys(COMMANDS))  # type: ignore[arg-type]

    def list_commands(self, ctx: Any) -> list[str]:
        """The names in the order of the help."""
        return list(COMMANDS)

    def get_command(self, ctx: Any, cmd_name: str) -> Any:
        """The command called `cmd_name`, imported now; None if there is none."""
        if cmd_name not in COMMANDS:
            return None
        module = importlib.import_module(f".commands.{COMMANDS[cmd_name]}", __package__)
        return _as_command(cmd_name, getattr(module, COMMANDS[cmd_name]))

    def invoke(self, ctx: Any) -> Any:
        """Run the command; what goes wrong is told without a traceback."""
        with guarded():
            return super().invoke(ctx)


def _application(**options: Any) -> typer.Typer:
    """A typer application in our manner: plain text help, no installing of completions, no pretty tracebacks."""
    return typer.Typer(
        add_completion=False,
        pretty_exceptions_enable=False,
        rich_markup_mode=None,
        context_settings={"help_option_names": ["-h", "--help"]},
        **options,
    )


def _as_command(name: str, command: Any) -> Any:
    if isinstance(command, typer.Typer):
        return typer.main.get_command(command)
    alone = _application()
    alone.command(name, cls=QuickCommand)(command)
    return typer.main.get_command(alone)


def _show_version(wanted: bool) -> None:
    if wanted:
        from importlib.metadata import version

        from .paper import say

        say([f"rinkfold {version('rinkfold')}"])
        raise typer.Exit


def _root(
    version: Annotated[
        bool, typer.Option("--version", callback=_show_version, is_eager=True, help="Show the version and stop.")
    ] = False,
) -> None:
    """Keep an ice hockey game record, and ask it who sits, who may leave when, and how many skate.

    A game time is written "2 7:42": the period and what the board shows; "OT 3:10" in overtime.

    The tool applies a published ruleset; the league's own rules and the officials on the ice decide.
    """


def program() -> Any:
    """The whole program as one command."""
    root = _application(cls=Commands, no_args_is_help=True)
    root.callback()(_root)
    return typer.main.get_command(root)
