"""The greatest numbers that a log may hold: far more than any game needs, and few enough for what goes through them."""

from __future__ import annotations

__all__ = ["MOST_PERIOD"]

MOST_PERIOD = 99
"""Answers go period by period, so a slip such as 20260110 for 2 must not keep the machine busy for hours."""
