"""`rinkfold import`."""

from __future__ import annotations

from typing import Annotated

import typer

from ..arguments import AsJson
from .new import Colour, Roster, Short

__all__ = ["import_"]


def import_(
    events: Annotated[
        str, typer.Argument(metavar="EVENTS.csv", help="A table of events, one a row.", show_default=False)
    ],
    output: Annotated[
        str, typer.Option("--output", "-o", metavar="GAME.jsonl", help="The new log.", show_default=False)
    ],
    ruleset: Annotated[str | None, typer.Option(help="A ruleset's name (rinkfold rules list), or a file.")] = None,
    home: Annotated[str | None, typer.Option(help="The home team.")] = None,
    away: Annotated[str | None, typer.Option(help="The away team.")] = None,
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
    """Make a log of a table of events: one column a field, or one column with short entries.

    --ruleset, --home and --away open the game, unless the table does so in its first row.
    Everything in the table is right, or all that is wrong is told with row and column, and nothing is written.
    """
    from functools import partial

    from ... import rulesets
    from ..errors import once_written
    from ..interchange.importing import import_table
    from ..new_game import NewGame, NewTeam, opened
    from ..opening import replayed
    from ..paper import say, say_json
    from ..words import footer

    given = [ruleset, home, away, home_short, away_short, home_colour, away_colour, home_roster, away_roster]
    given += [date, start, rink, competition, game_id, *(setting or ())]
    opening = None
    if any(given):
        needed = _required(ruleset, home, away)
        game = NewGame(
            ruleset=needed[0],
            home=NewTeam(name=needed[1], short=home_short, colour=home_colour, roster=home_roster),
            away=NewTeam(name=needed[2], short=away_short, colour=away_colour, roster=away_roster),
            settings=setting or (),
            game=game_id,
            date=date,
            start=start,
            rink=rink,
            competition=competition,
        )
        opening = partial(opened, game)
    log = import_table(events, output, opening)
    with once_written(f"{output} was written"):
        played = replayed(log)
        applied = rulesets.applied_line(played.rules)
        if as_json:
            from ..answers.common import head

            say_json({**head(played.header), "file": output, "events": len(log.events), "applied": applied})
        else:
            count = len(log.events) - 1
            events_word = "event" if count == 1 else "events"
            say([f"Wrote {output}: the game opened, and {count} {events_word}.", applied, footer(played.header)])


def _required(ruleset: str | None, home: str | None, away: str | None) -> tuple[str, str, str]:
    """What opens a game and cannot be left out."""
    from ..errors import refuse

    if ruleset and home and away:
        return ruleset, home, away
    given = {"--ruleset": ruleset, "--home": home, "--away": away}
    missing = [name for name, value in given.items() if not value]
    refuse("not_opened", f"To open the game, {' and '.join(missing)} must be given too.")
