"""How fast the live page's server answers: the example game half played and nearly over, over the loopback network.

    PYTHONPATH=tests python tests/benchmarks/bench_page.py

For each a preview of an entry that was not tried before, and an entry written: from the first byte sent to the last
byte of the answer, which for an entry holds the whole new state. The entry is on the disk by then.
"""

from __future__ import annotations

import http.client
import json
import secrets
import statistics
import tempfile
import time
from collections.abc import Mapping
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from live_server.program import Program

EXAMPLE = Path(__file__).parents[2] / "examples" / "game.jsonl"
HALF, WHOLE = 160, 310
ROUNDS = 60
PAUSE = 0.05  # seconds between entries, as quick fingers make them


class Asker:
    """One kept connection, as a browser has it."""

    def __init__(self, url: str) -> None:
        self.url = urlsplit(url)
        self.connection = http.client.HTTPConnection(self.url.netloc)
        self.headers = {"Origin": f"http://{self.url.netloc}", "Content-Type": "application/json"}

    def post(self, name: str, body: Mapping[str, Any]) -> tuple[float, Any]:
        """The milliseconds it took, and the answer."""
        start = time.perf_counter()
        self.connection.request("POST", self.url.path + name, json.dumps(body).encode(), self.headers)
        data = self.connection.getresponse().read()
        took = (time.perf_counter() - start) * 1000
        time.sleep(PAUSE)
        return took, json.loads(data)


def previews(asker: Asker) -> list[float]:
    """Previews of entries that differ."""
    return [asker.post("api/preview", {"text": f"home shot {number}"})[0] for number in range(1, ROUNDS)]


def entries(asker: Asker, version: int) -> list[float]:
    """Shots written one after another."""
    times = []
    for _ in range(ROUNDS):
        form = {"text": "home shot", "version": version, "id": secrets.token_hex(8)}
        took, answer = asker.post("api/enter", form)
        version = answer["state"]["version"]
        times.append(took)
    return times


def told(name: str, times: list[float]) -> str:
    """Median and 95th percentile."""
    slow = statistics.quantiles(times, n=20)[-1]
    return f"{name:28} {statistics.median(times):6.1f} ms   95th percentile {slow:6.1f} ms"


def main() -> None:
    """Time both, and print."""
    for events in (HALF, WHOLE):
        with tempfile.TemporaryDirectory() as folder:
            path = Path(folder) / "game.jsonl"
            path.write_bytes(b"".join(EXAMPLE.read_bytes().splitlines(keepends=True)[:events]))
            with Program(path) as program:
                asker = Asker(program.addresses["clock and record, may write"])
                print(told(f"preview after {events} events", previews(asker)))
                print(told(f"entry after {events} events", entries(asker, events)))
                asker.connection.close()


if __name__ == "__main__":
    main()
