"""The record: the codec, the file and the door where outside data is checked.

Each name is imported when it is first asked for: a program that reads does not pay for what writes.
"""

from __future__ import annotations

import importlib
from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from .chain import head_code, is_head_code_of, line_hash
    from .checks import check_events
    from .codec import amended, event_from_dict, event_from_line, event_to_dict, event_to_line
    from .log import Log
    from .reader import parse_log, read_log
    from .schema import log_schema
    from .upgrades import FORMAT
    from .writer import append, create
    from .written import log_bytes

__all__ = [
    "FORMAT",
    "Log",
    "amended",
    "append",
    "check_events",
    "create",
    "event_from_dict",
    "event_from_line",
    "event_to_dict",
    "event_to_line",
    "head_code",
    "is_head_code_of",
    "line_hash",
    "log_bytes",
    "log_schema",
    "parse_log",
    "read_log",
]

_PLACES = {
    "head_code": "chain",
    "is_head_code_of": "chain",
    "line_hash": "chain",
    "check_events": "checks",
    "amended": "codec",
    "event_from_dict": "codec",
    "event_from_line": "codec",
    "event_to_dict": "codec",
    "event_to_line": "codec",
    "Log": "log",
    "parse_log": "reader",
    "read_log": "reader",
    "log_schema": "schema",
    "FORMAT": "upgrades",
    "append": "writer",
    "create": "writer",
    "log_bytes": "written",
}


def __getattr__(name: str) -> Any:
    """A name of this package, imported now."""
    if name not in _PLACES:
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    value = getattr(importlib.import_module(f".{_PLACES[name]}", __name__), name)
    globals()[name] = value
    return value
