"""The program, the example game, and the texts that are expected."""

from __future__ import annotations

from command_line.conftest import fresh, started

__all__ = ["fresh", "started"]
