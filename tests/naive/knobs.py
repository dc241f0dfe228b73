"""Random settings for random games: half of them like a printed book, all lengths scaled down."""

import random
from typing import Any


def random_knobs(rng: random.Random) -> dict[str, Any]:
    """Half of the games like a printed book, the other half anything; all lengths scaled down."""
    minor = rng.choice((200, 300, 400, 600, 600, 900, 1200))
    major = rng.choice((minor * 5 // 2, minor * 5 // 2, minor * 2, minor, minor * 3))
    knobs: dict[str, Any] = {
        "game.periods": rng.choice((1, 2, 3, 3)),
        "game.period_length": rng.choice((1200, 1500, 1800, 2400, 3000, 3600)),
        "game.clock": rng.choice(("stop", "stop", "running")),
        "game.reading": "remaining",
        "game.running_clock.starts_at_lead": rng.choice((0, 0, 1, 2, 3)),
        "game.running_clock.from_period": rng.choice((1, 1, 2, 3)),
        "game.running_clock.stops_below": rng.choice((0, 1, 2, 2)),
        "ice.skaters": 5,
        "ice.min_skaters": 3,
        "ice.plays_short": rng.random() > 0.05,
        "lengths.minor": minor,
        "lengths.major": major,
        "lengths.match": rng.choice((major, major, minor * 4)),
        "lengths.misconduct": rng.choice((minor * 5, minor * 2, minor, minor // 2)),
        "overtime.skaters": rng.choice((5, 4, 3, 3)),
        "overtime.length": rng.choice((600, 900, 1200, 3000)),
        "overtime.periods": rng.choice((0, 1, 1, 2)),
        "overtime.equal_pair": rng.choice(("on_the_clock", "off_the_clock")),
        "stand_in.ejected": rng.choice(("at_once", "before_expiry")),
    }
    knobs.update(like_a_book(rng) if rng.random() < 0.5 else like_no_book(rng))
    return knobs


def like_a_book(rng: random.Random) -> dict[str, Any]:
    youth = {
        "goals.ends_minor": "least_time_left",
        "goals.penalty_shot_ends_minor": False,
        "goals.awarded_ends_minor": False,
        "goals.shorthanded_ends_own_minor": False,
        "delayed_call.even": "wash",
        "delayed_call.shorthanded_goal": "wash",
        "coincident.lone_minor_pair": "substitute",
        "coincident.late_netting": False,
        "ejection.major": "second",
        "ejection.misconducts": 2,
        "ejection.player_penalties": 5,
        "ejection.counts_washed_out": True,
        "overtime.sudden_victory": True,
    }
    canada = {"delayed_call.even": "swap", "delayed_call.shorthanded_goal": "serve", "ejection.major": "always"}
    world = {
        "coincident.lone_minor_pair": "four_on_four",
        "coincident.late_netting": True,
        "ejection.player_penalties": 0,
        "ejection.counts_washed_out": False,
    }
    return youth | rng.choice(
        ({}, canada | {"ejection.player_penalties": 0}, world, world | {"ejection.major": "third"})
    )


def like_no_book(rng: random.Random) -> dict[str, Any]:
    return {
        "goals.ends_minor": rng.choice(("least_time_left", "least_time_left", "first_assessed", "none")),
        "goals.penalty_shot_ends_minor": rng.random() < 0.4,
        "goals.awarded_ends_minor": rng.random() < 0.4,
        "goals.shorthanded_ends_own_minor": rng.random() < 0.4,
        "delayed_call.even": rng.choice(("wash", "swap", "swap", "serve")),
        "delayed_call.shorthanded_goal": rng.choice(("wash", "serve")),
        "coincident.lone_minor_pair": rng.choice(("substitute", "four_on_four")),
        "coincident.late_netting": rng.random() < 0.5,
        "ejection.major": rng.choice(("always", "second", "third", "never")),
        "ejection.misconducts": rng.choice((0, 1, 2, 3)),
        "ejection.player_penalties": rng.choice((0, 2, 3, 5)),
        "ejection.counts_washed_out": rng.random() < 0.5,
        "overtime.sudden_victory": rng.random() < 0.7,
    }
