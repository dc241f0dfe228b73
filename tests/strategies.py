"""Events of every kind, well formed by the log's format, for property tests.

`events()` draws any of them and `of_kind` one kind; `logs()` draws whole logs whose pointers point at something.
"""

from __future__ import annotations

from collections.abc import Mapping
from datetime import UTC, datetime
from typing import Any, get_args

from attrs import evolve
from hypothesis import strategies as st
from hypothesis.strategies import SearchStrategy

from rinkfold.timeline.bounds import MOST_COUNT, MOST_MINUTES, MOST_PERIOD, MOST_SEQ, MOST_SKATERS
from rinkfold.timeline.events import (
    KINDS,
    PART_KINDS,
    WHEN,
    AttemptResult,
    Event,
    GameOpened,
    Goal,
    Officials,
    PenaltyEnded,
    Player,
    StaffMember,
    TeamSheet,
)

__all__ = ["events", "headers", "logs", "numbers", "of_kind", "readings", "teams"]


def up_to(most: int, usual: SearchStrategy[int]) -> SearchStrategy[int]:
    """Whole numbers as they are usual, and now and then the greatest that the format allows."""
    return st.one_of(usual, usual, st.sampled_from([most - 1, most]))


teams = st.sampled_from(["home", "away"])
numbers = st.one_of(st.integers(0, 99).map(str), st.just("00"))
texts = st.text(max_size=12)
counts = up_to(MOST_COUNT, st.integers(0, 60))
seqs = up_to(MOST_SEQ, st.integers(1, 999))
skaters = up_to(MOST_SKATERS, st.integers(0, 6))
positions = st.sampled_from(["goalkeeper", "forward", "defence"])
letters = st.sampled_from(["C", "A"])
statuses = st.sampled_from(["playing", "absent", "injured", "suspended"])
results = st.sampled_from(get_args(AttemptResult))


def _reading(minutes: int, seconds: int, tenths: int | None) -> str:
    return f"{minutes}:{seconds:02d}" if tenths is None else f"{minutes}:{seconds:02d}.{tenths}"


readings = st.builds(_reading, up_to(999, st.integers(0, 20)), st.integers(0, 59), st.none() | st.integers(0, 9))
times = st.datetimes(datetime(2000, 1, 1), datetime(2099, 12, 31)).map(
    lambda moment: moment.replace(tzinfo=UTC).isoformat().replace("+00:00", "Z")
)
json_values: SearchStrategy[Any] = st.recursive(
    st.none() | st.booleans() | st.integers(-9999, 9999) | st.floats(allow_nan=False, allow_infinity=False) | texts,
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(texts, inner, max_size=3),
    max_leaves=5,
)


def _maybe(strategy: SearchStrategy[Any]) -> SearchStrategy[Any]:
    return st.none() | strategy


def _tuples(strategy: SearchStrategy[Any], least: int = 0) -> SearchStrategy[Any]:
    return st.lists(strategy, min_size=least, max_size=3).map(tuple)


players = st.builds(
    Player,
    number=numbers,
    name=_maybe(texts),
    position=_maybe(positions),
    letter=_maybe(letters),
    status=_maybe(statuses),
)
staff = st.builds(StaffMember, name=texts, role=texts, credential=_maybe(texts))
team_sheets = st.builds(
    TeamSheet,
    name=texts,
    short=_maybe(texts),
    colour=_maybe(texts),
    roster=_maybe(_tuples(players)),
    staff=_maybe(_tuples(staff)),
)
officials = st.builds(
    Officials,
    referees=_tuples(texts),
    linespersons=_tuples(texts),
    scorekeeper=_maybe(texts),
    timekeeper=_maybe(texts),
    penalty_box=_maybe(_tuples(texts)),
)
_yes_or_no = _maybe(st.booleans())

OWN_FIELDS: Mapping[str, Mapping[str, SearchStrategy[Any]]] = {
    "game_opened": {
        "format": st.just(1),
        "game": texts,
        "ruleset": texts,
        "settings": _maybe(st.dictionaries(texts, json_values, max_size=2)),
        "pinned": _maybe(st.dictionaries(texts, json_values, max_size=2)),
        "home": team_sheets,
        "away": team_sheets,
        "date": _maybe(texts),
        "start": _maybe(texts),
        "rink": _maybe(texts),
        "competition": _maybe(texts),
        "officials": _maybe(officials),
    },
    "faceoff": {},
    "stoppage": {"reason": _maybe(texts)},
    "clock_set": {"to": readings, "reason": _maybe(texts)},
    "shot": {"team": teams, "player": _maybe(numbers), "count": _maybe(up_to(MOST_COUNT, st.integers(1, 30)))},
    "goal": {
        "team": teams,
        "scorer": _maybe(numbers),
        "assists": _maybe(_tuples(numbers)),
        "ends": _maybe(seqs),
        "own_goal": _yes_or_no,
        "awarded": _yes_or_no,
        "empty_net": _yes_or_no,
    },
    "penalty_assessed": {
        "team": teams,
        "player": _maybe(numbers),
        "staff": _maybe(texts),
        "parts": _tuples(st.sampled_from(PART_KINDS), least=1),
        "infraction": _maybe(texts),
        "announced": _maybe(readings),
        "served_by": _maybe(numbers),
        "delayed_call": _yes_or_no,
        "on_clock": _yes_or_no,
        "penalty_shot": _yes_or_no,
        "minutes": _maybe(up_to(MOST_MINUTES, st.integers(0, 30)) | st.sampled_from([1.5, 2.5, 998.75])),
        "rule": _maybe(texts),
    },
    "penalty_ended": {"team": teams, "penalty": seqs, "cause": st.sampled_from(["released", "ruling"])},
    "goalie_change": {"team": teams, "goalie": _maybe(numbers)},
    "penalty_shot": {"team": teams, "player": _maybe(numbers), "result": results},
    "timeout": {"team": teams},
    "period_end": {},
    "shootout_attempt": {"team": teams, "player": _maybe(numbers), "result": results},
    "roster_change": {
        "team": teams,
        "number": numbers,
        "was": _maybe(numbers),
        "name": _maybe(texts),
        "position": _maybe(positions),
        "letter": _maybe(letters),
        "status": _maybe(statuses),
    },
    "observed_strength": {"home": skaters, "away": skaters},
    "observed_player": {"team": teams, "player": numbers, "where": st.sampled_from(["ice", "box"])},
    "figures": {
        "team": teams,
        "goals": _maybe(counts),
        "shots": _maybe(counts),
        "saves": _maybe(counts),
        "goalie": _maybe(numbers),
        "source": texts,
    },
    "remark": {"text": texts},
    "void": {"target": seqs, "reason": texts},
    "amend": {"target": seqs, "changes": st.dictionaries(texts, json_values, min_size=1, max_size=3), "reason": texts},
    "game_closed": {
        "outcome": st.sampled_from(["played", "shortened", "abandoned", "forfeit"]),
        "signed": _maybe(texts | _tuples(texts)),
        "reason": _maybe(texts),
    },
}
"""The fields of each kind beside the common ones."""


@st.composite
def of_kind(draw: st.DrawFn, kind: str) -> Event:
    """An event of `kind` that is well formed by itself; what it points at may not exist."""
    own = {name: draw(strategy) for name, strategy in OWN_FIELDS[kind].items()}
    common = {
        "seq": draw(seqs),
        "after": draw(_maybe(seqs)),
        "recorded_at": draw(_maybe(times)),
        "by": draw(_maybe(texts)),
        "note": draw(_maybe(texts)),
        "prev": draw(_maybe(st.just("") | st.text("0123456789abcdef", min_size=64, max_size=64))),
    }
    return KINDS[kind](**common, **draw(_when(kind)), **own)


@st.composite
def _when(draw: st.DrawFn, kind: str) -> dict[str, Any]:
    when = WHEN[kind]
    if when == "never" or (when == "optional" and draw(st.booleans())):
        return {}
    clock = _maybe(readings) if when == "no reading" else readings
    return {"period": draw(up_to(MOST_PERIOD, st.integers(1, 5))), "clock": draw(clock)}


def events(kinds: tuple[str, ...] = tuple(KINDS)) -> SearchStrategy[Event]:
    """An event of any of `kinds`."""
    return st.sampled_from(kinds).flatmap(of_kind)


headers: SearchStrategy[Event] = of_kind("game_opened")
_IN_PLAY = tuple(kind for kind in KINDS if kind not in ("game_opened", "void", "amend", "game_closed"))
_RULES: SearchStrategy[Mapping[str, Any]] = st.sampled_from(
    [
        {"settings": None, "pinned": None},
        {"settings": {"lengths.minor": "1:30"}, "pinned": None},
        {"settings": {}, "ruleset": "å", "pinned": {"name": "å", "knobs": {"lengths.minor": "1:30"}}},
        {
            "settings": {"lengths.minor": "1:30"},
            "ruleset": "b",
            "pinned": {"name": "b", "knobs": {"lengths.minor": "1:30"}},
        },
    ]
)
"""Rules of a first line that agree with each other."""


@st.composite
def logs(draw: st.DrawFn, most: int = 12) -> tuple[Event, ...]:
    """The events of a whole log without corrections: numbered, and pointing at earlier events only."""
    opened = evolve(draw(headers), **draw(_RULES))
    drawn = [opened, *draw(st.lists(events(_IN_PLAY), max_size=most))]
    return tuple(_in_place(event, seq) for seq, event in enumerate(drawn, 1))


def _in_place(event: Event, seq: int) -> Event:
    def earlier(target: int | None) -> int | None:
        return None if target is None or seq == 1 else 1 + target % (seq - 1)

    event = evolve(event, seq=seq, prev=None, after=earlier(event.after))
    if isinstance(event, Goal):
        return evolve(event, ends=earlier(event.ends))
    if isinstance(event, PenaltyEnded):
        return evolve(event, penalty=earlier(event.penalty) or 1)
    return event


def header(**fields: Any) -> GameOpened:
    """A small header for tests that need one and do not care which."""
    given: dict[str, Any] = {
        "seq": 1,
        "format": 1,
        "game": "g-1",
        "ruleset": "youth-12u",
        "home": TeamSheet(name="Larks"),
        "away": TeamSheet(name="Otters"),
    }
    return GameOpened(**(given | fields))
