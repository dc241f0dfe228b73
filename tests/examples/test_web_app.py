"""The web app of examples/web_app, served on this computer and asked over HTTP."""

from __future__ import annotations

import importlib
import json
import threading
import time
import urllib.error
import urllib.request
from collections.abc import Callable, Iterator
from http.client import HTTPResponse
from types import ModuleType
from typing import Any

import pytest

pytestmark = pytest.mark.examples

CALL = {"kind": "penalty_assessed", "period": 1, "clock": "9:15", "team": "home", "player": "12", "parts": ["minor"]}


@pytest.fixture
def address(example: Callable[[str], ModuleType]) -> Iterator[str]:
    """Where the app is served while a test runs."""
    uvicorn = importlib.import_module("uvicorn")
    config = uvicorn.Config(
        example("web_app/app.py").app, port=0, log_level="warning", ws="none", timeout_graceful_shutdown=1
    )
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run)
    thread.start()
    while not server.started:
        time.sleep(0.01)
    host, port = server.servers[0].sockets[0].getsockname()
    yield f"http://{host}:{port}/game"
    server.should_exit = True
    thread.join(timeout=20)


def ask(url: str, body: bytes | None = None) -> tuple[int, Any]:
    """Status and answer."""
    try:
        with urllib.request.urlopen(urllib.request.Request(url, body), timeout=10) as answer:
            return answer.status, json.load(answer)
    except urllib.error.HTTPError as refused:
        return refused.code, json.load(refused)


def message(stream: HTTPResponse) -> dict[str, Any]:
    """The next message of a stream of server-sent events."""
    lines: list[str] = []
    while (line := stream.readline().decode().rstrip("\n")) or not lines:
        lines.append(line)
    (data,) = [line.removeprefix("data: ") for line in lines if line.startswith("data: ")]
    return dict(json.loads(data))


def test_what_is_posted_is_pushed_to_whoever_watches(address: str) -> None:
    """One who watches from before and one who comes later hear the same; one who comes back hears what he missed."""
    with urllib.request.urlopen(f"{address}/changes", timeout=10) as early:
        status, answer = ask(f"{address}/events", json.dumps(CALL).encode())
        assert (status, answer["seq"]) == (200, 2)
        assert {"PlayStopped", "PenaltyCalled"} <= {change["kind"] for change in answer["changes"]}
        assert all(change["rule"] and change["source"] for change in answer["changes"])
        heard = message(early)
        ask(f"{address}/events", json.dumps({"kind": "faceoff", "period": 1, "clock": "9:15"}).encode())
        assert message(early)["seq"] == 3
    assert heard["changes"] == answer["changes"]
    assert (heard["strength"], heard["rules"]) == ("4 on 5", "youth-12u")
    assert heard["box"] == [{"team": "home", "sits": "12", "state": "running", "remaining": 1200}]
    with urllib.request.urlopen(f"{address}/changes", timeout=10) as late:
        assert [message(late)["seq"], message(late)["seq"]] == [2, 3]
    again = urllib.request.Request(f"{address}/changes", headers={"Last-Event-ID": "2"})
    with urllib.request.urlopen(again, timeout=10) as back:
        assert message(back)["seq"] == 3


@pytest.mark.parametrize(
    ("body", "status", "said"),
    [
        (b'{"kind": "gaol", "period": 1, "clock": "9:00"}', 422, 'no kind "gaol". Did you mean "goal"?'),
        (b'{"kind": "faceoff", "period": 1, "clock": "9:75"}', 422, "Expected a reading as on the board"),
        (b"not json", 400, "Expected one event as a JSON object."),
        (b"[1]", 400, "Expected one event as a JSON object."),
        (b"[" * 100_000, 400, "Expected one event as a JSON object."),
    ],
    ids=["kind", "reading", "no JSON", "no object", "too deep"],
)
def test_what_is_wrong_is_answered_and_changes_nothing(address: str, body: bytes, status: int, said: str) -> None:
    """The answer says what to write instead; the next event has the number that this one would have had."""
    code, answer = ask(f"{address}/events", body)
    assert code == status
    assert said in " ".join(answer["problems"])
    assert ask(f"{address}/events", json.dumps(CALL).encode())[1]["seq"] == 2
    assert ask(f"{address}/now")[1]["strength"] == "4 on 5"


def test_a_game_that_goes_on_with_a_log_is_told_from_its_first_event(example: Callable[[str], ModuleType]) -> None:
    """What was written before the app was started is heard like what comes: the same game, each event once."""
    app = example("web_app/app.py")
    live = app.LiveGame.open(app.rulesets.load("youth-12u"), home="Larks", away="Herons")
    live.record(app.event_from_dict(CALL))
    resumed = app.from_the_first(app.LiveGame(live.events))
    assert list(app.LiveGame(live.events)) == []
    assert list(resumed) == list(live)
    assert resumed.game == live.game
