"""The ruleset of a log: pinned, or named and set, with the amendments of the first line."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

import pytest
from attrs import evolve, frozen

from rinkfold import rulesets
from rinkfold.timeline.events import Amend, Event, GameOpened, TeamSheet, Void
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.record import event_from_line, event_to_line


@frozen
class AnyLog:
    """The least that `rulesets.of` asks of a log."""

    header: GameOpened
    events: Sequence[Event]
    name: str = "game.jsonl"


def log(*corrections: Event, **fields: Any) -> AnyLog:
    sheets = {"home": TeamSheet(name="Larches"), "away": TeamSheet(name="Alders")}
    header = GameOpened(seq=1, format=1, game="larches-alders", **{"ruleset": "youth-12u", **sheets, **fields})
    return AnyLog(header, (header, *corrections))


def amend(seq: int, target: int = 1, **changes: Any) -> Amend:
    return Amend(seq=seq, target=target, changes=changes, reason="table error")


def void(seq: int, target: int) -> Void:
    return Void(seq=seq, target=target, reason="table error")


def minor(of: AnyLog) -> int:
    return rulesets.of(of).lengths.minor


def refusal(of: AnyLog) -> str:
    with pytest.raises(ProblemsFound) as caught:
        rulesets.of(of)
    return str(caught.value)


OURS = rulesets.with_settings(rulesets.load("youth-12u"), {"lengths.minor": "1:00"})


def test_the_name_and_the_settings() -> None:
    """Without anything pinned the name is looked up and the settings are laid over it."""
    rules = rulesets.of(log(settings={"lengths.minor": "1:30", "overtime.skaters": 3}))
    assert (rules.name, rules.lengths.minor, rules.overtime.skaters, rules.lengths.major) == ("youth-12u", 900, 3, 3000)
    assert rules.sources["lengths.minor"] == "set for this game"
    assert rulesets.of(log()) == rulesets.load("youth-12u")


def test_what_is_pinned_wins() -> None:
    """A pinned ruleset needs no name that anybody knows, and settings are in it already."""
    pinned = rulesets.pin(OURS)
    assert rulesets.of(log(ruleset="long-gone", settings={"lengths.minor": "0:30"}, pinned=pinned)) == OURS


def test_pinned_rules_come_through_a_log_file() -> None:
    """What is written in the first line and read from it is the same ruleset, with its sources and words."""
    header = event_from_line(event_to_line(log(pinned=rulesets.pin(OURS)).header).decode())
    assert isinstance(header, GameOpened)
    rules = rulesets.of(AnyLog(header, (header,)))
    assert rules == OURS
    assert (rules.sources, rules.infractions) == (OURS.sources, OURS.infractions)


@pytest.mark.parametrize(
    ("corrections", "tenths"),
    [
        ([], 600),
        ([amend(2, settings={"lengths.minor": "1:30"})], 900),
        ([amend(2, ruleset="youth-10u")], 900),
        ([amend(2, settings=None)], 1200),
        ([amend(2, settings={"lengths.minor": "1:30"}), void(3, 2)], 600),
        ([amend(2, settings={"lengths.minor": "1:30"}), void(3, 2), void(4, 3)], 900),
        ([amend(2, settings={"lengths.minor": "1:30"}), amend(3, 2, changes={"rink": "North"})], 600),
        ([amend(2, rink="North")], 600),
        ([amend(2, settings={"lengths.minor": "1:30"}), amend(3, rink="North")], 900),
        ([amend(2, settings={}), amend(3, settings={"lengths.minor": "1:30"}, pinned=rulesets.pin(OURS))], 600),
        ([amend(2, pinned=rulesets.pin(rulesets.load("youth-10u"))), amend(3, settings=None)], 1200),
    ],
    ids=str,
)
def test_amendments_of_the_rules_count(corrections: Sequence[Event], tenths: int) -> None:
    """One that changes the rules outdates what was pinned before it, unless it is voided or pins anew itself."""
    assert minor(log(*corrections, pinned=rulesets.pin(OURS))) == tenths


def test_the_effective_header_shows_what_counts() -> None:
    """The first line with its amendments; what was pinned is gone where it no longer holds."""
    changed = log(amend(2, settings={"lengths.minor": "1:30"}, rink="North"), pinned=rulesets.pin(OURS))
    header = rulesets.effective_header(changed)
    assert (header.settings, header.rink, header.pinned) == ({"lengths.minor": "1:30"}, "North", None)
    assert rulesets.effective_header(log()) == log().header


def test_pinning_anew_keeps_what_was_pinned() -> None:
    """A league's ruleset that nobody can look up keeps its other values when one more knob is set."""
    league = evolve(OURS, name="our-league")
    pinned = log(ruleset="our-league", pinned=rulesets.pin(league))
    changes = rulesets.pinned_anew(pinned, {"settings": {"overtime.skaters": 3}})
    after = AnyLog(pinned.header, (pinned.header, amend(2, **changes)))
    rules = rulesets.of(after)
    assert (rules.name, rules.lengths.minor, rules.overtime.skaters) == ("our-league", 600, 3)


def test_pinning_anew_looks_up_what_a_dropped_setting_was() -> None:
    """Where a knob is no longer set, its value comes from the ruleset again."""
    before = log(settings={"lengths.minor": "1:00"}, pinned=rulesets.pin(OURS))
    changes = rulesets.pinned_anew(before, {"settings": {"overtime.skaters": 3}})
    assert changes["pinned"]["knobs"]["lengths.minor"] == "2:00"
    assert changes["pinned"]["knobs"]["overtime.skaters"] == 3


def test_pinning_anew_what_the_library_has() -> None:
    """Where the pinned copy is taken away, the named ruleset as it is found today is pinned, with the settings."""
    before = log(pinned=rulesets.pin(OURS))
    assert rulesets.pinned_anew(before, {"pinned": None})["pinned"] == rulesets.pin(rulesets.load("youth-12u"))
    league = log(ruleset="our-league", pinned=rulesets.pin(evolve(OURS, name="our-league")))
    with pytest.raises(ProblemsFound, match='no ruleset "our-league"'):
        rulesets.pinned_anew(league, {"pinned": None})


def test_pinning_anew_with_another_ruleset() -> None:
    """The new ruleset is pinned with the settings that still stand; other changes pin nothing."""
    before = log(settings={"lengths.minor": "1:00"}, pinned=rulesets.pin(OURS))
    changes = rulesets.pinned_anew(before, {"ruleset": "youth-8u", "rink": "North"})
    assert (changes["ruleset"], changes["rink"]) == ("youth-8u", "North")
    assert (changes["pinned"]["name"], changes["pinned"]["knobs"]["lengths.minor"]) == ("youth-8u", "1:00")
    assert changes["pinned"]["knobs"]["ice.plays_short"] is False
    assert rulesets.pinned_anew(before, {"rink": "North"}) == {"rink": "North"}


@pytest.mark.parametrize(
    ("fields", "text"),
    [
        (
            {"settings": {"lengths.minor": 90, "lengths.mayor": "3:00", "ice.plays_short": "no"}},
            'game.jsonl: event 1: settings.lengths.minor: Expected a length as a reading such as "2:00", found 90. '
            'If seconds are meant, write "1:30".\n'
            'game.jsonl: event 1: settings.lengths.mayor: There is no such knob. Did you mean "lengths.major"?\n'
            'game.jsonl: event 1: settings.ice.plays_short: Expected true or false, found "no". '
            "Write true or false, without quotation marks.",
        ),
        (
            {"settings": {"lengths": {"minor": "1:30"}}},
            "game.jsonl: event 1: settings.lengths: This is a table, not a knob. "
            "Its knobs are lengths.minor, lengths.major, lengths.match, lengths.misconduct.",
        ),
        (
            {"settings": {"ice.skaters": 4}},
            "game.jsonl: event 1: settings.overtime.skaters: Overtime cannot have 5 skaters a side where ice.skaters "
            "is 4. Lower overtime.skaters or raise ice.skaters.",
        ),
        (
            {"ruleset": "../our-league.toml"},
            'game.jsonl: event 1: ruleset: The log names the file "../our-league.toml" for its rules; a log\'s ruleset '
            "is found by name only. Give the rules yourself: rulesets.load('../our-league.toml').",
        ),
        (
            {"pinned": {"name": "x", "knobs": {"lengths.minor": "90", "lengths.new": 1}}},
            'game.jsonl: event 1: pinned.knobs.lengths.minor: Expected a length as a reading such as "2:00", found '
            '"90". Write minutes, a colon and two figures of seconds.\n'
            "game.jsonl: event 1: pinned.knobs.lengths.new: There is no such knob. The knobs of lengths are "
            "lengths.minor, lengths.major, lengths.match, lengths.misconduct. "
            "If a newer release wrote the log, read it with that one.",
        ),
        (
            {"pinned": {"title": 7, "sources": {"lengths.minor": 1}, "colour": "blue"}},
            "game.jsonl: event 1: pinned.name: The field is missing; a pinned ruleset needs it.\n"
            "game.jsonl: event 1: pinned.knobs: The field is missing; a pinned ruleset needs it.\n"
            "game.jsonl: event 1: pinned.title: Expected a string, found 7.\n"
            'game.jsonl: event 1: pinned.sources: Expected an object of strings, found {"lengths.minor": 1}.\n'
            "game.jsonl: event 1: pinned.colour: A pinned ruleset has no such field. "
            "It has name, title, knobs, sources, infractions.",
        ),
    ],
    ids=["settings", "a table in the settings", "impossible", "a path", "pinned knobs", "pinned shape"],
)
def test_each_wrong_first_line_is_refused_with_its_text(fields: Mapping[str, Any], text: str) -> None:
    """What is wrong with the rules of a log is told with the log's name and the first line."""
    assert refusal(log(**fields)) == text


def test_an_unknown_name_in_a_log() -> None:
    """The list of names comes with it."""
    text = refusal(log(ruleset="youth-21u"))
    assert text.startswith('game.jsonl: event 1: ruleset: There is no ruleset "youth-21u".')
    assert "The rulesets are adult, " in text
