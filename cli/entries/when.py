"""When an entry happened: its period and reading, and whether the clock went by before."""

from __future__ import annotations

from ...timeline.clock import format_reading, parse_reading
from ...timeline.events import WHEN, Event
from .context import EntryContext
from .head import Head
from .printing import is_late
from .tokens import Refused

__all__ = ["check_not_past", "check_one_reading", "when_of"]

When = tuple[int | None, str | None]


def when_of(text: str, head: Head, kind: str, context: EntryContext) -> When:
    """Period and reading of an entry of `kind`; the period is that of the entry before where none is written."""
    needed = WHEN[kind]
    if needed == "never" and (head.period or head.clock):
        raise Refused("No period and no reading stand before open.", "entry_reading", [text[head.when_ends :]])
    if needed == "never" or (needed == "optional" and head.period is None and head.clock is None):
        return None, None
    period = head.period or context.period
    clock = head.clock
    if clock is None and needed != "no reading":
        clock = _usual_reading(kind, period, context) if needed == "required" else None
        if clock is None:
            raise _no_reading(text, head, kind, period, context)
    _check_in_period(text, head, period, context)
    return period, clock


def _usual_reading(kind: str, period: int, context: EntryContext) -> str | None:
    """What the board shows where nobody has to look.

    A period of regulation ends with its time, starters stand in net at the opening faceoff, and in a shootout the clock
    stands.
    """
    if kind == "period_end" and period <= context.periods:
        return context.reading(period, context.length(period))
    if kind == "goalie_change" and period == context.period == 1 and context.played == 0:
        return context.reading(period, 0)
    if kind == "shootout_attempt" and period == context.period:
        return context.reading(period, context.played)
    return None


def _no_reading(text: str, head: Head, kind: str, period: int, context: EntryContext) -> Refused:
    played = context.played if period == context.period else 0
    likely = [context.reading(period, played)]
    if kind == "period_end":
        likely.append(context.reading(period, context.length(period)))
    lead, rest = text[: head.when_ends].strip(), text[head.when_ends :]
    if head.period is None:
        tries = [" ".join(part for part in (lead, reading, rest) if part) for reading in likely]
    else:
        tries = [f"{'late ' if head.late else ''}{period} {reading} {rest}" for reading in likely]
    if WHEN[kind] == "optional":
        tries.append(rest)
    now = context.reading(context.period, context.played)
    message = f"The reading is missing; the entry before stands at {now} of period {context.period}."
    return Refused(message, "entry_reading", tries)


def _check_in_period(text: str, head: Head, period: int, context: EntryContext) -> None:
    """A reading beyond the period's length is a slip, unless period and reading were written in full."""
    length = context.length(period)
    if head.clock is None or head.in_full or parse_reading(head.clock) <= length:
        return
    in_full = f"{'late ' if head.late else ''}{period} {head.clock} {text[head.when_ends :]}"
    raise Refused(
        f"{head.clock} is more than the {format_reading(length)} of period {period}.",
        "entry_reading",
        [in_full] if period <= context.period + 1 else [],
        remedy="Read the board again.",
    )


def check_one_reading(text: str, head: Head, context: EntryContext) -> None:
    """``7 30`` is the period and seconds, or 7:30 without its colon: where both can be, the writer must say."""
    if not head.two_figures or head.period is None or head.clock is None:
        return
    minutes = f"{head.period}{head.clock.removeprefix('0')}"
    reading, over = parse_reading(minutes), context.played >= context.length(context.period)
    period = context.period + 1 if over and not head.late else context.period
    if reading > context.length(period) or (context.is_past(period, reading) and not head.late):
        return
    rest = text[head.when_ends :]
    late = "late " if head.late else ""
    tries = [f"{late}{period} {minutes} {rest}" if over and not late else f"{late}{minutes} {rest}"]
    if head.period <= context.period + 1:
        past = context.is_past(head.period, parse_reading(head.clock))
        tries.append(f"{'late ' if past else late}{head.period} {head.clock} {rest}")
    raise Refused(
        f"This may be {minutes} of period {period}, or {head.clock} of period {head.period}.", "entry_ambiguous", tries
    )


def check_not_past(text: str, event: Event, head: Head, context: EntryContext) -> None:
    """A reading that the clock has passed belongs to the next period, or is written late: the writer must say which."""
    if head.late or not is_late(event, context) or event.period is None:
        return
    shown = f"{event.clock} of period {event.period}" if event.clock else f"Period {event.period}"
    now = context.reading(context.period, context.played)
    raise Refused(
        f"{shown} is past: the entry before stands at {now} of period {context.period}.",
        "entry_past",
        [*_in_next_period(text, event, head, context), f"late {text}"],
    )


def _in_next_period(text: str, event: Event, head: Head, context: EntryContext) -> list[str]:
    following = context.period + 1
    fits = event.clock and parse_reading(event.clock) <= context.length(following)
    return [f"{following} {event.clock} {text[head.when_ends :]}"] if fits and event.period == context.period else []
