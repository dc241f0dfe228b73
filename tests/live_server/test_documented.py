"""What docs/live.md says of the protocol and the bounds is what the server does."""

from __future__ import annotations

import re

from live_server.desk import ROOT, At

from rinkfold.cli.live.asking import READS, WRITES
from rinkfold.cli.live.connections import FROM_ONE, FROM_OTHERS
from rinkfold.cli.live.keys import SECRET_BYTES
from rinkfold.cli.live.limits import BODY_BYTES, LISTENERS, PER_SECOND
from rinkfold.cli.live.stream import LISTENERS_AT_WORK

TEXT = (ROOT / "docs" / "live.md").read_text(encoding="utf-8")


def documented(method: str) -> set[str]:
    """The requests in the table, each by its whole name."""
    found: set[str] = set()
    for row in re.findall(r"^\| (`(?:GET|POST) api/.*?) \|", TEXT, flags=re.MULTILINE):
        now = ""
        for how, name in re.findall(r"`(GET |POST |…)(?:api)?/?([a-z/.-]+)", row):
            now = how.strip() if how != "…" else now
            if now == method:
                found.add(name if how != "…" else f"opening/{name}")
    return found


def test_every_request_is_documented_and_no_other() -> None:
    """Other front ends rely on it."""
    assert documented("GET") == {*READS, "events", "qr/read.svg"}
    assert documented("POST") == set(WRITES)


def test_the_bounds_are_those_that_are_documented() -> None:
    """As numbers in the text."""
    bounds = (
        f"{BODY_BYTES // 1024} kB a request",
        f"{PER_SECOND:.0f} requests a second",
        f"{LISTENERS} listening pages of readers",
        f"{LISTENERS_AT_WORK} of the writer",
        f"{LISTENERS_AT_WORK} at the doors",
    )
    assert all(bound in TEXT for bound in bounds)
    assert f"one device may hold {FROM_ONE} of\n  {FROM_OTHERS}." in TEXT
    assert f"a secret of {SECRET_BYTES * 8} bits" in TEXT


def test_every_field_of_the_state_is_documented(write: At) -> None:
    """By its name, but for what every answer has."""
    state = write.state()
    named = set(re.findall(r"`([a-z_]+)`", TEXT[TEXT.index("**The state.**") :]))
    assert set(state) - named == {"ok", "rinkfold"}
