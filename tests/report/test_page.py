"""What stands on the page: one row for each thing that happened, totals, and what has to be said."""

from __future__ import annotations

import re
from collections.abc import Callable
from pathlib import Path

import pytest
from report.conftest import Write
from report.pages import Node, parsed

from rinkfold import rulesets
from rinkfold.cli.report.bars import fate_of
from rinkfold.timeline import read_log, replay

Made = Callable[..., str]
GOAL = {"kind": "goal", "team": "home", "scorer": "9"}
PENALTY = {"kind": "penalty_assessed", "team": "home", "player": "7", "parts": ["minor"], "infraction": "tripping"}


def rows(page: Node, kind: str) -> list[Node]:
    """The lines of the ledger of one kind."""
    return [row for row in page.all("tr", "row") if kind in row.classes]


def test_one_row_for_each_goal_penalty_and_release(made: Made, example: Path) -> None:
    page, log = parsed(made(example)), read_log(example)
    game = replay(log, rulesets.of(log))
    seqs = {kind: [int(row.attributes["data-seq"]) for row in rows(page, kind)] for kind in ("goal", "penalty")}
    assert seqs["goal"] == [goal.seq for goal in game.goals]
    assert seqs["penalty"] == [life.penalty for life in game.penalties]
    returns = sorted(life.penalty for life in game.penalties for _ in life.returns)
    assert sorted(int(row.attributes["data-seq"]) for row in rows(page, "return")) == returns


def test_each_row_stands_on_its_side_only(made: Made, example: Path) -> None:
    found = parsed(made(example)).all("tr", "row")
    for row in found:
        cells = {cls: cell.text.strip() for cell in row.all("td") for cls in cell.classes if cls in ("home", "away")}
        assert sorted(map(bool, cells.values())) == [False, True]
    assert found


def test_a_goal_tells_score_strength_and_what_it_ended(made: Made, example: Path) -> None:
    first = rows(parsed(made(example)), "goal")[0]
    assert (
        " ".join(first.text.split()) == "Goal 10 from 19 and 4power play, 5 on 4; ended the bench minor 8:525 on 51–0"
    )


def test_the_foot_adds_up(made: Made, example: Path) -> None:
    (foot,) = parsed(made(example)).all("tfoot")
    lines = [[cell.text for cell in row.inside if isinstance(cell, Node)] for row in foot.all("tr")]
    assert ["1 + 3 + 0 + 1 = 5", "Goals", "1 + 1 + 2 + 0 = 4"] in lines
    assert ["34", "Penalty minutes", "46"] in lines


def test_the_picture_has_a_panel_for_each_period_and_tells_every_penalty(made: Made, example: Path) -> None:
    page, log = parsed(made(example)), read_log(example)
    game = replay(log, rulesets.of(log))
    assert [panel.attributes["aria-label"] for panel in page.all("svg", "period")] == ["1st", "2nd", "3rd", "OT"]
    told = [title.text for item in page.all("g", "penalty") for title in item.all("title")]
    for life in game.penalties:
        assert any(f"called {life.at}" in text and fate_of(life.parts[0]) in text for text in told)
    assert all(item.attributes["tabindex"] == "0" and item.all("title") for item in page.all("g", "item"))
    assert len([item for item in page.all("g", "item") if "goal" in item.classes[1:2]]) == len(game.goals)


def test_items_come_in_reading_order(made: Made, example: Path) -> None:
    """Within each panel what begins earlier stands earlier, so that Tab goes from left to right."""
    for panel in parsed(made(example)).all("svg", "period"):
        at = [_left(item) for item in panel.all("g", "item") if "goal" in item.classes[1:2]]
        assert at == sorted(at)


def _left(item: Node) -> float:
    return float(next(one.attributes["cx"] for one in item.all("circle")).rstrip("%"))


def test_rules_findings_and_head_code_are_told(made: Made, example: Path) -> None:
    text = parsed(made(example)).text
    assert "overtime.skaters = 3" in text
    assert "The league's own rules and the officials on the ice decide." in text
    assert read_log(example).head_code in text
    assert "The penalty on home 18 has no rule and no remark." in text


def test_what_to_type_stands_apart(made: Made, example: Path) -> None:
    """The entries of a remedy are marked as such, without the quotes of a terminal."""
    page = parsed(made(example))
    assert "amend 214 rule …" in [code.text for code in page.all("code")]
    assert "`" not in page.text


def test_nobody_serves_a_game_misconduct(made: Made, example: Path) -> None:
    """A player's and a coach's are both said to end their game, in the ledger and in the picture."""
    page = parsed(made(example))
    told = [row.text for row in rows(page, "penalty") if "game misconduct" in row.text]
    told += [item.text for item in page.all("title") if ": game misconduct" in item.text]
    assert len(told) == 4
    assert all("out of the game" in text for text in told)


def test_one_who_signed_is_one_person(made: Made, write: Write) -> None:
    """A single name stands in the record as a text."""
    game = write({"kind": "game_closed", "outcome": "played", "signed": "Ada Quist"})
    assert "1 person is named in the record as having signed." in parsed(made(game)).text
    assert "Named in the record as having signed: Ada Quist." in parsed(made(game, "--names")).text


def test_who_signed_is_counted_without_names(made: Made, example: Path) -> None:
    """By default their number, with names their names."""
    assert "3 people are named in the record as having signed." in parsed(made(example)).text
    assert "Named in the record as having signed: Noor Halvestrand, " in parsed(made(example, "--names")).text


def test_names_are_shown_only_on_request(made: Made, example: Path) -> None:
    header = read_log(example).header
    people = [player.name for side in (header.home, header.away) for player in side.roster or () if player.name]
    people += [one.name for side in (header.home, header.away) for one in side.staff or ()]
    assert header.officials is not None
    people += [*header.officials.referees, *header.officials.linespersons]
    without, with_names = made(example), made(example, "--names")
    assert len(people) > 30
    assert [name for name in people if name in without] == []
    assert [name for name in people if name not in with_names] == []


def test_a_game_with_nothing_recorded(made: Made, write: Write) -> None:
    page = parsed(made(write()))
    assert "Nothing is recorded yet" in page.text
    assert page.all("svg", "period") == []
    assert page.all("tr", "row") == []


def test_an_open_game_says_so_and_shows_who_still_sits(made: Made, write: Write) -> None:
    goal = {"kind": "goal", "team": "home", "scorer": "9", "period": 1, "clock": "13:00"}
    page = parsed(made(write({**PENALTY, "period": 1, "clock": "13:30"}, goal)))
    assert "Record open: written up to 1 13:00" in page.text
    assert "running when the record ends" in page.text
    assert any("open" in item.classes for item in page.all("g", "penalty"))


def test_sixty_penalties(made: Made, write: Write) -> None:
    events = [
        {**PENALTY, "team": ("home", "away")[n % 2], "player": str(n), "period": 1 + n // 20, "clock": clock(n % 20)}
        for n in range(60)
    ]
    page = parsed(made(write(*events)))
    assert len(rows(page, "penalty")) == 60
    firsts = {title.text for item in page.all("g", "penalty") for title in item.all("title")}
    assert len(firsts) == 60


def clock(n: int) -> str:
    """The readings of twenty calls, half a minute apart."""
    left = 840 - 30 * n
    return f"{left // 60}:{left % 60:02}"


@pytest.mark.parametrize("name", ["game", "sparse"])
def test_the_page_stands_alone(made: Made, example: Path, name: str) -> None:
    """Nothing is loaded from anywhere, and the page's own policy forbids it."""
    html = made(example.with_name(f"{name}.jsonl"))
    page = parsed(html)
    for node in page.walk():
        assert "src" not in node.attributes
        assert node.attributes.get("href", "#").startswith("#")
        assert not [attribute for attribute in node.attributes if attribute.startswith("on") or attribute == "style"]
    assert page.all("link") == page.all("img") == page.all("iframe") == []
    assert all(target.startswith("#hatch") for target in re.findall(r"url\(([^)]*)\)", html))
    assert "@import" not in html
    (policy,) = [m for m in page.all("meta") if m.attributes.get("http-equiv") == "Content-Security-Policy"]
    assert policy.attributes["content"].startswith("default-src 'none'; style-src 'sha256-")


def test_goals_close_to_each_other_stand_in_rows(made: Made, write: Write) -> None:
    """Five goals within two minutes have five rows, so that every score can be read; two far apart share one."""
    close = [{**GOAL, "period": 1, "clock": f"10:{second}"} for second in (50, 40, 30, 20, 10)]
    far = [{**GOAL, "period": 2, "clock": clock} for clock in ("14:00", "2:00")]
    first, second = parsed(made(write(*close, *far))).all("svg", "period")
    assert len({_top(item) for item in first.all("g", "item") if "goal" in item.classes[1:2]}) == 5
    assert len({_top(item) for item in second.all("g", "item") if "goal" in item.classes[1:2]}) == 1


def _top(item: Node) -> str:
    return item.all("circle")[0].attributes["cy"]


def test_the_result_of_a_shootout(made: Made, write: Write) -> None:
    """Goals stay level; who won the shootout, and by how much, is said beside."""
    ends = [{"kind": "period_end", "period": period, "clock": "0:00"} for period in (1, 2, 3, 4)]
    shots = [("home", "scored"), ("away", "scored"), ("home", "saved"), ("away", "scored")]
    attempts = [
        {"kind": "shootout_attempt", "team": team, "player": "9", "result": result, "period": 4, "clock": "0:00"}
        for team, result in shots
    ]
    page = parsed(made(write(*ends, *attempts)))
    assert "0–0" in page.all("h1")[0].text
    assert "away won in the shootout, 1–2" in page.text
