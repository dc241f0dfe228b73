"""Text of a log made visible: no name can make a page or a terminal read otherwise than it is."""

from __future__ import annotations

from typing import TypeVar

__all__ = ["visible"]

_HIDDEN = dict.fromkeys(
    (
        *range(0x202A, 0x202F),
        *range(0x2066, 0x206A),
        *range(0x00, 0x09),
        0x0B,
        0x0C,
        *range(0x0E, 0x20),
        *range(0x7F, 0xA0),
    ),
    "\ufffd",
)
"""Characters that turn the direction of the text around them, and control characters."""

Value = TypeVar("Value")


def visible(value: Value) -> Value:
    """`value`, if it is a text with what hides or turns it shown as a mark; for templates, which give it any value."""
    return value.translate(_HIDDEN) if isinstance(value, str) else value  # type: ignore[return-value]
