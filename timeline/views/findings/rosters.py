"""Numbers: who is on which roster, and who of them plays."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

from ...events import Goal, PenaltyAssessed, PenaltyShot, RosterChange, ShootoutAttempt, Team
from ...fold.draft import other
from ...wording import listed
from .appearances import PENALIZED, Appearance
from .checked import Checked
from .finding import Finding, Kind
from .step import Step

__all__ = ["CHECKS"]

NOT_ON_ROSTER = Kind(
    "not_on_roster",
    "error",
    "An event names a number that is on neither roster.",
    "Write the right number, or put the player on the roster.",
)
OTHER_SIDE = Kind(
    "other_side",
    "error",
    "An event names a number that is not on the side's roster but on that of the other side.",
    "Write the right number, or the right side.",
)
NOT_PLAYING = Kind(
    "not_playing",
    "error",
    "An event names a player whom the roster says to be absent, injured or suspended.",
    "Write the right number; if the player did play, tell the officials and put the roster right.",
)
OLD_NUMBER = Kind(
    "old_number",
    "error",
    "An event names a number after the player who wore it was given another.",
    "Write the number that is worn.",
)
NUMBER_TWICE = Kind(
    "number_twice",
    "error",
    "Two players of a side have one number.",
    "Give one of them the number that is worn.",
)
NO_SUCH_OLD_NUMBER = Kind(
    "no_such_old_number",
    "error",
    "A new number is written for a player whose old number is not on the roster.",
    "Write the old number as it stands on the roster.",
)
NUMBER_TO_COME = Kind(
    "number_to_come",
    "note",
    "A scorer, a penalized player or a shooter is still without a number.",
    "Ask, and write the number.",
)
STAFF_NOT_LISTED = Kind(
    "staff_not_listed",
    "note",
    "A penalty is on somebody of the bench who is not on the side's list of staff.",
    "Write the name as on the list.",
)

MOST = 5
"""Events that a message lists besides its own."""

_NO_GAME = frozenset({"absent", "injured", "suspended"})


def check_rosters(checked: Checked) -> Iterator[Finding]:
    """Check that every number is on the roster of its side, where one was given."""
    wrong_sides: set[int] = set()  # events: with the side of one of their numbers that of the others may be wrong
    for (step, one), *more in _by_number(checked, _is_not_on_it):
        told = f"{one.says}, but {one.number} is not on the {one.team} roster"
        if one.number not in checked.rosters[other(one.team)].numbers:
            remedy = f"{one.corrected(step.event.seq)}, or {checked.adding(f'{one.team} roster {one.number}')}"
            remedy = f"Write the right number, or put it on the roster: {remedy}."
            yield NOT_ON_ROSTER.of(step, f"{told}.{_also(more)}", remedy)
        elif step.event.seq not in wrong_sides:
            wrong_sides.add(step.event.seq)
            remedy = f"{one.corrected(step.event.seq)}, or `amend {step.event.seq} team {other(one.team)}`"
            told = f"{told}; {other(one.team)} has one.{_also(more)}"
            yield OTHER_SIDE.of(step, told, f"Write the right number or side: {remedy}.")


def _is_not_on_it(checked: Checked, step: Step, one: Appearance) -> bool:
    numbers = checked.rosters[one.team].numbers
    return bool(numbers) and one.number not in numbers


def check_playing(checked: Checked) -> Iterator[Finding]:
    """Check that whoever is absent, injured or suspended does nothing in the game."""
    for (step, one), *more in _by_number(checked, _should_not_play):
        status = checked.rosters[one.team].status(one.number, step.index)
        message = f"{one.says}, but the roster says {status}.{_also(more)}"
        remedy = f"{one.corrected(step.event.seq)}; if the number is right, tell the officials"
        yield NOT_PLAYING.of(step, message, f"Write the right number: {remedy}.")


def _should_not_play(checked: Checked, step: Step, one: Appearance) -> bool:
    status = checked.rosters[one.team].status(one.number, step.index)
    penalized = one.doing is PENALIZED and status != "injured"
    return status in _NO_GAME and (one.doing.plays or penalized)


def _by_number(
    checked: Checked, is_wrong: Callable[[Checked, Step, Appearance], bool]
) -> Iterable[Sequence[tuple[Step, Appearance]]]:
    """What `is_wrong` finds, all of one number together: it is one mistake of one roster, or one player."""
    found: dict[tuple[Team, str], list[tuple[Step, Appearance]]] = {}
    for step, one in checked.named:
        if is_wrong(checked, step, one):
            found.setdefault((one.team, one.number), []).append((step, one))
    return found.values()


def _also(more: Sequence[tuple[Step, Appearance]]) -> str:
    """Where else the number is named, as the end of a message."""
    seqs = [*dict.fromkeys(str(step.event.seq) for step, _ in more)]
    if not seqs:
        return ""
    rest = [f"{len(seqs) - MOST} more"] if len(seqs) > MOST else []
    return f" So in event{'s' if len(seqs) > 1 else ''} {listed([*seqs[:MOST], *rest])}."


def check_old_numbers(checked: Checked) -> Iterator[Finding]:
    """Check that nobody is named by a number he no longer wears."""
    for step, one in checked.named:
        change = checked.rosters[one.team].given_up(one.number, step.index)
        if change is not None:
            message = f"{one.says}, but wears {change.number} since event {change.seq}."
            new = one.amended.replace("…", change.number)
            yield OLD_NUMBER.of(step, message, f"Write the new number: `amend {step.event.seq} {new}`.")


def check_numbers_once(checked: Checked) -> Iterator[Finding]:
    """Check that no two players of a side have one number."""
    for team, roster in checked.rosters.items():
        names = {player.number: player.name for player in roster.players}
        numbers = [player.number for player in roster.players]
        for number in dict.fromkeys(n for n in numbers if numbers.count(n) > 1):
            message = f"The {team} roster has {numbers.count(number)} players with number {number}."
            remedy = checked.adding(f"{team} roster … was {number}")
            yield NUMBER_TWICE.about(message, f"Give one of them the number that is worn: {remedy}.", seq=1)
        for step, change in roster.changes:
            if _is_taken(names, change):
                message = f"{team} {change.number} is given to a second player."
                yield NUMBER_TWICE.of(step, message, f"Write the number that is worn: `amend {change.seq} number …`.")
            names[change.number] = change.name or names.pop(change.was or "", None) or names.get(change.number)


def _is_taken(names: Mapping[str, str | None], change: RosterChange) -> bool:
    """Whether the number of `change` is another player's."""
    if change.number not in names:
        return False
    if change.was is not None:
        return change.was != change.number
    return None not in (change.name, names[change.number]) and change.name != names[change.number]


def check_old_number_known(checked: Checked) -> Iterator[Finding]:
    """Check that whoever gets a new number had the old one."""
    for team, roster in checked.rosters.items():
        known = {player.number for player in roster.players}
        for step, change in roster.changes:
            if roster.players and change.was is not None and change.was not in known:
                message = (
                    f"{team} {change.number} is written as a new number for {change.was}, who is not on the roster."
                )
                yield NO_SUCH_OLD_NUMBER.of(step, message, f"Write the old number: `amend {change.seq} was …`.")
            known.add(change.number)


def check_numbers_known(checked: Checked) -> Iterator[Finding]:
    """Check that no scorer, penalized player or shooter is still without a number."""
    for step in checked.steps:
        event = step.event
        if isinstance(event, Goal) and event.scorer is None and not event.awarded:
            yield _to_come(step, f"The scorer of a goal for {event.team}", "scorer")
        elif isinstance(event, PenaltyAssessed) and _nobody_named(event):
            yield _to_come(step, f"The player of a penalty on {event.team}", "player")
        elif isinstance(event, PenaltyShot | ShootoutAttempt) and event.player is None:
            yield _to_come(step, f"The shooter of {event.team}", "player")


def _nobody_named(event: PenaltyAssessed) -> bool:
    return event.player is None and event.staff is None and "bench_minor" not in event.parts


def _to_come(step: Step, who: str, field: str) -> Finding:
    return NUMBER_TO_COME.of(step, f"{who} has no number yet.", f"Write it: `amend {step.event.seq} {field} …`.")


def check_staff(checked: Checked) -> Iterator[Finding]:
    """Check that penalized staff are on the side's list, where one was given."""
    sheets = {"home": checked.header.home, "away": checked.header.away}
    for step, event in checked.of(PenaltyAssessed):
        known = [member.name for member in sheets[event.team].staff or ()]
        if event.staff is not None and known and event.staff not in known:
            message = f"The penalty is on somebody of the {event.team} bench who is not on the list of staff."
            yield STAFF_NOT_LISTED.of(step, message, f"Write the name as on the list: `amend {event.seq} staff …`.")


CHECKS = (
    check_rosters,
    check_playing,
    check_old_numbers,
    check_numbers_once,
    check_old_number_known,
    check_numbers_known,
    check_staff,
)
