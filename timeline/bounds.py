"""The greatest numbers that a log may hold: far more than any game needs, and few enough for what goes through them."""

from __future__ import annotations

__all__ = ["MOST_COUNT", "MOST_FORMAT", "MOST_MINUTES", "MOST_PERIOD", "MOST_SEQ", "MOST_SKATERS"]

MOST_PERIOD = 99
"""Answers go period by period, so a slip such as 20260110 for 2 must not keep the machine busy for hours."""

MOST_SEQ = 999_999_999
"""Of `seq`, and of whatever points at one; a whole season has a hundred thousand lines."""

MOST_COUNT = 999
"""Of shots, goals and saves, and of what a ruleset counts: sums of them stay exact in every table that is written."""

MOST_SKATERS = 99
"""As somebody may have miscounted them; the rules owe nine at most."""

MOST_MINUTES = 999
"""Of penalty minutes for one penalty."""

MOST_FORMAT = 999
"""Of the number of a log's format, of which there is one so far."""
