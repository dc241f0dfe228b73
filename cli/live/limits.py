"""Bounds: how large a request may be, how many may come, how many may wait, how many may listen."""

from __future__ import annotations

import json
from collections import OrderedDict
from time import monotonic
from typing import Any, NoReturn

from attrs import define, field
from starlette.requests import ClientDisconnect, Request

from ...timeline.record.json_line import is_too_deep
from .answers import Refusal

__all__ = ["BODY_BYTES", "LISTENERS", "WAITING", "Rates", "read_object"]

BODY_BYTES = 64 * 1024
_FIGURES = 9
LISTENERS = 40
WAITING = 24
"""Requests that change something and wait for their turn at one time; each takes some hundredths of a second."""

PER_SECOND = 100.0
BURST = 300.0
"""What one sender may ask for: far more than fingers can, far less than would keep the others waiting."""
SENDERS = 500


@define
class Rates:
    """How much each sender may still ask for: a bucket that fills steadily."""

    left: OrderedDict[str, tuple[float, float]] = field(factory=OrderedDict)

    def take(self, sender: str) -> None:
        """Count a request of `sender`.

        Raises:
            Refusal: too many have come.
        """
        now = monotonic()
        left, at = self.left.pop(sender, (BURST, now))
        left = min(BURST, left + (now - at) * PER_SECOND)
        self.left[sender] = (max(left - 1, 0.0), now)
        while len(self.left) > SENDERS:
            self.left.popitem(last=False)
        if left < 1:
            raise Refusal(429, "too_many", "Too many requests at once.", "Wait a second, then send it again.")


async def read_object(request: Request) -> dict[str, Any]:
    """The JSON object in the body of `request`.

    Raises:
        Refusal: there is none, or it is too large.
    """
    kind = request.headers.get("content-type", "").partition(";")[0].strip().lower()
    if kind != "application/json":
        raise Refusal(415, "not_json", "Expected application/json.")
    length = request.headers.get("content-length", "")
    if length.isdecimal() and (len(length) > _FIGURES or int(length) > BODY_BYTES):
        _too_large()
    body = b""
    try:
        async for chunk in request.stream():
            body += chunk
            if len(body) > BODY_BYTES:
                _too_large()
    except ClientDisconnect:
        raise Refusal(400, "bad_request", "The request was cut off.") from None
    return _object(body)


def _too_large() -> NoReturn:
    raise Refusal(413, "too_large", f"More than {BODY_BYTES // 1024} kB are never taken.", "Send less.")


def _object(body: bytes) -> dict[str, Any]:
    try:
        value = json.loads(body, parse_constant=_no_number)
        if is_too_deep(value):
            raise ValueError
        json.dumps(value, ensure_ascii=False).encode()  # half a surrogate pair cannot be written
    except (ValueError, RecursionError):
        raise Refusal(400, "bad_request", "Expected a JSON object in UTF-8.") from None
    if not isinstance(value, dict):
        raise Refusal(400, "bad_request", "Expected a JSON object.")
    return value


def _no_number(name: str) -> NoReturn:
    raise ValueError(name)
