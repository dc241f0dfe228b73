"""`rinkfold new`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import AsJson, GameFile

__all__ = ["new"]

Short = "What the team is called in entries, for example LAN."
Colour = "The colour it plays in; entries may use it too."
Roster = "Its roster: a CSV file with the heads number,name,position,letter,status."


def new(
    game: GameFile,
    ruleset: Annotated[
        str, typer.Option(help="A ruleset's name (rinkfold rules list), or a file.", show_default=False)
    ],
    home: Annotated[str, typer.Option(help="The home team.", show_default=False)],
    away: Annotated[str, typer.Option(help="The away team.", show_default=False)],
    home_short: Annotated[str | None, typer.Option(help=Short)] = None,
    away_short: Annotated[str | None, typer.Option(help=Short)] = None,
    home_colour: Annotated[str | None, typer.Option(help=Colour)] = None,
    away_colour: Annotated[str | None, typer.Option(help=Colour)] = None,
    home_roster: Annotated[str | None, typer.Option(metavar="F.csv", help=Roster)] = None,
    away_roster: Annotated[str | None, typer.Option(metavar="F.csv", help=Roster)] = None,
    setting: Annotated[
        list[str] | None, typer.Option(metavar="KNOB=VALUE", help="A rule set otherwise, as often as needed.")
    ] = None,
    date: Annotated[str | None, typer.Option(metavar="YYYY-MM-DD", help="The day; today if not given.")] = None,
    start: Annotated[str | None, typer.Option(metavar="HH:MM", help="When it was planned to begin.")] = None,
    rink: Annotated[str | None, typer.Option(help="Where.")] = None,
    competition: Annotated[str | None, typer.Option(help="League, cup, friendly.")] = None,
    game_id: Annotated[str | None, typer.Option("--id", help="What the game is called in answers.")] = None,
    as_json: AsJson = False,
) -> None:
    """Open a game, and say which rules will be applied.

    The whole ruleset is written into the first line. A file that exists is never written over.
    """
    from ... import rulesets
    from ...timeline.record import create
    from ..errors import once_written
    from ..new_game import NewGame, NewTeam, opened
    from ..paper import say, say_json
    from ..words import footer

    header, rules = opened(
        NewGame(
            ruleset=ruleset,
            home=NewTeam(name=home, short=home_short, colour=home_colour, roster=home_roster),
            away=NewTeam(name=away, short=away_short, colour=away_colour, roster=away_roster),
            settings=setting or (),
            game=game_id,
            date=date,
            start=start,
            rink=rink,
            competition=competition,
        )
    )
    header = create(game, header)
    applied = rulesets.applied_line(rules)
    with once_written(f"{game} was opened"):
        if as_json:
            from ..answers.common import head

            say_json({**head(header), "file": game, "applied": applied})
        else:
            say([f"Opened {game}: {home} (home) against {away} (away).", applied, footer(header)])
