"""Signals of programs that tests start: what a shell starts in its background, or nohup, ignores some of them."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable


def _as_in_front() -> None:
    signal.signal(signal.SIGINT, signal.default_int_handler)
    signal.signal(signal.SIGHUP, signal.SIG_DFL)


AS_IN_FRONT: Callable[[], None] | None = _as_in_front if os.name == "posix" else None
"""For `preexec_fn`: called before the program begins, so that it takes signals however the tests were started."""
