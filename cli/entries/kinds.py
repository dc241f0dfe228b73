"""The table of entries: one grammar for each kind of event, two where people say two things of one kind."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from attrs import evolve

from ...timeline.events import PenaltyEnded
from .amending import CHANGES_SLOT
from .fields import LAST, OPENING, SHOTS, SIDES, SIGNED, SITTING
from .grammar import Grammar, sentence, slot
from .options import Option, flag, text_option, value_option
from .penalties import BENCH_LENGTH, INFRACTION, PARTS_SLOT, WHO_SLOT
from .taking_back import UNDO_REASON, VOID_REASON
from .values import (
    COUNT,
    GOALIE,
    INT,
    KNOWN_NUMBER,
    LENGTH,
    MINUTES,
    NUMBER,
    NUMBERS,
    READING,
    SEQ,
    Value,
    choice,
)
from .words import FILLERS, OPTIONS

__all__ = ["GRAMMARS", "find_grammars"]


def _flags(*fields: str) -> tuple[Option, ...]:
    """Both phrases of each field that is true or false, or all of a field with a list of values."""
    return tuple(flag(name, value) for name, value in OPTIONS if name in fields and value is not ...)


_PENALTY_OPTIONS: tuple[Option, ...] = (
    value_option("served_by", NUMBER),
    value_option("announced", LENGTH),
    *_flags("delayed_call", "on_clock", "penalty_shot"),
    value_option("minutes", MINUTES),
    text_option("rule"),
)
_COUNTS = tuple(value_option(name, INT) for name in ("goals", "shots", "saves"))
_ATTEMPT = (slot("player", NUMBER), slot("result", choice("result")))
_BENCH: Mapping[str, Any] = {"parts": ("bench_minor",)}


def _is_bench(event: Any) -> bool:
    return bool(event.player is None and event.staff is None and event.parts == _BENCH["parts"])


def _caused(cause: str) -> Any:
    def prints(event: PenaltyEnded) -> bool:
        return event.cause == cause

    return prints


GRAMMARS: tuple[Grammar, ...] = (
    Grammar(kind="faceoff", verb="faceoff", example="700 go"),
    Grammar(kind="stoppage", verb="stop", rest=sentence("reason"), example="700 stop offside"),
    Grammar(
        kind="goal",
        verb="goal",
        team=True,
        slots=(slot("scorer", NUMBER),),
        own=(
            evolve(value_option("assists", NUMBERS), writes=bool),
            flag("assists", ()),
            *_flags("own_goal", "awarded", "empty_net"),
            value_option("ends", SEQ),
        ),
        example="850 away goal 17 from 16 18",
    ),
    Grammar(
        kind="penalty_assessed",
        verb="bench minor",
        team=True,
        slots=(BENCH_LENGTH,),
        own=_PENALTY_OPTIONS,
        rest=INFRACTION,
        constants=_BENCH,
        prints=_is_bench,
        example="915 away bench minor too many players served 4",
    ),
    Grammar(
        kind="penalty_assessed",
        verb="penalty",
        team=True,
        slots=(WHO_SLOT, PARTS_SLOT),
        own=_PENALTY_OPTIONS,
        rest=INFRACTION,
        example="915 home penalty 12 minor tripping",
    ),
    Grammar(
        kind="shot",
        verb="shots",
        team=True,
        slots=(slot("count", Value(COUNT.read, str)),),
        prints=lambda event: event.player is None and event.count is not None,
        example="away shots 11",
    ),
    Grammar(kind="shot", verb="shot", team=True, slots=(SHOTS,), example="away shot 17"),
    Grammar(
        kind="goalie_change",
        verb="goalie",
        team=True,
        slots=(slot("goalie", GOALIE),),
        example="58 home goalie out",
    ),
    Grammar(
        kind="penalty_shot", verb="penalty shot", team=True, slots=_ATTEMPT, example="412 home penalty shot 9 saved"
    ),
    Grammar(kind="shootout_attempt", verb="shootout", team=True, slots=_ATTEMPT, example="home shootout 9 scored"),
    Grammar(kind="timeout", verb="timeout", team=True, example="310 away timeout"),
    Grammar(kind="period_end", verb="end period", example="end period"),
    Grammar(
        kind="penalty_ended",
        verb="door",
        team=True,
        slots=(SITTING,),
        constants={"cause": "released"},
        prints=_caused("released"),
        example="615 home door 12 open",
    ),
    Grammar(
        kind="penalty_ended",
        verb="ruling",
        team=True,
        slots=(SITTING,),
        constants={"cause": "ruling"},
        prints=_caused("ruling"),
        example="615 home ruling 12",
    ),
    Grammar(
        kind="clock_set",
        verb="clock",
        slots=(slot("to", READING),),
        rest=sentence("reason"),
        example="700 clock 708 the horn was late",
    ),
    Grammar(
        kind="roster_change",
        verb="roster",
        team=True,
        slots=(slot("number", KNOWN_NUMBER),),
        own=(value_option("was", KNOWN_NUMBER), text_option("name"), *_flags("position", "letter", "status")),
        example="home roster 21 was 12",
    ),
    Grammar(
        kind="observed_player",
        verb="seen",
        team=True,
        slots=(slot("player", KNOWN_NUMBER), slot("where", choice("where"))),
        example="640 home seen 12 ice",
    ),
    Grammar(
        kind="observed_strength",
        verb="seen",
        slots=(SIDES,),
        example="640 seen 5 on 4",
    ),
    Grammar(
        kind="figures",
        verb="figures",
        team=True,
        own=(*_COUNTS, value_option("goalie", KNOWN_NUMBER), text_option("source")),
        needed={"source": "source board"},
        example="home figures shots 24 source shot sheet",
    ),
    Grammar(
        kind="remark",
        verb="remark",
        rest=sentence("text", required=True),
        example="remark ice repaired before the third",
    ),
    Grammar(
        kind="void",
        verb="void",
        slots=(slot("target", SEQ),),
        rest=VOID_REASON,
        example="void 23 wrong side",
    ),
    Grammar(
        kind="amend",
        verb="amend",
        slots=(slot("target", SEQ), CHANGES_SLOT),
        rest=sentence("reason", usual="corrected", intro=FILLERS["because"]),
        example="amend 23 clock 9:15 because misread",
    ),
    Grammar(
        kind="game_closed",
        verb="close",
        slots=(slot("outcome", choice("outcome")),),
        own=(value_option("signed", SIGNED),),
        rest=sentence("reason"),
        example="close played",
    ),
    Grammar(
        kind="game_opened",
        verb="open",
        slots=(OPENING,),
        example='open {"format": 1, "game": "g", "ruleset": "adult", "home": {"name": "Elm"}, "away": {"name": "Oak"}}',
    ),
    Grammar(
        kind="void",
        verb="undo",
        slots=(LAST,),
        rest=UNDO_REASON,
        prints=lambda event: False,
        example="undo",
    ),
)
"""In the order in which they are asked whether they print an event: those with a condition stand first."""


def find_grammars(verb: str) -> tuple[Grammar, ...]:
    """The grammars of `verb`; some verbs say one thing of a team and another without."""
    return tuple(grammar for grammar in GRAMMARS if grammar.verb == verb)
