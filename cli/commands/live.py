"""`rinkfold live`."""

from __future__ import annotations

from typing import Annotated

import typer

__all__ = ["live"]


def live(
    game: Annotated[
        str | None,
        typer.Argument(metavar="GAME.jsonl", help="The game's log; one that is not there is opened on the page."),
    ] = None,
    lan: Annotated[bool, typer.Option("--lan", help="Let others in the rink's network see and help.")] = False,
    port: Annotated[str | None, typer.Option(metavar="N", help="The port; a free one if not given.")] = None,
    no_browser: Annotated[bool, typer.Option("--no-browser", help="Only say the address.")] = False,
    names: Annotated[bool, typer.Option("--names", help="Show names to readers and doors too.")] = False,
    ruleset: Annotated[
        str | None, typer.Option(metavar="FILE", help="Your league's ruleset, to be chosen on the page.")
    ] = None,
) -> None:
    """The live page for the people at the table, in the browser, served from this computer.

    Without --lan nothing but this computer can reach it. Exit code 130: it was quit with Ctrl-C, as it is meant to be.
    """
    from datetime import date

    from ... import rulesets
    from ..errors import INTERRUPTED, refuse
    from ..live.serving import Wanted, serve

    if port is not None and not (port.isascii() and port.isdecimal()):
        refuse("bad_port", f"--port {port!r} is no number.", "For example --port 8723.")
    if ruleset is not None:
        rulesets.load(ruleset)
    try:
        serve(
            Wanted(
                path=game or f"game-{date.today().isoformat()}.jsonl",
                lan=lan,
                port=None if port is None else int(port),
                browser=not no_browser,
                names=names,
                ruleset=ruleset,
            )
        )
    except KeyboardInterrupt:
        raise typer.Exit(INTERRUPTED) from None
