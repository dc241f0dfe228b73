"""The invented clubs, people and divisions of the random season."""

from __future__ import annotations

import random
from collections.abc import Mapping
from functools import cache
from typing import Any

from attrs import frozen

from rinkfold import rulesets
from rinkfold.timeline import Player, Ruleset, StaffMember, TeamSheet

__all__ = ["CLUBS", "DIVISIONS", "Division", "club", "person", "rules_of"]

PLACES = (
    "Brackwater",
    "Fennick",
    "Galderly",
    "Harrowmere",
    "Ostley",
    "Pellworth",
    "Quarrydon",
    "Thornwick",
    "Wexmarsh",
)
BIRDS = ("Herons", "Otters", "Lanterns", "Magpies", "Ferrets", "Curlews", "Anvils", "Millers", "Weavers", "Comets")
FIRST = ("Ada", "Bram", "Cleo", "Dov", "Edda", "Finn", "Greta", "Hale", "Ines", "Joss", "Kit", "Lior", "Mika", "Nell")
LAST = (
    "Alder",
    "Birk",
    "Crane",
    "Dunnock",
    "Elver",
    "Fallow",
    "Gorse",
    "Hazel",
    "Ivory",
    "Juniper",
    "Kestrel",
    "Linnet",
)
COLOURS = ("green", "white", "red", "black", "blue", "yellow")
CLUBS = len(PLACES)
"""How many each division has."""


@frozen(eq=False)
class Division:
    """Games by one ruleset, and how they differ from it; 40 scorekeepers serve it."""

    name: str
    ruleset: str
    settings: Mapping[str, Any] | None = None


DIVISIONS = (
    Division("Twelve and under", "youth-12u"),
    Division("Fourteen and under", "youth-14u", {"overtime.skaters": 3}),
    Division("Schools", "high-school", {"shootout.rounds": 0}),
    Division("Evening league", "adult", {"game.clock": "running", "ejection.player_penalties": 4}),
    Division("Lakes cup", "canada-youth"),
    Division("First division", "international"),
)


@cache
def rules_of(division: Division) -> Ruleset:
    return rulesets.with_settings(rulesets.load(division.ruleset), division.settings)


def person(rng: random.Random) -> str:
    return f"{rng.choice(FIRST)} {rng.choice(LAST)}"


@cache
def club(seed: int, division: str, number: int) -> TeamSheet:
    """A club as its games are opened: the same people all season."""
    rng = random.Random(f"{seed} {division} {number}")
    name = f"{PLACES[number % len(PLACES)]} {BIRDS[(number + len(division)) % len(BIRDS)]}"
    numbers = sorted(rng.sample(range(2, 99), rng.randrange(15, 19)))
    keepers = {numbers.pop(0), numbers.pop()}
    positions = {n: "goalkeeper" if n in keepers else rng.choice(("forward", "defence")) for n in (*keepers, *numbers)}
    roster = tuple(Player(number=str(n), name=person(rng), position=positions[n]) for n in sorted(positions))  # type: ignore[arg-type]
    staff = (StaffMember(name=person(rng), role="head coach"),)
    short = f"{PLACES[number % len(PLACES)][:2]}{number}".upper()
    return TeamSheet(name=name, short=short, colour=rng.choice(COLOURS), roster=roster, staff=staff)
