"""The chain: each line carries the SHA-256 of the line before it, so that a change shows.

Only a change that rewrites all later lines too does not show. That one is found by the *head code*, which is read out
or written down when the record is signed.
"""

from __future__ import annotations

import hashlib

__all__ = ["head_code", "is_head_code_of", "line_hash"]

_DIGITS = 16


def line_hash(line: bytes) -> str:
    """SHA-256 in hex of the bytes of a line without its newline: what the next line's `prev` must be."""
    return hashlib.sha256(line).hexdigest()


def head_code(digest: str) -> str:
    """The first 16 digits of the last line's hash in groups of four, for people to write down.

    >>> head_code("9f3a11c0de42b7059f3a11c0")
    '9f3a-11c0-de42-b705'
    """
    return "-".join(digest[start : start + 4] for start in range(0, _DIGITS, 4))


def is_head_code_of(code: str, digest: str) -> bool:
    """Whether `code`, as somebody typed it, is the head code of `digest`; capitals, blanks and hyphens do not matter.

    >>> is_head_code_of("9F3A 11C0 DE42 B705", "9f3a11c0de42b7059f3a11c0")
    True
    """
    typed = "".join(code.split()).replace("-", "").lower()
    return typed == digest[:_DIGITS]
