"""A dictionary that cannot be changed, for what all share: quick like any other, and it can be copied and pickled."""

from __future__ import annotations

from typing import Any, NoReturn, TypeVar

__all__ = ["ReadOnly"]

K = TypeVar("K")
V = TypeVar("V")


class ReadOnly(dict[K, V]):
    """A dictionary that cannot be changed; ``dict(it)`` is a copy of your own."""

    __slots__ = ()

    def _refuse(self, *_: Any, **__: Any) -> NoReturn:
        raise TypeError("This is shared and cannot be changed; dict(it) makes a copy of your own.")

    __setitem__ = __delitem__ = __ior__ = clear = pop = popitem = setdefault = update = _refuse

    def __copy__(self) -> ReadOnly[K, V]:
        """Itself."""
        return self

    def __deepcopy__(self, memo: dict[int, Any]) -> ReadOnly[K, V]:
        """Itself."""
        return self

    def __reduce__(self) -> tuple[Any, ...]:
        """Made again from its items."""
        return type(self), (dict(self),)
