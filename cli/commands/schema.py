"""`rinkfold schema`."""

from __future__ import annotations

__all__ = ["schema"]


def schema() -> None:
    """The JSON Schema (2020-12) of one line of the log, for programs that write or check logs.

    rinkfold schema > log.schema.json
    """
    from ...timeline.record import log_schema
    from ..paper import say_json

    say_json(log_schema())
