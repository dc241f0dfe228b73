"""How much one sender may ask for, and how many senders are remembered."""

from __future__ import annotations

import pytest

from rinkfold.cli.live import limits
from rinkfold.cli.live.answers import Refusal


def test_no_more_senders_are_remembered_than_a_rink_has() -> None:
    """Whoever asks from ever new addresses fills no memory; the one who asked last is still counted."""
    rates = limits.Rates()
    for number in range(limits.SENDERS + 50):
        rates.take(f"10.0.{number // 256}.{number % 256}")
    assert len(rates.left) == limits.SENDERS
    assert "10.0.0.0" not in rates.left
    last = next(reversed(rates.left))
    assert rates.left[last][0] < limits.BURST


def test_a_sender_who_asks_too_much_is_refused(monkeypatch: pytest.MonkeyPatch) -> None:
    """After the burst only as much as comes back with time; others are not touched by it."""
    now = 100.0
    monkeypatch.setattr(limits, "monotonic", lambda: now)
    rates = limits.Rates()
    for _ in range(int(limits.BURST)):
        rates.take("one")
    with pytest.raises(Refusal):
        rates.take("one")
    rates.take("other")
    now += 1.0
    for _ in range(int(limits.PER_SECOND)):
        rates.take("one")
    with pytest.raises(Refusal):
        rates.take("one")
