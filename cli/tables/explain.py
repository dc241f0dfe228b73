"""Why: the answer first, then the decisive reasons; or every step, with its event, its rule and the rule's source."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator
from itertools import groupby

from ...timeline.clock import format_reading
from ...timeline.fold.rulebook import RECORDED
from ...timeline.game import Game, Instant
from ...timeline.views.box import Sitting
from ...timeline.views.explaining.story import Explanation, Step
from ...timeline.views.goals import GoalLine
from ...timeline.views.penalties import PartLife, PenaltyLife, Return
from ..explaining import Question
from ..paper import Style
from ..people import People
from ..times import shown
from ..words import PARTS, TEAMS, footer, listed, offender, parts_text, yes_or_no
from .box import heading, who_sits
from .summary import goal_text, scorers

__all__ = ["explain_lines"]

WIDTH = 110
MORE = "Every step: the same with --full."


def explain_lines(
    game: Game, question: Question, explanation: Explanation, people: People, style: Style, *, full: bool
) -> list[str]:
    """The answer and the decisive reasons; with `full` every step."""
    answer = [style.strong(line) for line in _wrapped(_answer(game, question, people), "", "  ")]
    if full:
        return [*answer, "", *_story(game, explanation, style), style.faint(footer(game.header))]
    more = [style.faint(MORE)] if len(explanation.steps) > len(explanation.decisive) else []
    return [*answer, *_reasons(game, explanation), *more, style.faint(footer(game.header))]


# -- the answer


def _answer(game: Game, question: Question, people: People) -> str:
    if question.instant is not None:
        return f"{heading(question.instant)}; {_box(question.instant, people)}"
    if question.penalty is not None:
        life = next(life for life in game.penalties if life.penalty == question.penalty)
        return f"#{life.penalty} {_penalty(game, life, people)}"
    goal = next(goal for goal in game.goals if goal.seq == question.goal)
    return f"#{goal.seq} {_goal(game, goal, people)}"


def _box(instant: Instant, people: People) -> str:
    """Who sits, in one breath: ``"away 5 minor 0:20 left, 24 minor waits"``."""
    sides = []
    for team in TEAMS:
        sitters = [_sitter(instant, one, people) for one in instant.box if one.team == team]
        if sitters:
            sides.append(f"{team} {', '.join(sitters)}")
    return f"in the box: {'; '.join(sides)}" if sides else "nobody sits"


def _sitter(instant: Instant, one: Sitting, people: People) -> str:
    who = who_sits(instant, one, people)
    if not one.remaining:
        return f"{who} (time is up)"
    waits = " not begun," if one.state == "waiting" else ""
    return f"{who} ({PARTS[one.part]},{waits} {format_reading(one.remaining)} left)"


def _penalty(game: Game, life: PenaltyLife, people: People) -> str:
    event = life.event
    who = offender(event) or people.called(event.team, event.player)
    infraction = f" {event.infraction}" if event.infraction else ""
    said = f"{event.team} {who}, {parts_text(event.parts, game.rules)}{infraction}, {shown(life.at, game.rules)}"
    parts = [_part(game, part, alone=len(life.parts) == 1) for part in life.parts]
    returns = listed(_return(game, life, one, people) for one in life.returns)
    return f"{said}: {', '.join(parts)}" + (f"; {returns}" if returns else "")


def _part(game: Game, part: PartLife, *, alone: bool) -> str:
    """What became of one part: ``"ended by goal at 1 8:52 after 0:53"``."""
    lead = "" if alone else f"{PARTS[part.kind]} "
    if part.kind == "game_misconduct" or part.start is None:
        return f"{lead}{part.fate if part.kind != 'game_misconduct' else 'written'}"
    fate = "served off the clock" if part.fate == "offset" and part.end is not None else part.fate
    if part.end is None:
        return f"{lead}{fate}, {format_reading(part.served)} served so far"
    return f"{lead}{fate} at {shown(part.end, game.rules)} after {format_reading(part.served)}"


def _return(game: Game, life: PenaltyLife, one: Return, people: People) -> str:
    who = "the team-mate" if one.who is None else people.called(life.team, one.who)
    whistle = "at the whistle " if one.how == "at stoppage" else ""
    return f"{who} may leave the box {whistle}at {shown(one.at, game.rules)}"


def _goal(game: Game, goal: GoalLine, people: People) -> str:
    text = goal_text(game, goal, people)
    return f"{goal.team} {scorers(goal, people)}, {shown(goal.at, game.rules)}" + (f": {text}" if text else "")


# -- the reasons, and the whole story


def _reasons(game: Game, explanation: Explanation) -> Iterator[str]:
    """Each decisive reason with the rule's source: the steps of one rule at one reading together."""
    reasons = [[*steps] for _, steps in groupby(explanation.decisive, key=lambda step: (step.rule, step.tenth))]
    times = [shown(steps[0].at, game.rules) for steps in reasons]
    width = max(map(len, times), default=0)
    for at, steps in zip(times, reasons, strict=True):
        source = "" if steps[0].rule is RECORDED else f" ({steps[0].rule.source})"
        text = "; ".join(step.text for step in steps)
        yield from _wrapped(f"{text}{source}", f"  {at.rjust(width)}  ", " " * (width + 4))


def _story(game: Game, explanation: Explanation, style: Style) -> Iterator[str]:
    """Every step under its event: what changed, and below it the rule with its source."""
    for _, steps in groupby(explanation.steps, key=lambda step: step.number):
        same = [*steps]
        yield style.strong(_heading(game, same[0]))
        for rule, alike in groupby(same, key=_rule):
            for step in alike:
                yield from _wrapped(step.text, "  ", "    ")
            yield from (style.faint(line) for line in _wrapped(rule, " " * 6, " " * 6))
        yield ""


def _heading(game: Game, step: Step) -> str:
    cause = step.cause
    seq = f" (#{cause.seq})" if cause.seq is not None and cause.kind == "event" else ""
    return f"{shown(step.at, game.rules)}  {cause.text}{seq}"


def _rule(step: Step) -> str:
    """The rule with its source, and the knob by which the ruleset decided where the books differ; empty if recorded."""
    if step.rule is RECORDED:
        return ""
    if step.setting is None:
        return f"{step.rule.name} ({step.rule.source})"
    whose = "set for this game" if step.setting.overridden else "by these rules"
    return f"{step.rule.name} ({step.rule.source}; {step.setting.name}: {yes_or_no(step.setting.value)}, {whose})"


def _wrapped(text: str, first: str, further: str) -> list[str]:
    return textwrap.wrap(
        text, WIDTH, initial_indent=first, subsequent_indent=further, break_long_words=False, break_on_hyphens=False
    )
