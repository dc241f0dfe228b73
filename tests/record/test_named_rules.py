"""The rules that a first line names are those that the game is played by, as written and after every correction."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from strategies import header

from rinkfold import rulesets
from rinkfold.timeline import Amend, Event, LiveGame, Problem, ProblemsFound, Remark, Void
from rinkfold.timeline.record import append, create, log_bytes, parse_log, read_log

ADULT = rulesets.load("adult")
ONE_MINUTE = {"lengths.minor": "1:00"}
LEAGUE = {**rulesets.pin(ADULT), "name": "our-league"}
SET = rulesets.with_settings(ADULT, ONE_MINUTE)


def adult(**fields: Any) -> Event:
    return header(**({"ruleset": "adult", "pinned": rulesets.pin(ADULT)} | fields))


def amend(seq: int, target: int = 1, /, **changes: Any) -> Amend:
    return Amend(seq=seq, target=target, changes=changes, reason="table error")


def read(*events: Event) -> tuple[Problem, ...]:
    """What the reader says of the log of `events`."""
    try:
        parse_log(log_bytes(events))
    except ProblemsFound as found:
        return found.problems
    return ()


def told(*events: Event) -> list[tuple[str, int | None, str | None]]:
    return [(problem.code, problem.line, problem.field) for problem in read(*events)]


@pytest.mark.parametrize(
    ("fields", "code", "field"),
    [
        ({"settings": {"lengths.minr": "banana"}}, "unknown_knob", "settings.lengths.minr"),
        ({"settings": {"lengths.minr": "banana"}, "pinned": None}, "unknown_knob", "settings.lengths.minr"),
        ({"settings": {"lengths.minor": 2}, "pinned": None}, "wrong_type", "settings.lengths.minor"),
        ({"settings": {"ice.skaters": 99}}, "out_of_range", "settings.ice.skaters"),
        ({"settings": ONE_MINUTE}, "rules_disagree", "settings.lengths.minor"),
        ({"ruleset": "youth-8u"}, "rules_disagree", "ruleset"),
        ({"settings": ONE_MINUTE, "pinned": {"name": "adult"}}, "missing_field", "pinned.knobs"),
    ],
)
def test_a_first_line_that_names_other_rules_is_a_problem_of_the_line(
    tmp_path: Path, fields: dict[str, Any], code: str, field: str
) -> None:
    """The reader refuses it, whether something is pinned or not; so do a live game and what writes a new log."""
    assert told(adult(**fields)) == [(code, 1, field)]
    for make in (lambda opened: create(tmp_path / "game.jsonl", opened), lambda opened: LiveGame([opened], ADULT)):
        with pytest.raises(ProblemsFound) as caught:
            make(adult(**fields))
        assert [(problem.code, problem.field) for problem in caught.value.problems] == [(code, field)]
    assert not (tmp_path / "game.jsonl").exists()


def test_what_agrees_is_read() -> None:
    """Settings that are in what is pinned, a knob that the pinned copy leaves at the engine's value, or no settings."""
    assert read(adult(settings=ONE_MINUTE, pinned=rulesets.pin(SET))) == ()
    assert read(adult(settings={"lengths.minor": "2:00"}, pinned={"name": "adult", "knobs": {}})) == ()
    assert read(adult()) == read(adult(settings={})) == read(adult(settings=ONE_MINUTE, pinned=None)) == ()


def test_the_message_says_both_values() -> None:
    """What is named and what is applied, and what to do."""
    (problem,) = read(adult(settings=ONE_MINUTE))
    assert problem.message == 'The game is said to be played with "1:00", and what is pinned has "2:00".'
    assert problem.fix == "Pin the ruleset with its settings in it, or leave the setting out."


def amend_rules(live: LiveGame, *several: dict[str, Any]) -> None:
    for changes in several:
        live.record(amend(0, **rulesets.pinned_anew(live, changes)))


def history() -> list[Event]:
    """Settings taken out, then another ruleset: each amendment as it is pinned anew."""
    opened = adult(settings=ONE_MINUTE, pinned=rulesets.pin(SET))
    live = LiveGame([opened])
    amend_rules(live, {"settings": {}}, {"ruleset": "youth-14u"})
    return list(live.events)


def test_a_void_that_brings_a_setting_back_which_is_not_pinned(tmp_path: Path) -> None:
    """Voiding the first of two amendments would name 1:00 and apply 2:00: live game, `append` and reader say so."""
    events = history()
    assert read(*events) == ()
    void = Void(seq=4, target=2, reason="it was right")
    assert told(*events, void) == [("rules_disagree", 4, "target")]
    live = LiveGame(events)
    with pytest.raises(ProblemsFound, match=r"settings\.lengths\.minor.*\"1:00\".*\"2:00\""):
        live.record(void)
    assert live.rules.name == "youth-14u"
    path = tmp_path / "game.jsonl"
    create(path, events[0])
    append(path, events[1:])
    before = path.read_bytes()
    with pytest.raises(ProblemsFound, match="Amend event 1 instead"):
        append(path, [void])
    assert path.read_bytes() == before


def test_a_void_that_brings_a_name_back_which_is_not_pinned() -> None:
    """The other way round: the ruleset amended first, the settings after it."""
    opened = adult(settings=ONE_MINUTE, pinned=rulesets.pin(SET))
    live = LiveGame([opened])
    amend_rules(live, {"ruleset": "youth-14u"}, {"settings": {}})
    with pytest.raises(ProblemsFound) as caught:
        live.record(Void(seq=0, target=2, reason="x"))
    assert [(problem.code, problem.seq) for problem in caught.value.problems] == [("rules_disagree", 4)]
    live.record(Void(seq=0, target=3, reason="the last one first"))
    live.record(Void(seq=0, target=2, reason="then the one before"))
    assert (live.header.ruleset, live.rules.lengths.minor) == ("adult", 600)


@pytest.mark.parametrize(
    ("changes", "code", "field"),
    [
        ({"settings": {"overtime.skaters": 3}}, "ruleset_needed", "changes.pinned"),
        ({"ruleset": "youth-8u"}, "ruleset_needed", "changes.pinned"),
        ({"pinned": None}, "ruleset_needed", "changes.pinned"),
        ({"pinned": {"name": "our-league"}}, "missing_field", "changes.pinned.knobs"),
        ({"pinned": {"name": "q", "knobs": {}}}, "rules_disagree", "target"),
        ({"settings": {"lengths.minr": "1:00"}}, "unknown_knob", "changes.settings.lengths.minr"),
        ({"settings": ONE_MINUTE, "pinned": LEAGUE}, "rules_disagree", "changes.settings.lengths.minor"),
    ],
)
def test_append_refuses_what_the_live_game_refuses(
    tmp_path: Path, changes: dict[str, Any], code: str, field: str
) -> None:
    """An amendment by which the log could not be read again, or would be answered by rules that it does not name."""
    path = tmp_path / "game.jsonl"
    create(path, header(ruleset="our-league", pinned=LEAGUE))
    append(path, [Remark(seq=0, text="x")])
    before = path.read_bytes()
    with pytest.raises(ProblemsFound) as caught:
        append(path, [amend(0, **changes)])
    assert [(p.code, p.seq, p.field) for p in caught.value.problems] == [(code, 3, field)]
    assert path.read_bytes() == before
    with pytest.raises(ProblemsFound):
        LiveGame.of(read_log(path)).record(amend(0, **changes))


def test_append_takes_what_is_pinned_anew(tmp_path: Path) -> None:
    """And a correction of it, where the rules then are those that were pinned before, or that nobody pinned."""
    path = tmp_path / "game.jsonl"
    create(path, header(ruleset="adult"))
    changes = rulesets.pinned_anew(read_log(path), {"settings": ONE_MINUTE})
    append(path, [amend(0, **changes)])
    assert rulesets.of(read_log(path)).lengths.minor == 600
    append(path, [Void(seq=0, target=2, reason="x"), amend(0, rink="North")])
    assert rulesets.of(read_log(path)).lengths.minor == 1200


def test_a_correction_that_points_at_itself_is_told_and_ends() -> None:
    """Looking for the line that a correction leads to never goes round in a circle."""
    assert [code for code, _, _ in told(adult(), amend(2, 2, note="x"))] == ["later_target"]
