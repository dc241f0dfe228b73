"""A page's view of a server in this process, and the logs that the tests begin with."""

from __future__ import annotations

import itertools
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

import httpx2 as httpx
from attrs import field, frozen
from starlette.testclient import TestClient

from rinkfold import rulesets
from rinkfold.cli.live.app import application
from rinkfold.cli.live.keys import Keys, Role
from rinkfold.cli.live.room import Room
from rinkfold.cli.live.security import Door
from rinkfold.cli.live.table import Table
from rinkfold.timeline.events import GameOpened, PenaltyAssessed, Player, StaffMember, TeamSheet
from rinkfold.timeline.record import log_bytes

ROOT = Path(__file__).resolve().parents[2]
EXAMPLE = ROOT / "examples" / "game.jsonl"
PORT = 8723
HOST = f"127.0.0.1:{PORT}"
ORIGIN = f"http://{HOST}"
RULES = rulesets.load("youth-14u")

HOME = TeamSheet(
    name="Elm Otters",
    short="ELM",
    colour="blue",
    roster=(
        Player(number="9", name="Ida Fernhollow"),
        Player(number="12", name="Per Millbrook", letter="C"),
        Player(number="31", name="Sol Wickham", position="goalkeeper"),
    ),
    staff=(StaffMember(name="Una Graymoor", role="coach"),),
)
AWAY = TeamSheet(
    name="Oak Badgers",
    short="OAK",
    colour="red",
    roster=(Player(number="4", name="Tor Lindqvale"), Player(number="17"), Player(number="30", position="goalkeeper")),
)
NAMES = ("Fernhollow", "Millbrook", "Wickham", "Graymoor", "Lindqvale")
"""What only the writer is shown."""


def header() -> GameOpened:
    """The first line of the tests' game."""
    return GameOpened(
        seq=1, format=1, game="elm-oak", ruleset=RULES.name, pinned=rulesets.pin(RULES), home=HOME, away=AWAY
    )


def short_log() -> bytes:
    """A log with one penalty."""
    call = PenaltyAssessed(
        seq=0, period=2, clock="9:15", team="home", player="12", parts=("minor",), infraction="tripping"
    )
    return log_bytes([header(), call])


LOGS: Mapping[str, Callable[[], bytes]] = {"short": short_log, "example": EXAMPLE.read_bytes}


def in_process(path: Path, *, lan: bool = False, names: bool = False, port: int = PORT) -> Room:
    """A room over the log at `path`, with keys that are the same each time."""
    return Room(Table(str(path)), Keys(b"k" * 32), Door(lan, port), names_for_all=names)


_ids = itertools.count()


def new_id() -> str:
    """An id that no other entry of the test has."""
    return f"entry-{next(_ids):06}"


@frozen(eq=False)
class At:
    """What the page of one role can do."""

    room: Room
    role: Role = field(factory=lambda: Role("write"))
    client: TestClient = field(init=False)

    @client.default
    def _client(self) -> TestClient:
        return TestClient(application(self.room), base_url=ORIGIN, follow_redirects=False)

    @property
    def base(self) -> str:
        """The path before everything."""
        return f"/{self.room.keys.secret(self.role)}/"

    def get(self, name: str = "", **headers: str) -> httpx.Response:
        """GET a page or what it asks for."""
        return self.client.get(self.base + name, headers=headers)

    def post(self, name: str, body: Mapping[str, Any], **headers: str) -> httpx.Response:
        """POST as a page of this server does."""
        return self.client.post(self.base + name, json=body, headers={"origin": ORIGIN, **headers})

    def state(self) -> Any:
        """What the page shows."""
        return self.get("api/state").json()

    def preview(self, text: str) -> Any:
        """What an entry would do."""
        return self.post("api/preview", {"text": text}).json()

    def enter(self, text: str, *, id: str = "", version: int | None = None, override: list[str] | None = None) -> Any:
        """Enter `text`, at the state as it is unless another `version` is given; the answer and the status as one."""
        form = {
            "text": text,
            "id": id or new_id(),
            "version": self.room.table.version if version is None else version,
            "override": override or [],
        }
        answered = self.post("api/enter", form)
        return {**answered.json(), "status": answered.status_code}
