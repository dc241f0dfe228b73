"""Rinkfold: replays an ice hockey game log into exact strength, penalty releases and scoring."""

from __future__ import annotations

__version__: str
"""The release that is installed; looked up when it is asked for, since that takes longer than this import."""


def __getattr__(name: str) -> str:
    """`__version__`, as the installed package says it; there is no other copy of it."""
    if name != "__version__":
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    from importlib.metadata import PackageNotFoundError, version

    try:
        return version("rinkfold")
    except PackageNotFoundError:  # the engine by itself: distributions/engine.py
        return version("rinkfold-engine")
