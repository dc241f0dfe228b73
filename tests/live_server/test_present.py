"""An entry as it counts now, which the page puts right."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from live_server.desk import At


def test_an_entry_with_its_corrections(write: At) -> None:
    """Every field by its name, null where nothing is known, as later entries have corrected it."""
    write.enter("amend 2 infraction hooking")
    answer = write.get("api/entry?seq=2").json()
    assert (answer["seq"], answer["kind"]) == (2, "penalty_assessed")
    assert answer["text"] == "2 9:15 home penalty 12 minor hooking"
    fields = answer["fields"]
    shown = {name: fields[name] for name in ("period", "clock", "team", "player", "parts", "infraction", "served_by")}
    assert shown == {
        "period": 2,
        "clock": "9:15",
        "team": "home",
        "player": "12",
        "parts": ["minor"],
        "infraction": "hooking",
        "served_by": None,
    }
    assert not {"seq", "prev", "by", "recorded_at"} & set(fields)


@pytest.mark.parametrize("seq", ["0", "3", "-1", "x", "", "2.0", "9" * 40, "\u0662"])
def test_an_entry_that_is_not_there(seq: str, write: At) -> None:
    """Told, whatever the number is."""
    answer = write.get(f"api/entry?seq={seq}")
    assert (answer.status_code, answer.json()["error"]) == (404, "not_found")


def test_an_entry_that_was_taken_back(write: At) -> None:
    """It does not count, so there is nothing to put right."""
    write.enter("void 2")
    assert write.get("api/entry?seq=2").status_code == 404
    assert write.get("api/entry?seq=3").json()["kind"] == "void"


def test_only_who_writes_is_told(at: Callable[..., At]) -> None:
    """It may hold names."""
    for page in (at("read"), at("door", "home")):
        assert page.get("api/entry?seq=2").status_code == 403
