"""Every word that an entry may be made of, in one place.

The one- and two-letter forms never change: people have them in their fingers. In each tuple the first phrase is the one
that is printed; the others are understood. Several words are written with single blanks, and compared without regard to
case.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from ...timeline.events import PartKind, Team

__all__ = [
    "CHOICES",
    "FILLERS",
    "HORN",
    "JOINS",
    "MEANT",
    "NET_EMPTY",
    "OPTIONS",
    "PARTS",
    "SAVES",
    "STAFF",
    "TEAMS",
    "TO_COME",
    "UNITS",
    "VERBS",
    "WHEN_WORDS",
]

TEAMS: Mapping[Team, tuple[str, ...]] = {"home": ("home", "h"), "away": ("away", "a", "visitors", "visitor")}

VERBS: Mapping[str, tuple[str, ...]] = {
    "faceoff": ("go", "faceoff", "face-off", "fo"),
    "stop": ("stop", "stoppage", "whistle", "st"),
    "goal": ("goal", "g"),
    "penalty": ("penalty", "pen", "p"),
    "bench minor": ("bench minor", "bench", "bm"),
    "shot": ("shot", "s"),
    "shots": ("shots", "sh"),
    "goalie": ("goalie", "goalkeeper", "goaltender", "gk"),
    "penalty shot": ("penalty shot", "ps"),
    "shootout": ("shootout", "so"),
    "timeout": ("timeout", "time-out", "time out", "to"),
    "end period": ("end period", "period end", "end of period", "end", "ep"),
    "door": ("door", "d"),
    "ruling": ("ruling", "ended", "rl"),
    "clock": ("clock", "clock set", "clock to", "ck"),
    "roster": ("roster", "ro"),
    "seen": ("seen", "se"),
    "figures": ("figures", "fg"),
    "remark": ("remark", "rm"),
    "void": ("void", "v"),
    "undo": ("undo", "u"),
    "amend": ("amend", "am"),
    "close": ("close", "cl"),
    "open": ("open", "op"),
}
"""What happened. The key names the row of the grammar table."""

WHEN_WORDS: Mapping[str, str] = {"late": "late", "period": "period"}
"""Words before the reading; ``p2``, ``OT`` and ``OT2`` name a period too."""

PARTS: Mapping[str, tuple[PartKind, ...]] = {
    "2": ("minor",),
    "minor": ("minor",),
    "minor penalty": ("minor",),
    "4": ("minor", "minor"),
    "double": ("minor", "minor"),
    "double minor": ("minor", "minor"),
    "double-minor": ("minor", "minor"),
    "5": ("major",),
    "major": ("major",),
    "major penalty": ("major",),
    "10": ("misconduct",),
    "misconduct": ("misconduct",),
    "match": ("match",),
    "match penalty": ("match",),
    "misc": ("misconduct",),
    "game": ("game_misconduct",),
    "gm": ("game_misconduct",),
    "game misconduct": ("game_misconduct",),
    "game-misconduct": ("game_misconduct",),
    "bench": ("bench_minor",),
    "bench penalty": ("bench_minor",),
    "bench minor": ("bench_minor",),
    "bench minor penalty": ("bench_minor",),
    "bench-minor": ("bench_minor",),
}
"""Parts as they are announced, joined by ``+``; the numbers are words, whatever the ruleset's lengths are."""

JOINS: frozenset[str] = frozenset({"+", "and", "plus", "&"})
"""What stands between two parts."""

UNITS: tuple[str, ...] = ("minutes", "minute", "mins", "min", "min.")
"""What may stand behind the length of a part."""

OPTIONS: Mapping[tuple[str, Any], tuple[str, ...]] = {
    ("after", ...): ("after",),
    ("by", ...): ("by",),
    ("note", ...): ("note",),
    ("recorded_at", ...): ("recorded", "recorded at"),
    ("prev", ...): ("prev",),
    ("assists", ...): ("from", "assists", "assist"),
    ("assists", ()): ("unassisted", "ua"),
    ("ends", ...): ("ends",),
    ("own_goal", True): ("own goal", "og"),
    ("own_goal", False): ("not own goal",),
    ("awarded", True): ("awarded",),
    ("awarded", False): ("not awarded",),
    ("empty_net", True): ("empty net", "en"),
    ("empty_net", False): ("not empty net",),
    ("announced", ...): ("announced",),
    ("served_by", ...): ("served", "served by"),
    ("delayed_call", True): ("delayed", "delayed call"),
    ("delayed_call", False): ("not delayed",),
    ("on_clock", True): ("on clock", "on the clock"),
    ("on_clock", False): ("off clock", "off the clock"),
    ("penalty_shot", True): ("penalty shot", "shot", "ps"),
    ("penalty_shot", False): ("no penalty shot",),
    ("minutes", ...): ("minutes",),
    ("rule", ...): ("rule",),
    ("was", ...): ("was",),
    ("name", ...): ("name",),
    ("position", "goalkeeper"): ("goalkeeper", "goalie", "gk"),
    ("position", "forward"): ("forward",),
    ("position", "defence"): ("defence", "defense"),
    ("letter", "C"): ("captain",),
    ("letter", "A"): ("alternate", "alternate captain"),
    ("status", "playing"): ("playing",),
    ("status", "absent"): ("absent",),
    ("status", "injured"): ("injured",),
    ("status", "suspended"): ("suspended",),
    ("goals", ...): ("goals",),
    ("shots", ...): ("shots",),
    ("saves", ...): ("saves",),
    ("goalie", ...): ("goalie", "gk"),
    ("source", ...): ("source", "from"),
    ("signed", ...): ("signed", "signed by"),
}
"""Words inside an entry: the field and its value; an ellipsis means that the value follows."""

CHOICES: Mapping[str, Mapping[str, tuple[str, ...]]] = {
    "result": {"scored": ("scored", "goal"), "saved": ("saved", "save"), "missed": ("missed", "miss")},
    "where": {"ice": ("ice",), "box": ("box",)},
    "outcome": {
        "played": ("played",),
        "shortened": ("shortened",),
        "abandoned": ("abandoned",),
        "forfeit": ("forfeit", "forfeited"),
    },
}
"""Fields with a closed list of values, by the words for them."""

MEANT: Mapping[str, tuple[str, ...]] = {
    "note": ("remark",),
    "comment": ("remark",),
    "delete": ("void",),
    "remove": ("void",),
    "change": ("amend",),
    "correct": ("amend",),
    "start": ("go",),
}
"""Words that are none of ours, and what they probably mean: they are offered, never taken."""

STAFF: frozenset[str] = frozenset({"coach", "manager", "trainer", "assistant", "head"})
"""Words with which somebody of the bench is named who has no number."""

SAVES = frozenset({"save", "saved", "saves"})
"""A shot as the goalkeeper's side says it."""

HORN = "horn"
"""The end of the period, or what stopped play."""

TO_COME = "?"
"""A jersey number that nobody could read yet."""

NET_EMPTY = ("out", "pulled", "none", "empty", "empty net")
"""What stands in place of the goalkeeper's number when the net is empty."""

FILLERS: Mapping[str, tuple[str, ...]] = {
    "open": ("open", "opens", "opened"),
    "because": ("because",),
    "on": ("on", "v", "-"),
    "and": ("and", "&", "+", "/"),
    "staff": ("staff",),
}
"""Words that carry no value of their own."""
