"""The record: the codec, the file and the door where outside data is checked."""

from .chain import head_code, is_head_code_of, line_hash
from .checks import check_events
from .codec import amended, event_from_dict, event_from_line, event_to_dict, event_to_line
from .log import Log
from .reader import parse_log, read_log
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
    "parse_log",
    "read_log",
]
