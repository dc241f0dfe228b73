"""`rinkfold record`."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Annotated

import typer

from ..arguments import AsJson, GameFile, Names

if TYPE_CHECKING:
    from ...timeline.problems import Problem
    from ..recording import Recording, Taken

__all__ = ["record"]


def record(
    game: GameFile,
    entry: Annotated[list[str], typer.Argument(metavar="ENTRY", help="What happened, as short entries.")],
    dry_run: Annotated[bool, typer.Option("--dry-run", help="Say what would be done, and write nothing.")] = False,
    keep_going: Annotated[bool, typer.Option("--keep-going", help="Write the entries that are right.")] = False,
    names: Names = False,
    as_json: AsJson = False,
) -> None:
    """Append what happened, and say at once what each entry does.

    Each argument is one entry; a single one needs no quotes: rinkfold record game.jsonl 9:15 home goal 17 from 16.
    Without --keep-going all entries are written or none.

    Exit code 2: an entry is not understood or looks like a slip, and nothing was written; 1: with --keep-going, only
    some were written, or all were, and the answer could not be shown.
    """
    from ..errors import once_written
    from ..opening import open_log
    from ..recording import Recording, entries_of

    recording = Recording.of(open_log(game), names=names, typed=True)
    refused = _take_all(recording, entries_of(entry, recording), keep_going)
    if refused and (not keep_going or not recording.taken):
        raise typer.Exit(2)
    if dry_run:
        _answer(recording, dry_run=True, as_json=as_json)
    else:
        recording.write()
        with once_written(_written(recording)):
            _answer(recording, dry_run=False, as_json=as_json)
    if refused:
        raise typer.Exit(1)


def _written(recording: Recording) -> str:
    """``"#2 was written"``, ``"#2 to #4 were written"``."""
    first, last = recording.taken[0].event.seq, recording.taken[-1].event.seq
    return f"#{first} was written" if first == last else f"#{first} to #{last} were written"


def _answer(recording: Recording, *, dry_run: bool, as_json: bool) -> None:
    """Say what each entry does."""
    from ..paper import say, say_json

    if as_json:
        from ..answers.record import record_answer

        say_json(record_answer(recording, dry_run=dry_run))
    else:
        say(line for one in recording.taken for line in _said(one, recording, dry_run=dry_run))
        say(_after(recording, dry_run=dry_run))


def _take_all(recording: Recording, texts: Sequence[str], keep_going: bool) -> int:
    """Take in the entries, tell what is wrong with those that are not right; how many those are."""
    from ..paper import complain
    from ..recording import Taken

    refused = 0
    for text in texts:
        result = recording.take(text)
        if not isinstance(result, Taken):
            refused += 1
            complain("\n".join(f"{text}: {_told(problem)}" for problem in result))
    if refused and not (keep_going and recording.taken):
        complain("Nothing was written.")
    return refused


def _told(problem: Problem) -> str:
    from ...timeline.problems import render

    return render(problem)


def _said(one: Taken, recording: Recording, *, dry_run: bool) -> list[str]:
    """What an entry does; below that what looks wrong, and what a correction or late entry changes in the game."""
    lines = [f"#{one.event.seq} {one.effect}", *_look_again(one, dry_run=dry_run)]
    if one.different is None or not one.different.found:
        return lines
    from ..paper import style_of
    from ..people import people_of
    from ..tables.differences import difference_lines

    game = one.different.after
    people = people_of(game.header, (each.event for each in game.folded.placed), names=recording.names)
    return [*lines, *(f"  {line}" for line in difference_lines(one.different, people, style_of()) if line)]


def _look_again(one: Taken, *, dry_run: bool) -> list[str]:
    """What `check` newly finds with the entry."""
    warned = one.warned(written=not dry_run)
    warnings = [f"  Look again: {found.message} {found.fix}" for found in warned.warnings]
    return [*warnings, *(f"  Note: {found.message} {found.fix}" for found in warned.hints)]


def _after(recording: Recording, *, dry_run: bool) -> list[str]:
    """What is said once: that nothing was written, the head code of a closed record, and whose rules were used."""
    from ..closing import head_code_line
    from ..words import footer

    closed = [] if dry_run else head_code_line(recording)
    return [*(["Nothing was written: --dry-run."] if dry_run else []), *closed, footer(recording.game.header)]
