"""`rulesets.check`: everything that is wrong with a file at once, and what is odd about one that is right."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

import pytest

from rinkfold import rulesets
from rinkfold.rulesets import oddities
from rinkfold.rulesets.places import shipped_names
from rinkfold.timeline.problems import ProblemsFound
from rinkfold.timeline.wording import show

BROKEN = sorted((Path(__file__).resolve().parents[1] / "data" / "broken_rulesets").glob("*.toml"))


Told = Callable[[str], list[tuple[str, int | None, str | None, str]]]


@pytest.fixture
def told(tmp_path: Path) -> Told:
    """What is said of a file with this text: severity, line, field and code of each."""

    def check(text: str) -> list[tuple[str, int | None, str | None, str]]:
        path = tmp_path / "our-league.toml"
        path.write_text(text, encoding="utf-8")
        found = rulesets.check(path)
        assert all(problem.file == str(path) and problem.message for problem in found)
        return [(problem.severity, problem.line, problem.field, problem.code) for problem in found]

    return check


HEAD = 'title = "x"\nextends = "youth-12u"\n'
SOURCES = '[sources]\n"{0}" = "our by-laws"\n'

ODD: list[tuple[str, str, tuple[str, int | None, str, str]]] = [
    ("minutes", HEAD + '[lengths]\nminor = "0:02"\n', ("warning", 4, "lengths.minor", "unusual_length")),
    ("seconds", HEAD + '[game]\nperiod_length = "900:00"\n', ("warning", 4, "game.period_length", "unusual_length")),
    ("exchanged", HEAD + '[lengths]\nminor = "6:00"\n', ("warning", 4, "lengths.minor", "longer_than_usual")),
    ("the other one", HEAD + '[lengths]\nmajor = "1:30"\n', ("warning", 4, "lengths.major", "longer_than_usual")),
    ("overtime", HEAD + '[overtime]\nlength = "20:00"\n', ("warning", 4, "overtime.length", "longer_than_usual")),
    ("never short", HEAD + "[ice]\nmin_skaters = 5\n", ("warning", 4, "ice.min_skaters", "never_short")),
    (
        "no lead",
        HEAD + "[game.running_clock]\nfrom_period = 2\n",
        ("warning", 4, "game.running_clock.from_period", "no_effect"),
    ),
    (
        "runs anyway",
        HEAD + '[game]\nclock = "running"\nrunning_clock.starts_at_lead = 5\n',
        ("warning", 5, "game.running_clock.starts_at_lead", "no_effect"),
    ),
    (
        "no shootout",
        HEAD + "[overtime]\nperiods = 0\n[shootout]\nrounds = 5\n",
        ("warning", 6, "shootout.rounds", "no_effect"),
    ),
    (
        "meant so",
        HEAD + '[overtime]\nequal_pair = "off_the_clock"\n' + SOURCES.format("overtime.equal_pair"),
        ("note", 4, "overtime.equal_pair", "no_effect"),
    ),
    ("no words", HEAD + "infractions = []\n", ("warning", 3, "infractions", "no_infractions")),
    ("capitals", HEAD + 'infractions = ["Tripping"]\n', ("warning", 3, "infractions[0]", "odd_word")),
    ("blanks", HEAD + 'infractions = ["a", "holding "]\n', ("warning", 3, "infractions[1]", "odd_word")),
    ("alone", 'title = "x"\n[lengths]\nminor = "1:30"\n', ("warning", None, "extends", "extends_nothing")),
    ("no title", 'extends = "youth-12u"\n', ("note", None, "title", "no_title")),
    ("no source", HEAD + '[lengths]\nminor = "1:30"\n', ("note", None, "sources", "no_source")),
    ("restated", HEAD + '[lengths]\nminor = "2:00"\n', ("note", 4, "lengths.minor", "restated")),
]


@pytest.mark.parametrize(("text", "expected"), [(text, one) for _, text, one in ODD], ids=[name for name, _, _ in ODD])
def test_what_is_allowed_and_odd(text: str, expected: object, told: Told) -> None:
    """Each is told with its line and what to write, and the file can still be used."""
    assert expected in told(text)


def test_every_saying_has_a_case() -> None:
    """None of them is there without having been heard."""
    assert {one[3] for _, _, one in ODD} == {
        "unusual_length", "longer_than_usual", "never_short", "no_effect", "no_infractions", "odd_word",
        "extends_nothing", "no_title", "no_source", "restated",
    }  # fmt: skip
    assert len(oddities._SAYINGS) == 9


def test_a_file_in_which_all_is_well(told: Told) -> None:
    """Nothing is said."""
    text = HEAD + '[lengths]\nminor = "1:30"\n[overtime]\nskaters = 4\n' + SOURCES.format("lengths.minor")
    assert told(text + '"overtime.skaters" = "our by-laws"\n') == []


@pytest.mark.parametrize("name", shipped_names())
def test_nothing_is_wrong_with_what_is_shipped(name: str) -> None:
    """Nor odd: at most something is there on purpose that changes nothing, and its source says why."""
    assert [(one.severity, one.code) for one in rulesets.check(name) if one.severity != "note"] == []


@pytest.mark.parametrize("path", BROKEN, ids=lambda path: path.stem)
def test_every_broken_file_is_told_as_it_is_when_it_is_used(path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The same problems, with the lines besides, and nothing odd before it is right."""
    monkeypatch.chdir(path.parent)
    with pytest.raises(ProblemsFound) as caught:
        rulesets.load(path.name)
    found = rulesets.check(path.name)
    key = sorted((one.code, one.field or "", one.message, one.fix) for one in caught.value.problems)
    assert sorted((one.code, one.field or "", one.message, one.fix) for one in found) == key
    assert {one.severity for one in found} == {"error"}


def test_lines_are_found(told: Told) -> None:
    """In a table, below a dotted key, in [sources], of a table itself; what has none is told without."""
    text = (
        'extends = "youth-12u"\n\n[lengths]  # as agreed\nminr = "1:30"\n"major" = 5\n'
        "[game]\nrunning_clock.starts_at_lead = -1\n[shoot_out]\nrounds = 1\n"
        '[sources]\n"lengths.minor" = "x"\n'
    )
    assert [(line, field) for _, line, field, _ in told(text)] == [
        (4, "lengths.minr"),
        (5, "lengths.major"),
        (7, "game.running_clock.starts_at_lead"),
        (8, "shoot_out"),
        (11, "sources.lengths.minor"),
    ]


def test_what_does_not_go_together_is_told_with_the_rest(told: Told) -> None:
    """A slip elsewhere hides it no longer."""
    text = 'extends = "youth-12u"\ntitle = ""\n[ice]\nskaters = 4\n[overtime]\nskaters = 5\n[lengths]\nminor = "9"\n'
    assert [(field, code) for _, _, field, code in told(text)] == [
        ("title", "wrong_type"),
        ("overtime.skaters", "impossible_combination"),
        ("lengths.minor", "bad_reading"),
    ]


@pytest.mark.parametrize(
    "text",
    [
        'extends = "youth-12u"\n[ice]\nskaters = 4\n[overtime]\nskaters = "4"\n',
        'extends = "youth-12u"\n[ice]\nskaters = 4\n[overtime]\nskater = 4\n',
        'extends = "no-such"\n[ice]\nskaters = 4\n',
        "[ice]\nskaters = 4\n[overtime\nskaters = 4\n",
    ],
    ids=["its value is wrong", "its name is wrong", "what it extends is not there", "not TOML"],
)
def test_nothing_is_said_of_a_value_that_is_not_known(text: str, told: Told) -> None:
    """Whether 4 a side goes with overtime depends on what is wrong itself."""
    assert "impossible_combination" not in [code for *_, code in told(text)]


def test_a_file_with_a_shipped_name_is_looked_at_all_the_same(tmp_path: Path) -> None:
    """Its name is one problem among the others."""
    path = tmp_path / "adult.toml"
    path.write_text('extends = "youth-12u"\n[lengths]\nminor = 2\n', encoding="utf-8")
    assert [one.code for one in rulesets.check(path)] == ["taken_name", "wrong_type"]


def test_problems_of_the_file_below_are_told_with_its_name(tmp_path: Path) -> None:
    """And without a line of the file that extends it."""
    (tmp_path / "below.toml").write_text('extends = "adult"\n[lengths]\nminor = 2\n', encoding="utf-8")
    path = tmp_path / "ours.toml"
    path.write_text('extends = "./below.toml"\n', encoding="utf-8")
    (found,) = rulesets.check(path)
    assert found.file is not None
    assert (Path(found.file).name, found.line, found.field) == ("below.toml", None, "lengths.minor")


def test_what_cannot_be_read_is_refused(tmp_path: Path) -> None:
    """There is nothing to check."""
    for name in (tmp_path / "none.toml", tmp_path, "youth-99u"):
        with pytest.raises(ProblemsFound):
            rulesets.check(name)


def test_what_was_found_moves_no_cursor(tmp_path: Path) -> None:
    """A value is shown escaped, whether it stands in a ruleset or in a log."""
    path = tmp_path / "our-league.toml"
    path.write_text('title = "x"\nextends = "youth-12u"\n[lengths]\nminor = "\\u009b2J"\n', encoding="utf-8")
    (problem,) = [one for one in rulesets.check(path) if one.code == "bad_reading"]
    assert problem.message.endswith(r'found "\x9b2J".')
    assert show("\x9b2J") == r'"\x9b2J"'
