"""Checks of the lines in their order: the header comes first, seq counts 1, 2, 3 …, the chain is unbroken."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from ..events import Event, GameOpened
from ..problems import Problem
from ..wording import show
from .chain import line_hash

__all__ = ["check_chain", "check_sequence"]


def check_sequence(events: Sequence[Event | None], numbers: Sequence[int], problems: list[Problem]) -> set[int]:
    """Check that the header is the first event and the only one, and that seq counts without gaps.

    Args:
        events: the event of each line, None for one that cannot be read.
        numbers: the number of each line.
        problems: what is found is added to it.

    Returns:
        The seqs that exist, with those that lines which cannot be read would have.
    """
    known: set[int] = set()
    expected = 1
    for index, (event, number) in enumerate(zip(events, numbers, strict=True)):
        if event is not None:
            if event.seq != expected:
                problems.append(_out_of_sequence(event.seq, expected, number))
            if isinstance(event, GameOpened) is not (index == 0):
                problems.append(_header_misplaced(event, index, number))
            expected = event.seq
        known.add(expected)
        expected += 1
    return known


def _out_of_sequence(found: int, expected: int, number: int) -> Problem:
    return Problem(
        code="out_of_sequence",
        message=f"Expected {expected}, found {found}: events are numbered 1, 2, 3 … without gaps.",
        fix="A line is missing, doubled or out of its place; go back to the file as it was written.",
        line=number,
        seq=found,
        field="seq",
    )


def _header_misplaced(event: Event, index: int, number: int) -> Problem:
    if index == 0:
        code, message = "not_opened", f'Expected "game_opened" in the first line, found "{event.kind}".'
        fix = "Write the line that opens the game before it."
    else:
        code, message = "opened_again", 'Found a second "game_opened"; expected it in the first line alone.'
        fix = "Amend event 1, or open another game in a file of its own."
    return Problem(code=code, message=message, fix=fix, line=number, seq=event.seq, field="kind")


def check_chain(events: Sequence[Event | None], lines: Sequence[tuple[int, bytes]]) -> Iterator[Problem]:
    """Check that `prev` stands in all lines or in none, and is the hash of the line before.

    Args:
        events: the event of each line, None for one that cannot be read.
        lines: each line's number and bytes.
    """
    first = next((event for event in events if event is not None), None)
    if first is None:
        return
    chained = first.prev is not None
    before, before_number = "", 0
    for event, (number, line) in zip(events, lines, strict=True):
        if event is not None:
            if (event.prev is not None) is not chained:
                yield _mixed(event, chained, number)
            elif chained and event.prev != before:
                yield _broken(event, before, before_number, number)
        before, before_number = line_hash(line) if chained else "", number


def _mixed(event: Event, chained: bool, number: int) -> Problem:
    return Problem(
        code="chain_missing" if chained else "chain_mixed",
        message="The field is missing, and the lines before have it."
        if chained
        else "The field stands here, and the lines before do not have it.",
        fix="A log carries the chain in every line or in none; go back to the file as it was written.",
        line=number,
        seq=event.seq,
        field="prev",
    )


def _broken(event: Event, expected: str, before_number: int, number: int) -> Problem:
    prev = event.prev or ""
    found = show(prev) if len(prev) <= 8 else f'{show(prev[:8])[:-1]}…"'
    if before_number == 0:
        message = f'Expected "" in the first line, found {found}.'
        fix = "Lines before it were taken out; go back to the file as it was written."
    else:
        message = f'The chain is broken: expected "{expected[:8]}…", the hash of line {before_number}, found {found}.'
        fix = (
            f"Line {before_number} was changed, or lines were put in or taken out here; go back to the file as it was."
        )
    return Problem(code="chain_broken", message=message, fix=fix, line=number, seq=event.seq, field="prev")
