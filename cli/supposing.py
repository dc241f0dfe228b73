"""What if: a game with lines that nobody writes, one after another, in the order in which they were typed."""

from __future__ import annotations

import json
from collections.abc import Sequence

from attrs import evolve, frozen

from ..timeline.events import Event, GameClosed
from ..timeline.game import Game
from ..timeline.problems import Problem, ProblemsFound
from ..timeline.record import Log
from ..timeline.record.amendments import voided_by
from .entries import parse_entry
from .entries.tokens import quote
from .errors import refuse
from .recording import Recording, Taken
from .standing import context_of

__all__ = ["EXAMPLES", "Supposed", "Supposition", "suppose", "suppositions"]

CHANGE = "--change"
"""The option that takes the place of the three, so that their order is kept; its value is a JSON list."""

EXAMPLES = {
    "--void": "Write the seq of what is supposed never to have counted: --void 17.",
    "--amend": "Write the seq, a field and its new value: --amend 17 clock=9:15.",
    "--insert": 'Write a short entry: --insert "2 9:15 home penalty 12 minor tripping".',
}
"""How each of the three is written."""


@frozen
class Supposition:
    """One line that is supposed: as it was typed, and as a short entry."""

    typed: str
    entry: str
    inserts: bool = False


@frozen
class Supposed:
    """A game as recorded and as supposed.

    Attributes:
        taken: what was supposed, each in whole words with what it does.
    """

    before: Game
    after: Game
    taken: tuple[Taken, ...]


def suppositions(arguments: Sequence[str]) -> list[str]:
    """The arguments of the command with ``--void``, ``--amend`` and ``--insert`` as one option each time.

    An ``--amend`` takes its seq and every ``field=value`` behind it.
    """
    rewritten: list[str] = []
    rest = [*arguments]
    while rest:
        argument = rest.pop(0)
        option, equals, value = argument.partition("=")
        if option not in ("--void", "--amend", "--insert"):
            rewritten.append(argument)
            continue
        values = [value] if equals else rest[:1]
        rest = rest if equals else rest[1:]
        while option == "--amend" and rest and _is_change(rest[0]):
            values.append(rest.pop(0))
        rewritten += [CHANGE, json.dumps([option, *values])]
    return rewritten


def _is_change(argument: str) -> bool:
    name, equals, _ = argument.partition("=")
    return bool(equals) and name.replace("_", "").isalpha() and name.islower()


def supposition_of(change: str) -> Supposition:
    """What one option supposes.

    Raises:
        ProblemsFound: nothing stands behind the option.
    """
    option, *values = json.loads(change)
    typed = " ".join((option, *values))
    if not values or not values[0].strip():
        refuse("nothing_supposed", f"Nothing stands behind {option}.", EXAMPLES[option])
    if option == "--insert":
        return Supposition(typed, values[0], inserts=True)
    if option == "--amend" and len(values) == 1 and " " not in values[0].strip():
        refuse("nothing_supposed", f"{typed}: the change is missing.", EXAMPLES[option])
    changes = [_quoted(value) for value in values[1:]]
    return Supposition(typed, " ".join((option.removeprefix("--"), values[0], *changes)))


def _quoted(change: str) -> str:
    """A change with its value in quotes where it is several words."""
    name, _, value = change.partition("=")
    return f"{name}={quote(value) if ' ' in value and not value.startswith(('{', '[', chr(34))) else value}"


def suppose(log: Log, changes: Sequence[str], *, names: bool = False) -> Supposed:
    """The game of `log` with the `changes` made in their order; nothing is written.

    Raises:
        ProblemsFound: one is not understood or does not fit; the message says which.
    """
    supposed = [supposition_of(change) for change in changes]
    recording = Recording.of(log, names=names)
    before = recording.game
    closing = _closing(before) if any(one.inserts for one in supposed) else None
    if closing is not None:
        _take(recording, Supposition(f"void {closing.seq}", f"void {closing.seq}"))
        recording.taken.clear()
    for one in supposed:
        _take(recording, one)
    return Supposed(before, _closed_again(recording, closing), tuple(recording.taken))


def _take(recording: Recording, one: Supposition) -> None:
    """Take one in; an entry of what is long past needs no ``late``, since that is what is meant here."""
    entry = one.entry
    if one.inserts:
        problem = parse_entry(entry, context_of(recording.game))
        if isinstance(problem, Problem) and problem.code == "entry_past":
            entry = f"late {entry}"
    taken = recording.take(entry)
    if not isinstance(taken, Taken):
        raise ProblemsFound(_told(problem, one) for problem in taken)


def _told(problem: Problem, one: Supposition) -> Problem:
    return evolve(problem, message=f"{one.typed}: {problem.message}")


def _closing(game: Game) -> GameClosed | None:
    """The closing of the record that counts."""
    gone = voided_by(game.events)
    closings = (event for event in reversed(game.events) if isinstance(event, GameClosed) and event.seq not in gone)
    return next(closings, None)


def _closed_again(recording: Recording, closing: GameClosed | None) -> Game:
    """The game, closed as it was if it had to be opened for an entry."""
    from .opening import replayed

    if closing is None or _closing(recording.game) is not None:
        return recording.game
    again: Event = evolve(closing, seq=len(recording.game.events) + 1, prev=None)
    return replayed(evolve(recording.log, events=(*recording.game.events, again)))
