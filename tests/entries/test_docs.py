"""The page about entries is true: every example is understood as it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from attrs import fields
from entries.common import GAME, entered

from rinkfold.cli.entries import Entry, parse_entry
from rinkfold.cli.entries.words import MEANT, OPTIONS, PARTS, TEAMS, VERBS
from rinkfold.timeline.events import KINDS

PAGE = (Path(__file__).resolve().parents[2] / "docs" / "entries.md").read_text(encoding="utf-8")
_ROWS = re.findall(r"^\| `(.*?)` \| `(.*?)` \|$", PAGE.partition("## The short forms")[0], flags=re.MULTILINE)
_FORMS = dict(re.findall(r"^\| `(.*?)` \| `(.*?)` \|$", PAGE.partition("## The short forms")[2], flags=re.MULTILINE))


@pytest.mark.parametrize(("typed", "understood"), _ROWS)
def test_each_example(typed: str, understood: str) -> None:
    """What is typed is understood as the page says, and that means the same again."""
    entry = parse_entry(typed, GAME)
    assert isinstance(entry, Entry), entry
    assert entry.understood == understood
    assert entered(entry.understood) == entry.event


def test_every_kind_and_field_has_an_example() -> None:
    """No field of the log is missing on the page."""
    shown = [entered(typed) for typed, _ in _ROWS]
    missing = {
        (kind, field.name)
        for kind, cls in KINDS.items()
        for field in fields(cls)
        if not any(event.kind == kind and getattr(event, field.name) is not None for event in shown)
    }
    common = {"seq", "period", "clock", "after", "recorded_at", "by", "note", "prev"}
    optional_header = {"settings", "pinned", "date", "start", "rink", "competition", "officials"}  # inside the JSON
    assert {each for each in missing if each[1] not in common | optional_header} == set()
    assert {name for name in common for event in shown if getattr(event, name) is not None} == common


def test_the_short_forms_are_all_on_the_page() -> None:
    """The one- and two-letter forms of the tables are those that the page promises never to change."""
    verbs = {word: phrases[0] for table in (TEAMS, VERBS) for phrases in table.values() for word in phrases}
    options = {word: phrases[0] for phrases in OPTIONS.values() for word in phrases}
    short = {word: whole for word, whole in (options | verbs).items() if len(word) <= 2}
    whole_words = {"go", "by"}
    assert {word: whole for word, whole in short.items() if word not in whole_words} == _FORMS


def test_the_short_forms_never_change() -> None:
    """People have these in their fingers; what a letter means today it means for ever."""
    assert _FORMS == {
        "h": "home",
        "a": "away",
        "g": "goal",
        "p": "penalty",
        "bm": "bench minor",
        "s": "shot",
        "sh": "shots",
        "st": "stop",
        "fo": "go",
        "gk": "goalie",
        "ps": "penalty shot",
        "so": "shootout",
        "to": "timeout",
        "ep": "end period",
        "d": "door",
        "rl": "ruling",
        "ck": "clock",
        "ro": "roster",
        "se": "seen",
        "fg": "figures",
        "rm": "remark",
        "v": "void",
        "u": "undo",
        "am": "amend",
        "cl": "close",
        "op": "open",
        "ua": "unassisted",
        "og": "own goal",
        "en": "empty net",
    }


def test_no_word_means_two_things_at_one_place() -> None:
    """Teams and verbs stand at the same place, so no word is both; a part is named once."""
    words = [word for table in (TEAMS, VERBS) for phrases in table.values() for word in phrases]
    assert len(words) == len(set(words))
    assert set(MEANT).isdisjoint(words)
    assert all(phrase == phrase.casefold() for phrase in [*words, *PARTS])
