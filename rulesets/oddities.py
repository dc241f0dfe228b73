"""What a ruleset file may say and probably does not mean.

Each is a function "Say that …" over one file as it was resolved. Nothing here makes a file wrong. What a file inherits
is not held against it: a function speaks only of knobs that the file sets itself.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from ..timeline.clock import format_reading
from ..timeline.knobs.values import written
from ..timeline.problems import Problem, Severity
from ..timeline.rules import KNOBS, Ruleset, knob_value
from ..timeline.wording import listed
from .library import Resolution

__all__ = ["oddities"]

SHORTEST, LONGEST = 300, 36000
"""Lengths in tenths below and above which probably another unit was meant: half a minute, and an hour."""

_IN_ORDER = (
    ("lengths.minor", "lengths.major"),
    ("lengths.major", "lengths.misconduct"),
    ("lengths.minor", "game.period_length"),
    ("overtime.length", "game.period_length"),
)
"""Lengths of which the first is hardly ever longer than the second."""


def oddities(found: Resolution) -> Iterator[Problem]:
    """Everything odd about a file in which nothing is wrong."""
    for say in _SAYINGS:
        yield from say(found)


def _odd(code: str, field: str, message: str, fix: str, severity: Severity = "warning") -> Problem:
    return Problem(code=code, severity=severity, message=message, fix=fix, field=field)


def _unusual_lengths(found: Resolution) -> Iterator[Problem]:
    """Say that a length is so short or so long that another unit was probably meant."""
    for name, value in found.sheet.values.items():
        if KNOBS[name].unit != "length" or SHORTEST <= value <= LONGEST:
            continue
        meant = value * 60 if value < SHORTEST else value / 60
        fix = f'If {"minutes" if value < SHORTEST else "seconds"} are meant, write "{format_reading(round(meant))}".'
        how = "short" if value < SHORTEST else "long"
        message = f"{written(value, name)} is very {how}: minutes stand before the colon."
        yield _odd("unusual_length", name, message, fix)


def _lengths_out_of_order(found: Resolution) -> Iterator[Problem]:
    """Say that what is hardly ever longer is."""
    for shorter, longer in _IN_ORDER:
        if not {shorter, longer} & found.sheet.values.keys():
            continue
        if knob_value(found.rules, shorter) > knob_value(found.rules, longer):
            fix = "Look whether the two are exchanged, or a figure is wrong."
            field = shorter if shorter in found.sheet.values else longer
            yield _odd("longer_than_usual", field, _longer(found.rules, shorter, longer), fix)


def _longer(rules: Ruleset, longer: str, than: str) -> str:
    a, b = (written(knob_value(rules, name), name) for name in (longer, than))
    return f"{longer} is {a}, longer than {than}, which is {b}."


def _nobody_plays_short(found: Resolution) -> Iterator[Problem]:
    """Say that penalties leave a side at full strength although sides play short."""
    ice = found.rules.ice
    if (
        ice.plays_short
        and ice.min_skaters >= ice.skaters
        and {"ice.skaters", "ice.min_skaters"} & found.sheet.values.keys()
    ):
        message = (
            f"Penalties never leave a side short: ice.min_skaters is {ice.min_skaters}, ice.skaters {ice.skaters}."
        )
        fix = "If no side plays short, say plays_short = false below [ice]; else lower ice.min_skaters."
        yield _odd("never_short", "ice.min_skaters", message, fix)


_NO_EFFECT: Sequence[tuple[tuple[str, ...], Callable[[Ruleset], bool], str]] = (
    (
        ("game.running_clock.from_period", "game.running_clock.stops_below"),
        lambda rules: rules.game.running_clock.starts_at_lead == 0,
        "game.running_clock.starts_at_lead is 0, so no lead makes the clock run",
    ),
    (
        ("game.running_clock.starts_at_lead", "game.running_clock.from_period", "game.running_clock.stops_below"),
        lambda rules: rules.game.clock == "running",
        "game.clock is running, so the clock runs whatever the lead is",
    ),
    (("ice.min_skaters",), lambda rules: not rules.ice.plays_short, "ice.plays_short is false"),
    (
        ("shootout.rounds",),
        lambda rules: rules.overtime.periods == 0,
        "overtime.periods is 0, so overtime goes on until the game is decided",
    ),
    (
        ("overtime.equal_pair",),
        lambda rules: rules.overtime.skaters >= rules.ice.skaters,
        "overtime is played with as many skaters as regulation",
    ),
    (
        ("ejection.counts_washed_out",),
        lambda rules: rules.ejection.player_penalties == 0,
        "ejection.player_penalties is 0, so no number of penalties ends a player's game",
    ),
)
"""Knobs that change nothing, when, and why."""


def _without_effect(found: Resolution) -> Iterator[Problem]:
    """Say that a knob changes nothing beside the others; a note only where its source says that it is meant so."""
    for names, is_so, why in _NO_EFFECT:
        for name in names:
            changed = name in found.sheet.values and knob_value(found.rules, name) != knob_value(found.below, name)
            if changed and is_so(found.rules):
                severity: Severity = "note" if name in found.sheet.sources else "warning"
                fix = "Set the other one too, or leave this out."
                yield _odd("no_effect", name, f"It changes nothing: {why}.", fix, severity)


def _restated(found: Resolution) -> Iterator[Problem]:
    """Say that a value is the inherited one, unless the file gives a source of its own for it."""
    if found.sheet.extends is None:
        return
    for name, value in found.sheet.values.items():
        if value == knob_value(found.below, name) and name not in found.sheet.sources:
            message = f"{written(value, name)} is what {found.sheet.extends} has anyway."
            yield _odd("restated", name, message, "It may be left out.", "note")


def _without_source(found: Resolution) -> Iterator[Problem]:
    """Say which values have no source."""
    names = [name for name in found.sheet.values if name not in found.sheet.sources]
    if names:
        message = f"Nothing says where {listed(names)} {'comes' if len(names) == 1 else 'come'} from."
        fix = f'Add below [sources] a line such as "{names[0]}" = "our by-laws, 7".'
        yield _odd("no_source", "sources", message, fix, "note")


def _stands_alone(found: Resolution) -> Iterator[Problem]:
    """Say that a file extends nothing and leaves much unsaid."""
    unset = len(KNOBS) - len(found.sheet.values)
    if found.sheet.extends is None and unset:
        message = f"The file extends nothing, so {unset} of {len(KNOBS)} rules have the engine's own value."
        fix = 'Say at the top which ruleset it is nearest to, for example extends = "youth-12u".'
        yield _odd("extends_nothing", "extends", message, fix)


def _without_title(found: Resolution) -> Iterator[Problem]:
    """Say that people will not be told whose rules they are."""
    if found.sheet.title is None:
        fix = 'Say at the top for example title = "Northern Lakes league, under 12".'
        yield _odd("no_title", "title", "The file has no title.", fix, "note")


def _words(found: Resolution) -> Iterator[Problem]:
    """Say that no infraction is offered, or one is written with blanks around it or a capital letter."""
    words = found.sheet.infractions
    if words is not None and not words:
        fix = "Leave infractions out to have the inherited words."
        yield _odd("no_infractions", "infractions", "No word is offered for what a penalty is for.", fix)
    for place, word in enumerate(words or ()):
        plain = word.strip().lower()
        if word != plain:
            message = f'"{word}" is not how people type it.'
            yield _odd("odd_word", f"infractions[{place}]", message, f'Write "{plain}".')


_SAYINGS: Sequence[Callable[[Resolution], Iterator[Problem]]] = (
    _stands_alone,
    _unusual_lengths,
    _lengths_out_of_order,
    _nobody_plays_short,
    _without_effect,
    _words,
    _without_title,
    _without_source,
    _restated,
)
