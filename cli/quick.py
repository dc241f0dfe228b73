"""Typer's commands without what makes them slow to start.

Typer checks what was typed with pydantic, whose import takes longer than everything else here. Our parameters are text
and switches, which need no check, so pydantic is left for what is missing or odd, where typer's own message is wanted.
"""

from __future__ import annotations

from typing import Any

from typer.core import TyperCommand, TyperGroup

__all__ = ["QuickCommand", "QuickGroup"]


class QuickCommand(TyperCommand):
    """A command whose text is taken as it is."""

    def get_params(self, ctx: Any) -> list[Any]:
        """The parameters, the one for help among them."""
        return [_taken_as_typed(parameter) for parameter in super().get_params(ctx)]


class QuickGroup(TyperGroup):
    """A group whose text is taken as it is."""

    def get_params(self, ctx: Any) -> list[Any]:
        """The parameters, the one for help among them."""
        return [_taken_as_typed(parameter) for parameter in super().get_params(ctx)]


def _taken_as_typed(parameter: Any) -> Any:
    """`parameter`, which from now on passes text on, and nothing where nothing was typed and nothing is needed."""
    if "process_value" in vars(parameter):
        return parameter
    checked = parameter.process_value

    def process_value(ctx: Any, value: Any) -> Any:
        if isinstance(value, str) or (value is None and not parameter.required):
            return value if parameter.callback is None else parameter.callback(ctx, parameter, value)
        if _is_texts(value) and parameter.callback is None:
            return list(value)
        return checked(ctx, value)

    parameter.process_value = process_value
    return parameter


def _is_texts(value: Any) -> bool:
    return isinstance(value, (list, tuple)) and len(value) > 0 and all(isinstance(one, str) for one in value)
