"""From a key press to the changed page, and to another page, in Chromium, with the example game half played.

    RINKFOLD_BROWSER=/usr/bin/chromium PYTHONPATH=tests .venv/bin/python tests/benchmarks/bench_live_page.py

Each entry is appended and flushed to the disk before the page shows it. Beside it stands what the same page needs for a
request that the server answers from memory, so that the machine's own share can be told. What this does not show: a
tablet over a rink's wireless network, and a machine that is busy.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from browser.engine import running_browser
from live_browser.screen import Screen, opened
from live_server.program import Program

EXAMPLE = Path(__file__).resolve().parents[2] / "examples" / "game.jsonl"
HALF = 160
ROUNDS = 100
GOAL_MS = 100
WATCH = """() => {
  window.took = [];
  let pressed = 0;
  addEventListener("keydown", (event) => {
    if (["h", "a", "Enter"].includes(event.key)) [pressed, window.pressed] = [performance.now(), Date.now()];
  }, true);
  new MutationObserver(() => requestAnimationFrame(() => {
    if (pressed) window.took.push(performance.now() - pressed);
    pressed = 0;
  })).observe(document.querySelector("#entries"), { childList: true });
}"""
"""Counts from the key to the frame in which the list of entries is drawn anew."""
SEEN = """() => {
  window.seen = [];
  const entries = document.querySelector("#entries");
  const draw = () => requestAnimationFrame(() => window.seen.push(Date.now()));
  new MutationObserver(draw).observe(entries, { childList: true });
}"""
"""On another page: when its list of entries is drawn anew."""
REQUEST = """async () => {
  const began = performance.now();
  await (await fetch("api/state", { cache: "no-store" })).json();
  return performance.now() - began;
}"""


def shots(screen: Screen, rounds: int) -> list[float]:
    """Single keys, home and away in turn."""
    return _measured(screen, rounds, lambda at: screen.page.keyboard.press("ha"[at % 2]))


def shots_seen(writer: Screen, reader: Screen, rounds: int) -> list[float]:
    """Single keys, until another page of the same browser shows them."""
    reader.page.evaluate(SEEN)
    took = []
    for at in range(rounds):
        writer.page.keyboard.press("ha"[at % 2])
        reader.until(f"window.seen.length > {at}")
        took.append(float(reader.page.evaluate("window.seen.at(-1)") - writer.page.evaluate("window.pressed")))
    return took


def lines(screen: Screen, rounds: int) -> list[float]:
    """A whole entry typed; only its Enter is counted."""

    def type_one(at: int) -> None:
        screen.page.keyboard.type(f"420 stop offside {at}")
        screen.page.keyboard.press("Enter")
        screen.until("document.querySelector('#entry').value === ''")

    return _measured(screen, rounds, type_one)


def _measured(screen: Screen, rounds: int, press: Callable[[int], None]) -> list[float]:
    before = len(screen.page.evaluate("window.took"))
    for at in range(rounds):
        press(at)
        screen.until(f"window.took.length > {before + at}")
    return list(screen.page.evaluate("window.took"))[before:]


def told(name: str, took: list[float]) -> str:
    """Median and 95th percentile."""
    ordered = sorted(took)
    return f"{name:32} median {statistics.median(ordered):5.0f} ms   p95 {ordered[int(len(ordered) * 0.95)]:5.0f} ms"


def main(rounds: int) -> None:
    """Print one line for each way of entering, and the reference."""
    with tempfile.TemporaryDirectory() as folder, running_browser() as browser:
        log = Path(folder) / "game.jsonl"
        log.write_text("".join(EXAMPLE.read_text(encoding="utf-8").splitlines(keepends=True)[:HALF]), encoding="utf-8")
        with Program(log) as program:
            screen = opened(browser, program, "may write", "")
            screen.page.evaluate(WATCH)
            shots(screen, 5)
            print(f"example game, {HALF} events written; {rounds} rounds; wanted: p95 under {GOAL_MS} ms")
            print(told("a shot, one key", shots(screen, rounds)))
            print(told("an entry typed, its Enter", lines(screen, rounds)))
            reader = opened(browser, program, "reading only", "")
            print(told("a shot, seen on another page", shots_seen(screen, reader, rounds)))
            print(told("reference: the state, fetched", [screen.page.evaluate(REQUEST) for _ in range(rounds)]))


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else ROUNDS)
