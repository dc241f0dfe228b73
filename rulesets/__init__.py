"""The library of age-class rules as data, and how they are found and read.

`load` finds a ruleset by its name or its file, `of` the one a log was played by. The league's own rules and the
officials on the ice decide; what is here is what the engine computes by.
"""

from ..timeline.knobs.pinning import pin, unpin
from ..timeline.knobs.values import written
from .checking import check
from .comparing import applied_line, diff, overrides
from .library import load, with_settings
from .of_a_log import effective_header, of, pinned_anew
from .places import names

__all__ = [
    "applied_line",
    "check",
    "diff",
    "effective_header",
    "load",
    "names",
    "of",
    "overrides",
    "pin",
    "pinned_anew",
    "unpin",
    "with_settings",
    "written",
]
