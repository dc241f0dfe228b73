"""Deliberate faults of the fold, one line each, that the suite has to notice."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager

from attrs import frozen

from .swapping import fold_module, source_of, swapped

__all__ = ["FAULTS", "Fault", "broken"]


@frozen
class Fault:
    """What the broken fold does wrong: in one module of it, `wrong` stands for `right`."""

    says: str
    module: str
    right: str
    wrong: str


@contextmanager
def broken(fault: Fault) -> Iterator[None]:
    """The fold with the fault in it; ``ValueError`` where the fold has no such line, or several, any more."""
    module = fold_module(fault.module)
    source = source_of(module)
    if source.count(fault.right) != 1:
        raise ValueError(
            f"{fault.module}.py has {source.count(fault.right)} places that read {fault.right!r}, expected 1:"
            f" write the fault {fault.says!r} anew for the fold as it is"
        )
    changed = source.replace(fault.right, fault.wrong)
    with swapped(module, compile(changed, module.__file__ or "", "exec", dont_inherit=True)):
        yield


FAULTS = (
    Fault(
        "time that runs out at the tenth of an event is taken after the event",
        "passing",
        "while due <= until:",
        "while due < until:",
    ),
    Fault(
        "under a running clock penalty time starts at the whistle",
        "whistle",
        "if not draft.in_play and not (by_faceoff and draft.running and draft.opened):",
        "if not draft.in_play:",
    ),
    Fault(
        "a goalkeeper's penalties are one chain", "chains", "if keeper or player is None else", "if player is None else"
    ),
    Fault(
        "an ejected player keeps his misconduct",
        "settlement",
        "if is_out(side, calls[0]):",
        "if False:",
    ),
    Fault(
        "an ejection ends nothing that was owed before it",
        "ejections",
        "_end_what_is_owed_off_the_clock(draft, side, player)\n\n",
        "pass\n\n",
    ),
    Fault(
        "a player's minors are served before his majors",
        "chains",
        "return (not part.has_begun(now), part.is_minor,",
        "return (not part.has_begun(now), not part.is_minor,",
    ),
    Fault("a misconduct leaves the side short", "settlement", "misconduct.append(part)", "clock.append(part)"),
    Fault(
        "a misconduct under way runs on beside new time on the clock",
        "chains",
        "    if part.ends_at is None:\n        return part\n    still",
        "    if True:\n        return part\n    still",
    ),
    Fault("three penalties of a side run at a time", "slots", "SLOTS = 2", "SLOTS = 3"),
    Fault(
        "of one stoppage majors enter the slots first",
        "settlement",
        "return (not first.is_minor,",
        "return (first.is_minor,",
    ),
    Fault("the last in the queue starts first", "slots", "side.queue.pop(0)", "side.queue.pop()"),
    Fault(
        "whoever is followed by one from the queue leaves on the fly",
        "slots",
        "    elif taken:\n        hold(draft, side, sitter)\n",
        '    elif taken:\n        leave(draft, side, sitter, "on expiry", ON_EXPIRY)\n',
    ),
    Fault("a place that opens goes to the one held shortest", "slots", "side.held.pop(0)", "side.held.pop()"),
    Fault(
        "somebody penalized at the stoppage of his return returns",
        "release",
        "if tenth >= draft.whistle and sitter.who == number and entry not in side.withdrawn:",
        "if False:",
    ),
    Fault("the numbers are not raised to the fewest allowed", "draft", "if lift > 0:", "if lift > 9:"),
    Fault(
        "in a smaller overtime whoever returns is not added",
        "slots",
        "side.on_ice = min(side.on_ice + 1, draft.rules.ice.skaters)",
        "set_skaters(draft)",
    ),
    Fault(
        "a minor offsets a major",
        "offsetting",
        "    offset = _one_for_one(",
        "    offset = _ids(rest) if len({call.team for call in rest}) == len(rest) == 2 else _one_for_one(",
    ),
    Fault(
        "nobody looks how many players are short when it is chosen what is offset",
        "offsetting",
        "return (unmet, int(on_the_clock), int(stand_in),",
        "return (unmet, 0, int(stand_in),",
    ),
    Fault("the captain is not asked what stays on the clock", "offsetting", "return (unmet, int", "return (0, int"),
    Fault(
        "a minor and a major are netted at any time",
        "offsetting",
        "or not all(call.late for call in left):",
        "or False:",
    ),
    Fault(
        "a goal ends the minor with the most time left",
        "goals",
        "least = min(chain",
        "least = max(chain",
    ),
    Fault("the captain's choice among equals is ignored", "goals", "if chain.clock[0].penalty == ends)", "if False)"),
    Fault("a goal ends a minor of a lone pair", "goals", "and not chain.clock[0].lone\n", "and True\n"),
    Fault("a goal ends a major", "goals", "if chain.clock[0].is_minor\n", "if True\n"),
    Fault(
        "a goal at equal strength ends a minor",
        "goals",
        'can_end and relation == "short-handed" and',
        'can_end and relation != "power play" and',
    ),
    Fault(
        "the second half of a double minor is not started by the goal",
        "slots",
        "    if rest:\n",
        '    if rest and fate != "ended by goal":\n',
    ),
    Fault("a washed-out minor is served", "goals", "    return minors[0]\n", "    return None\n"),
    Fault(
        "a goal that ended a minor washes out a call too",
        "goals",
        "if goal.ended or goal.washed or",
        "if goal.washed or",
    ),
)
