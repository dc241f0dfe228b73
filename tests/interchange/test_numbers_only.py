"""`rinkfold export --numbers-only`: a record without names."""

from __future__ import annotations

from pathlib import Path
from typing import Any

import pytest
from attrs import evolve
from hypothesis import given, settings
from hypothesis import strategies as st
from live.games import answers, game_of, written

from rinkfold.cli.interchange import exporting
from rinkfold.cli.interchange.numbers_only import without_names
from rinkfold.timeline import (
    Amend,
    Event,
    GameClosed,
    GameOpened,
    Officials,
    PenaltyAssessed,
    Player,
    Remark,
    RosterChange,
    StaffMember,
    Stoppage,
    TeamSheet,
    Void,
    parse_log,
    read_log,
)
from rinkfold.timeline.record import log_bytes

PEOPLE = ["Wilma Quill", "Otto Fenn", "Berta Stone", "Rufus Lake", "Tilda Moss", "Anna Reed", "Kurt Pine"]
CREDENTIAL = "LM-0412"


def full_of_names() -> list[Event]:
    """A record in which a name stands wherever one can."""
    wilma, otto, berta, rufus, tilda, anna, kurt = PEOPLE
    sheet = TeamSheet(
        name="Elm Owls",
        roster=(Player(number="12", name=wilma), Player(number="31", name=otto, position="goalkeeper")),
        staff=(StaffMember(name=berta, role="head coach", credential=CREDENTIAL),),
    )
    officials = Officials(referees=(anna, kurt), linespersons=(), scorekeeper=rufus, penalty_box=(tilda,))
    opened = GameOpened(
        seq=1,
        format=1,
        game="g",
        ruleset="youth-12u",
        home=sheet,
        away=sheet,
        officials=officials,
        by=rufus,
        note=wilma,
    )
    staff_call: dict[str, Any] = {"player": None, "staff": berta, "parts": ("bench_minor",)}
    at: dict[str, Any] = {"period": 1, "clock": "9:15"}
    events: list[Event] = [
        opened,
        Stoppage(seq=2, **at, reason=f"{wilma} is hurt"),
        PenaltyAssessed(seq=3, **at, team="home", **staff_call, infraction=f"abuse, {berta}", by=rufus),
        RosterChange(seq=4, team="away", number="8", name=tilda),
        Remark(seq=5, text=f"{otto} came late"),
        Void(seq=6, target=5, reason=f"said {kurt}"),
        Amend(seq=7, target=4, changes={"name": anna, "position": "forward"}, reason=f"{anna} it is"),
        Amend(seq=8, target=7, changes={"changes": {"name": kurt, "note": wilma}}, reason=kurt),
        Amend(
            seq=9, target=1, changes={"home": {"name": "Elm", "roster": [{"number": "12", "name": kurt}]}}, reason=kurt
        ),
        Amend(seq=10, target=1, changes={"officials": {"referees": [kurt], "linespersons": []}}, reason=kurt),
        Amend(seq=11, target=3, changes={"staff": kurt, "infraction": f"abuse of {anna}"}, reason="x"),
        Amend(seq=12, target=5, changes={"text": wilma}, reason="x"),
        GameClosed(seq=13, outcome="played", signed=(anna, rufus), reason=f"for {wilma}"),
        Amend(seq=14, target=13, changes={"signed": kurt}, reason="x"),
    ]
    parse_log(log_bytes(events), "names")
    return events


def test_no_name_is_left() -> None:
    """On rosters, benches, among officials, in notes, reasons, remarks, corrections and corrections of corrections."""
    data = log_bytes(without_names(full_of_names(), "0000-0000-0000-0000")).decode()
    assert not [part for name in PEOPLE for part in name.split() if part in data]
    assert CREDENTIAL not in data
    parse_log(data.encode(), "without")


def _written_as(infraction: str, infractions: tuple[str, ...] = (), player: str = "Pia Holm-Crosser") -> str | None:
    """What a copy has for `infraction` in a record with one player on its roster."""
    opened = full_of_names()[0]
    assert isinstance(opened, GameOpened)
    sheet = TeamSheet(name="Elm Owls", roster=(Player(number="12", name=player),))
    call = PenaltyAssessed(seq=2, period=1, clock="9:15", team="home", parts=("minor",), infraction=infraction)
    copy = without_names([evolve(opened, home=sheet, away=sheet), call], "0000-0000-0000-0000", infractions)[1]
    assert isinstance(copy, PenaltyAssessed)
    return copy.infraction


@pytest.mark.parametrize(
    ("infraction", "copied"),
    [
        ("hooking Holm", "hooking (name)"),
        ("hooking HOLM's stick", "hooking (name) stick"),
        ("Crosser, Pia Holm-Crosser and Holms", "(name), (name) and (name)"),
        ("utopia, holmium", "utopia, holmium"),
        ("pia", "pia"),
        ("abuse of the referee", "abuse of the referee"),
    ],
)
def test_words_of_a_name_are_looked_for(infraction: str, copied: str) -> None:
    """Each of four letters or more, as a word of its own."""
    assert _written_as(infraction) == copied


@pytest.mark.parametrize(
    ("infraction", "copied"),
    [
        ("cross-checking", "cross-checking"),
        ("Cross-Checking", "Cross-Checking"),
        ("cross-checking Cross", "cross-checking (name)"),
        ("cross", "(name)"),
    ],
)
def test_a_known_infraction_stays(infraction: str, copied: str) -> None:
    """Also where somebody is called like a word of it."""
    for player in ("Cross", "Nils Cross"):
        assert _written_as(infraction, ("cross-checking",), player) == copied
    assert _written_as(infraction, (), "Cross") != infraction


def test_the_infractions_of_the_rules_are_known(rinkfold: Any, tmp_path: Path) -> None:
    """The command takes those of the ruleset that the record was opened with."""
    path = tmp_path / "cross.jsonl"
    opened = full_of_names()[0]
    assert isinstance(opened, GameOpened)
    sheet = evolve(opened.home, roster=(Player(number="12", name="Cross"),), staff=None)
    at: dict[str, Any] = {"period": 1, "clock": "9:15", "team": "home", "player": "12", "parts": ("minor",)}
    calls = [PenaltyAssessed(seq=n, **at, infraction=what) for n, what in ((2, "cross-checking"), (3, "by Cross"))]
    path.write_bytes(log_bytes([evolve(opened, home=sheet, away=sheet), *calls]))
    rows = rinkfold("export", path, "events", "--numbers-only", "--json").answer["events"]
    assert [row["infraction"] for row in rows[1:3]] == ["cross-checking", "by (name)"]


def test_a_copy_of_a_copy_is_the_same() -> None:
    """What stands for a name is no name: what was left stays."""
    opened, *_ = full_of_names()
    call = PenaltyAssessed(
        seq=2, period=1, clock="9:15", team="home", staff="staff 1", parts=("match",), infraction="abuse of staff"
    )
    events = without_names([opened, call], "0000-0000-0000-0000")
    assert without_names(events, "0000-0000-0000-0000")[:2] == events[:2]


def test_the_same_person_is_the_same_word() -> None:
    """Staff on the sheet and in a call; as many officials as there were."""
    events = without_names(full_of_names(), "0000-0000-0000-0000")
    opened, call, amendment = events[0], events[2], events[10]
    assert isinstance(opened, GameOpened)
    assert isinstance(call, PenaltyAssessed)
    assert isinstance(amendment, Amend)
    assert opened.home.staff == (StaffMember(name="staff 1", role="head coach"),)
    assert (call.staff, call.infraction) == ("staff 1", "abuse, (name)")
    assert dict(amendment.changes) == {"staff": "staff 2", "infraction": "abuse of (name)"}
    assert opened.officials == Officials(
        referees=("referee 1", "referee 2"), scorekeeper="scorekeeper", penalty_box=("penalty box 1",)
    )


def test_events_keep_their_numbers_and_kinds() -> None:
    """So that whatever points at one still does; the last one says where the record came from."""
    before = full_of_names()
    *after, last = without_names(before, "1234-5678-9abc-def0")
    assert [event.kind for event in after] == [event.kind for event in before]
    assert [event.seq for event in after] == [event.seq for event in before]
    assert isinstance(last, Remark)
    assert last.text == "A copy without names. Head code of the record that it was made from: 1234-5678-9abc-def0."


def _named(log: list[Event]) -> list[Event]:
    """The record with names on its rosters and what else may name somebody."""
    opened = log[0]
    assert isinstance(opened, GameOpened)
    sheets: dict[str, Any] = {
        team: evolve(sheet, roster=tuple(evolve(one, name=PEOPLE[0]) for one in sheet.roster or ()))
        for team, sheet in (("home", opened.home), ("away", opened.away))
    }
    rest = [evolve(event, note=PEOPLE[1], by=PEOPLE[2]) for event in log[1:]]
    return [evolve(opened, **sheets), *rest]


@settings(max_examples=40, deadline=None)
@given(st.integers(0, 5000))
def test_every_answer_is_as_before(seed: int) -> None:
    """Numbers suffice: who sits, skaters, goals, goalkeepers, totals."""
    log = _named(written(seed))
    before = answers(game_of(log))
    after = answers(game_of(without_names(log, "0000-0000-0000-0000")))
    for name in ("rules", "changes", "segments", "summary", "box", "strength", "in play"):
        if name == "changes":
            assert before[name] == after[name][: len(before[name])]  # type: ignore[arg-type, index]
        else:
            assert before[name] == after[name]


def test_the_commands(rinkfold: Any, example: Path, tmp_path: Path) -> None:
    """A whole log on a new chain, from a log or as a table."""
    target = tmp_path / "numbers.jsonl"
    ran = rinkfold("export", example, "log", "--numbers-only", "-o", target)
    assert (ran.code, ran.err) == (0, "")
    assert ran.out.splitlines()[0] == f"Wrote {target}: 321 events."
    assert rinkfold("verify", target, "--require-chain").code == 0
    last = read_log(target).events[-1]
    assert isinstance(last, Remark)
    assert read_log(example).head_code in last.text
    assert target.read_bytes() == rinkfold("export", example, "--numbers-only").out.encode()
    header = read_log(example).header
    names = [player.name for sheet in (header.home, header.away) for player in sheet.roster or () if player.name]
    table = rinkfold("export", example, "events", "--numbers-only").out
    for text in (table, target.read_text("utf-8")):
        assert not [name for name in names if name in text]
    assert len(names) > 20
    for command in ("penalties", "summary", "strength"):
        one, two = (_without_staff(rinkfold(command, path, "--json").answer) for path in (example, target))
        assert one == two


def _without_staff(answer: dict[str, Any]) -> dict[str, Any]:
    """The answer without the names of staff, which are other words."""
    for penalty in answer.get("penalties", ()):
        penalty["staff"] = penalty["staff"] is not None
    return answer


def test_a_name_of_an_official_is_taken_out_of_what_stays() -> None:
    """Whoever stands among the officials is looked for in infractions, rules and sources, wherever he sits."""
    names = ("Anna Reed", "Kurt Pine", "Rufus Lake", "Ida Crane", "Tilda Moss")
    referee, linesperson, scorekeeper, timekeeper, tender = names
    officials = Officials(
        referees=(referee,),
        linespersons=(linesperson,),
        scorekeeper=scorekeeper,
        timekeeper=timekeeper,
        penalty_box=(tender,),
    )
    sheet = TeamSheet(name="Elm Owls")
    header = GameOpened(seq=1, format=1, game="g", ruleset="youth-12u", home=sheet, away=sheet, officials=officials)
    fouls = [
        PenaltyAssessed(
            seq=seq,
            period=1,
            clock="9:15",
            team="home",
            parts=("minor",),
            infraction=f"abuse of {name}",
            rule=f"as {name.upper()} said",
        )
        for seq, name in enumerate(names, 2)
    ]
    cleaned = without_names([header, *fouls], "x")
    assert {(one.infraction, one.rule) for one in cleaned if isinstance(one, PenaltyAssessed)} == {
        ("abuse of (name)", "as (name) said")
    }


def test_a_copy_that_cannot_be_read_is_never_written(
    rinkfold: Any, example: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """It is read back before it is written, so that a fault here costs an error and no record."""

    def points_nowhere(events: Any, *more: Any) -> tuple[Event, ...]:
        return (*events, Void(seq=0, target=9999, reason="x"))

    monkeypatch.setattr(exporting, "without_names", points_nowhere)
    target = tmp_path / "copy.jsonl"
    ran = rinkfold("export", example, "log", "--numbers-only", "-o", target)
    assert (ran.code, ran.out, target.exists()) == (2, "", False)
    assert "There is no event 9999 in this log." in ran.err
