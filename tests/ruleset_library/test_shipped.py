"""The shipped rulesets: their values as the knob table of the penalty model has them, and a source for each."""

from __future__ import annotations

import re
from importlib import resources
from pathlib import Path
from typing import Any

import pytest
from entries.common import entered

from rinkfold import rulesets
from rinkfold.timeline.events import PenaltyAssessed
from rinkfold.timeline.knobs.values import as_written
from rinkfold.timeline.rules import KNOBS, Ruleset

ROOT = Path(__file__).resolve().parents[2]
BUILTIN = resources.files("rinkfold.rulesets") / "builtin"

YOUTH: dict[str, Any] = {
    "game.periods": 3,
    "game.period_length": "15:00",
    "game.clock": "stop",
    "game.reading": "remaining",
    "game.running_clock.starts_at_lead": 0,
    "game.running_clock.from_period": 3,
    "game.running_clock.stops_below": 0,
    "game.timeouts": 1,
    "game.max_assists": 2,
    "ice.skaters": 5,
    "ice.min_skaters": 3,
    "ice.plays_short": True,
    "lengths.minor": "2:00",
    "lengths.major": "5:00",
    "lengths.match": "5:00",
    "lengths.misconduct": "10:00",
    "minutes.game_misconduct": 10,
    "minutes.match": 10,
    "minutes.washed_out": True,
    "goals.ends_minor": "least_time_left",
    "goals.penalty_shot_ends_minor": False,
    "goals.awarded_ends_minor": False,
    "goals.shorthanded_ends_own_minor": False,
    "delayed_call.even": "wash",
    "delayed_call.shorthanded_goal": "wash",
    "coincident.lone_minor_pair": "substitute",
    "coincident.late_netting": False,
    "ejection.major": "second",
    "ejection.misconducts": 2,
    "ejection.player_penalties": 5,
    "ejection.counts_washed_out": True,
    "stand_in.ejected": "at_once",
    "overtime.skaters": 5,
    "overtime.length": "5:00",
    "overtime.periods": 1,
    "overtime.sudden_victory": True,
    "overtime.equal_pair": "on_the_clock",
    "shootout.rounds": 3,
}
CANADA = {
    "delayed_call.even": "swap",
    "delayed_call.shorthanded_goal": "serve",
    "ejection.major": "always",
    "ejection.player_penalties": 0,
}
INTERNATIONAL = {
    "game.period_length": "20:00",
    "minutes.game_misconduct": 20,
    "minutes.match": 25,
    "minutes.washed_out": False,
    "coincident.lone_minor_pair": "four_on_four",
    "coincident.late_netting": True,
    "ejection.player_penalties": 0,
    "ejection.counts_washed_out": False,
    "overtime.skaters": 3,
    "shootout.rounds": 5,
}
PRO = {
    **INTERNATIONAL,
    "minutes.game_misconduct": 10,
    "minutes.match": 10,
    "ejection.major": "third",
    "stand_in.ejected": "before_expiry",
    "shootout.rounds": 3,
}
YOUNGEST = {"game.period_length": "12:00", "lengths.minor": "1:30"}

SHIPPED: dict[str, dict[str, Any]] = {
    "adult": {"stand_in.ejected": "before_expiry"},
    "canada-youth": CANADA,
    "high-school": {"game.period_length": "17:00"},
    "international": INTERNATIONAL,
    "pro": PRO,
    "youth-8u": {**YOUNGEST, "ice.plays_short": False},
    "youth-10u": YOUNGEST,
    "youth-12u": {},
    "youth-14u": {},
    "youth-16u": {},
    "youth-18u": {},
}

BOOKS = (
    "IIHF Official Rule Book 20",
    "NHL Official Rules",
    "Hockey Canada Playing Rules 20",
    "NFHS Ice Hockey Rules Interpretations 20",
    "Svenska Ishockeyförbundet, ",
    "Northern Ontario Hockey Association, ",
)
MARKS = ("common practice", "local: ", "without effect ")


@pytest.mark.parametrize("name", SHIPPED)
def test_values_are_those_of_the_knob_table(name: str) -> None:
    """Every knob of a shipped ruleset has the value that section 9 of the penalty model gives in its column."""
    assert as_written(rulesets.load(name)) == YOUTH | SHIPPED[name]


def test_these_are_shipped_and_no_others() -> None:
    """The age classes in the order of their names, numbers in them as numbers."""
    assert rulesets.names()[: len(SHIPPED)] == tuple(SHIPPED)


@pytest.mark.parametrize("name", SHIPPED)
def test_every_value_has_a_source(name: str) -> None:
    """A source is a published book, or says that the value is local, common practice, or without effect."""
    sources = rulesets.load(name).sources
    assert sources.keys() == KNOBS.keys()
    assert [each for each in sources.items() if not each[1].startswith(MARKS + BOOKS)] == []


@pytest.mark.parametrize("name", SHIPPED)
def test_a_value_that_a_file_restates_has_its_own_source_there(name: str) -> None:
    """Loading a shipped file refuses a value without a source, so each file states as many of one as of the other."""
    text = BUILTIN.joinpath(f"{name}.toml").read_text(encoding="utf-8")
    tables, _, sources = text.partition("[sources]")
    body = tables[tables.find("\n[") :] if "\n[" in tables else ""
    assert len(re.findall(r"^\w+ = ", body, re.M)) == len(re.findall(r'^"[\w.]+" = ', sources, re.M))


def test_books_differ_from_the_youth_customs_by_their_own_authority() -> None:
    """What the Canadian, the international and the professional ruleset set otherwise is not common practice alone."""
    for name in ("canada-youth", "international", "pro"):
        rules = rulesets.load(name)
        changed = [knob for knob, _, _ in rulesets.diff(rulesets.load("youth-18u"), rules)]
        weak = [knob for knob in changed if rules.sources[knob].startswith("common practice")]
        assert changed
        assert weak == []


def test_local_customs_say_so() -> None:
    """Period lengths, the running clock, overtime, and majors and misconducts of the youngest are marked as local."""
    youngest = rulesets.load("youth-8u").sources
    local = {knob for knob, source in youngest.items() if source.startswith("local: ")}
    assert local >= {"game.period_length", "lengths.major", "lengths.match", "lengths.misconduct"}
    assert local >= {"game.running_clock.starts_at_lead", "overtime.skaters", "overtime.length", "shootout.rounds"}
    assert rulesets.load("adult").sources["game.clock"].startswith("local: ")


@pytest.mark.parametrize("name", SHIPPED)
def test_each_has_a_title_and_words_for_infractions(name: str) -> None:
    """The words offered are the trade's, in small letters, each once."""
    rules = rulesets.load(name)
    assert rules.name == name
    assert rules.title
    assert {"tripping", "hooking", "too many players"} < set(rules.infractions)
    assert [word for word in rules.infractions if word != word.lower()] == []
    assert len(set(rules.infractions)) == len(rules.infractions)


def test_every_word_for_an_infraction_can_be_typed() -> None:
    """None of them is taken for another part of an entry."""
    words = sorted({word for name in SHIPPED for word in rulesets.load(name).infractions})
    typed = [entered(f"915 home penalty 12 2 {word}") for word in words]
    assert [event.infraction for event in typed if isinstance(event, PenaltyAssessed)] == words


def test_the_younger_classes_have_a_word_for_a_forbidden_body_check() -> None:
    """Where body checking is not allowed it is an infraction."""
    has = {name: "body checking" in rulesets.load(name).infractions for name in SHIPPED}
    assert [name for name in SHIPPED if has[name]] == ["adult", "youth-8u", "youth-10u", "youth-12u"]


def test_the_knob_table_of_the_penalty_model_names_every_knob() -> None:
    """Section 9 and the class have the same knobs."""
    text = (ROOT / "docs" / "penalty-model.md").read_text(encoding="utf-8")
    section = text.partition("## 9.")[2].partition("## 10.")[0]
    named: list[str] = []
    for cell in re.findall(r"^\| ([^|]*`[^|]*) \|", section, re.M):
        table = ""
        for name in re.findall(r"`([\w.]+\.?\w+)`", cell):
            full = f"{table}{name}" if name.startswith(".") else name
            table = full.rpartition(".")[0]
            named.append(full)
    assert set(named) == set(KNOBS)


def test_what_a_caller_writes_into_the_sources_stays_with_the_caller() -> None:
    """A second load is not changed by what was done to the first."""
    first = rulesets.load("adult")
    assert isinstance(first.sources, dict)
    first.sources["lengths.minor"] = "scribbled"
    assert rulesets.load("adult").sources["lengths.minor"] == "common practice"


def test_the_engines_own_values_are_possible() -> None:
    """What a file that extends nothing starts from goes together."""
    assert rulesets.with_settings(Ruleset(), {}) == Ruleset()
