"""Whatever passes the door is folded and answered: the record may make no sense, the engine copes with it."""

from __future__ import annotations

import itertools
import json
from typing import Any

from attrs import evolve
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from strategies import logs

from rinkfold import rulesets
from rinkfold.cli.answers.box import box_answer
from rinkfold.cli.answers.check import check_answer
from rinkfold.cli.answers.penalties import penalties_answer
from rinkfold.cli.answers.season import season_answer
from rinkfold.cli.answers.strength import segments_answer
from rinkfold.cli.answers.summary import summary_answer
from rinkfold.cli.season.files import csv_text
from rinkfold.cli.season.game_row import game_row
from rinkfold.cli.season.sheets import sheets
from rinkfold.cli.season.totals import season_of
from rinkfold.timeline import Log, Moment, event_to_dict, parse_log, replay
from rinkfold.timeline.record import log_bytes

NAMES = ("youth-8u", "youth-12u", "canada-youth", "international", "pro")


def a_season_of(log: Log, ruleset: str) -> dict[str, Any]:
    """What `season` answers about this game alone, its tables written as CSV too."""
    header = evolve(log.header, ruleset=ruleset, settings=None, pinned=None)
    season = season_of([game_row(log_bytes([header, *log.events[1:]]), "any.jsonl")])
    made = sheets(season, names=True)
    assert all(csv_text(sheet) for sheet in made)
    assert season.unreadable == []
    return season_answer(season, made)


@settings(deadline=None, max_examples=150, suppress_health_check=[HealthCheck.too_slow])
@given(logs(), st.sampled_from(NAMES), st.booleans())
def test_whatever_passes_the_door_is_answered(events, name: str, running: bool) -> None:  # type: ignore[no-untyped-def]
    """Every answer of every log that the door lets in can be made, and written as JSON."""
    log: Log = parse_log(log_bytes(events), "any.jsonl")
    rules = rulesets.with_settings(rulesets.load(name), {"game.clock": "running" if running else "stop"})
    game = replay(log, rules)
    for answer in (
        segments_answer(game),
        penalties_answer(game),
        summary_answer(game),
        box_answer(game.now),
        box_answer(game.at("2 7:42")),
        box_answer(game.at("OT 1:00")),
        box_answer(game.at(Moment(99, "1:00"))),
        check_answer(game.header, game.findings),
        a_season_of(log, name),
    ):
        json.dumps(answer, allow_nan=False)
    assert [event_to_dict(event) for event in game.events] == [event_to_dict(event) for event in log.events]
    segments = game.strength_segments
    assert all(one.end <= two.start for one, two in itertools.pairwise(segments))
