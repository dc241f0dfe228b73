"""Short entries: what is typed at the table, one entry for one event."""

from .context import Entry, EntryContext, EntryProblem
from .parse import parse_entry
from .printing import print_entry

__all__ = ["Entry", "EntryContext", "EntryProblem", "parse_entry", "print_entry"]
