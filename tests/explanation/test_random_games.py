"""Explanations of random games, under many rules: complete, in order, and nothing without its reason."""

from __future__ import annotations

import pytest
from agreement import bridge
from agreement.comparing import seeded

from rinkfold.timeline.fold import rulebook
from rinkfold.timeline.fold.changes import GoalJudged, PartEnded, PartStarted, PlayResumed
from rinkfold.timeline.fold.rulebook import Rule
from rinkfold.timeline.folded import FoldedGame
from rinkfold.timeline.game import Game
from rinkfold.timeline.views.explaining.causes import blocks_of
from rinkfold.timeline.views.explaining.citing import EXTRA_ATTACKER
from rinkfold.timeline.views.explaining.naming import Numbers
from rinkfold.timeline.views.explaining.narrate import narrate
from rinkfold.timeline.views.explaining.story import Explanation, explain_goal, explain_instant, explain_penalty

SEEDS = range(40)
RULES = {value for value in vars(rulebook).values() if isinstance(value, Rule)} | {EXTRA_ATTACKER}


@pytest.fixture(scope="module")
def games() -> list[FoldedGame]:
    """The games."""
    seeds = (seeded(seed) for seed in SEEDS)
    return [bridge.folded(one.knobs, one.goalkeepers, one.events) for one in seeds]


def check(explanation: Explanation) -> None:
    """The steps are in order, each has its words and a rule of the rulebook, and the decisive ones are among them."""
    places = [(step.change.period, step.tenth) for step in explanation.steps]
    assert places == sorted(places)
    assert all(step.text and step.cause.text and step.rule in RULES for step in explanation.steps)
    assert len({(step.rule, step.tenth) for step in explanation.decisive}) <= 2
    assert set(explanation.decisive) <= set(explanation.steps)


def test_causes_hold_every_change_once_and_in_order(games: list[FoldedGame]) -> None:
    """Taking the changes of an event apart loses and doubles none."""
    for game in games:
        assert [change for block in blocks_of(game) for change in block.changes] == list(game.all_changes())


def test_a_cause_has_one_time(games: list[FoldedGame]) -> None:
    """All its changes are of one tenth of one period."""
    for game in games:
        for block in blocks_of(game):
            assert {(change.period, change.at) for change in block.changes} == {(block.period, block.at)}


def test_what_runs_out_is_no_event(games: list[FoldedGame]) -> None:
    """Time that runs out stands by itself, and what a goal or an official ends does not stand there."""
    for game in games:
        for block in blocks_of(game):
            ended = {change.fate for change in block.changes if isinstance(change, PartEnded)}
            if block.kind == "clock":
                assert ended <= {"served", "offset"}
                assert not any(isinstance(change, PlayResumed | GoalJudged) for change in block.changes)
            elif block.kind == "play went on":
                assert "ended by goal" not in ended


def test_every_penalty_is_explained(games: list[FoldedGame]) -> None:
    """From the call on, with a step for everything that was told of it."""
    for folded in games:
        game = Game(folded, ())
        for seq in folded.penalties:
            explanation = explain_penalty(game, seq)
            check(explanation)
            assert explanation.decisive
            told = [step.change for step in explanation.steps]
            assert all(
                change in told
                for change in folded.all_changes()
                if isinstance(change, PartStarted | PartEnded) and change.penalty == seq
            )


def test_every_goal_is_explained(games: list[FoldedGame]) -> None:
    """With what it ended among its steps."""
    for folded in games:
        game = Game(folded, ())
        for line in game.goals:
            explanation = explain_goal(game, line.seq)
            check(explanation)
            ended = [
                step.change.penalty
                for step in explanation.steps
                if isinstance(step.change, PartEnded)
                and step.change.fate == "ended by goal"
                and step.change.seq == line.seq
            ]
            assert ended == list(line.ended)


def test_every_instant_is_explained(games: list[FoldedGame]) -> None:
    """Everybody who sits is spoken of, and nothing that comes later."""
    for folded in games:
        game = Game(folded, ())
        for span in folded.periods:
            for share in range(4):
                tenth = span.start + (span.end - span.start) * share // 3
                instant = game.at(folded.moment(span.period, tenth))
                explanation = explain_instant(instant)
                check(explanation)
                assert all(step.tenth <= instant.state.now for step in explanation.steps)
                about = {penalty for step in explanation.steps for penalty in step.penalties}
                assert {one.penalty for one in instant.box} <= about


def test_narrower_rules_are_of_the_same_matter(games: list[FoldedGame]) -> None:
    """Where another rule is cited than the one told, it is of the rulebook, and many are left as told."""
    kept = narrowed = 0
    for game in games:
        for step in narrate(game, blocks_of(game), Numbers()):
            assert step.rule in RULES
            same = step.stands_in or step.rule == step.change.rule
            kept, narrowed = kept + same, narrowed + (not same)
    assert 0 < narrowed < kept


def test_a_penalty_or_goal_that_is_none(games: list[FoldedGame]) -> None:
    """A KeyError, as for any mapping."""
    game = Game(games[0], ())
    with pytest.raises(KeyError):
        explain_penalty(game, 99999)
    with pytest.raises(KeyError):
        explain_goal(game, 99999)
