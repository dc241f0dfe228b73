"""Forms that are sent again: an entry is written once, also where its answer was lost in a crash.

The id of a form is noted before its entry is written, with the number that the entry will have and a digest of what it
says. A server that was killed and started again finds by that whether the entry is in the log.
"""

from __future__ import annotations

import hashlib
import json
from collections import OrderedDict
from collections.abc import Mapping, Sequence
from typing import Any

from attrs import define, field

from ...timeline.events import Event
from ...timeline.record import event_to_dict
from .answers import Refusal
from .keys import KeyFile

__all__ = ["Repeats"]

REMEMBERED = 1_000
"""How many entries are known again when a page sends them once more."""

_ASIDE = ("seq", "prev")


@define
class Repeats:
    """What was answered to each form.

    Attributes:
        file: where ids are noted; None where they are only remembered.
        answered: the text and the answer of each form, by its id.
        noted: of the forms that a server before this one had: the number and the digest of the entry.
    """

    file: KeyFile | None = None
    answered: OrderedDict[str, tuple[str, dict[str, Any]]] = field(factory=OrderedDict)
    noted: dict[str, tuple[int, str]] = field(factory=dict)

    @classmethod
    def kept_in(cls, file: KeyFile) -> Repeats:
        """Those that are noted in `file`, and from now on will be."""
        noted = {}
        for note in file.notes()[-REMEMBERED:]:
            if isinstance(note, Mapping) and isinstance(note.get("seq"), int):
                noted[str(note.get("id"))] = (note["seq"], str(note.get("digest")))
        return cls(file, noted=noted)

    @property
    def notes(self) -> list[dict[str, Any]]:
        """What is noted, to be kept in a file that is written anew."""
        return [_note(name, seq, digest) for name, (seq, digest) in self.noted.items()]

    def about_to_write(self, name: str, seq: int, event: Event) -> None:
        """Note that the entry of the form `name` is being written as `seq`."""
        if self.file is not None:
            self.file.note(_note(name, seq, _digest(event)))

    def written(self, name: str, text: str, answer: dict[str, Any]) -> None:
        """Remember the answer to the form `name`."""
        self.answered[name] = (text, answer)
        while len(self.answered) > REMEMBERED:
            self.answered.popitem(last=False)

    def answer(self, name: str, text: str) -> dict[str, Any] | None:
        """The answer that the form `name` had; None for one that is new.

        Raises:
            Refusal: another text was sent with this id.
        """
        if name not in self.answered:
            return None
        known, answered = self.answered[name]
        if known != text:
            raise Refusal(400, "bad_request", "Another entry was sent with this id.", "Reload the page.")
        return {**answered, "replayed": True}

    def event_of(self, name: str, events: Sequence[Event]) -> Event | None:
        """The event of the form `name` that a server before this one wrote; None where it did not."""
        seq, digest = self.noted.get(name, (0, ""))
        found = events[seq - 1] if 0 < seq <= len(events) else None
        return found if found is not None and _digest(found) == digest else None


def _note(name: str, seq: int, digest: str) -> dict[str, Any]:
    return {"id": name, "seq": seq, "digest": digest}


def _digest(event: Event) -> str:
    """What tells an entry from every other: all that it says, and when it was written."""
    said = {field: value for field, value in event_to_dict(event).items() if field not in _ASIDE}
    return hashlib.sha256(json.dumps(said, sort_keys=True).encode()).hexdigest()
