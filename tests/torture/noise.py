"""Noise in the bytes of a log: what a bad drive, a bad copy or an editor makes of it."""

from __future__ import annotations

import random
from collections.abc import Callable

__all__ = ["KINDS_OF_NOISE", "noisy"]

SNIPPETS = (
    *(b'"', b"{", b"}", b"[", b"]", b",", b":", b"\\", b"\n", b"\r", b"\r\n", b"\n\n", b"\x00", b"\xff", b" ", b"\t"),
    *(b"\xef\xbb\xbf", b"\xff\xfe", b"\xe2\x80\xa8", b"\\ud800", b"\\u0041", b"\x1a", b"\x0b", b"\xc0\x80"),
    *(b"null", b"true", b"NaN", b"-Infinity", b"1e999", b"3.0", b"-0", b"9" * 30, b"9" * 5000, b'""', b"{}"),
    *(b"[" * 100, b"[" * 3000, b'"seq": 1, ', b'"prev": "", ', b'"kind": "void", ', b', "after": 2', b'{"seq": 1}\n'),
)


def insert(data: bytes, chance: random.Random) -> bytes:
    place = chance.randint(0, len(data))
    return data[:place] + chance.randbytes(chance.randint(1, 4)) + data[place:]


def insert_snippet(data: bytes, chance: random.Random) -> bytes:
    place = chance.randint(0, len(data))
    return data[:place] + chance.choice(SNIPPETS) + data[place:]


def delete(data: bytes, chance: random.Random) -> bytes:
    place = chance.randint(0, len(data))
    return data[:place] + data[place + chance.choice([1, 1, 1, 2, 8, 64]) :]


def flip(data: bytes, chance: random.Random) -> bytes:
    changed = bytearray(data)
    changed[chance.randrange(len(data))] ^= 1 << chance.randrange(8)
    return bytes(changed)


def overwrite(data: bytes, chance: random.Random) -> bytes:
    place = chance.randrange(len(data))
    return data[:place] + chance.randbytes(1) + data[place + 1 :]


def change_digit(data: bytes, chance: random.Random) -> bytes:
    places = [place for place, byte in enumerate(data) if chr(byte).isdigit()]
    place = chance.choice(places)
    return data[:place] + chance.choice(b"0123456789").to_bytes() + data[place + 1 :]


def change_value(data: bytes, chance: random.Random) -> bytes:
    """Put something else in the place of a value."""
    places = [place + 3 for place in range(len(data)) if data.startswith(b'": ', place)]
    start = chance.choice(places)
    ends = [end for end in (data.find(b", ", start), data.find(b"}", start)) if end >= 0]
    return data[:start] + chance.choice(SNIPPETS) + data[min(ends, default=start) :]


def truncate(data: bytes, chance: random.Random) -> bytes:
    return data[: chance.randrange(len(data))]


def pad(data: bytes, chance: random.Random) -> bytes:
    return data + bytes(chance.choice([1, 16, 512])) + chance.choice([b"", b"\n"])


def crlf(data: bytes, _: random.Random) -> bytes:
    return data.replace(b"\n", b"\r\n")


def twice(data: bytes, _: random.Random) -> bytes:
    return data + data


def _with_lines(change: Callable[[list[bytes], random.Random], None]) -> Callable[[bytes, random.Random], bytes]:
    def changed(data: bytes, chance: random.Random) -> bytes:
        lines = data.splitlines(keepends=True) or [b""]
        change(lines, chance)
        return b"".join(lines)

    return changed


def _double(lines: list[bytes], chance: random.Random) -> None:
    line = chance.choice(lines)
    lines.insert(chance.randint(0, len(lines)), line)


def _swap(lines: list[bytes], chance: random.Random) -> None:
    one, other = chance.randrange(len(lines)), chance.randrange(len(lines))
    lines[one], lines[other] = lines[other], lines[one]


def _take_out(lines: list[bytes], chance: random.Random) -> None:
    del lines[chance.randrange(len(lines))]


def _join(lines: list[bytes], chance: random.Random) -> None:
    number = chance.randrange(len(lines))
    lines[number] = lines[number].rstrip(b"\n")


KINDS_OF_NOISE: dict[str, Callable[[bytes, random.Random], bytes]] = {
    **{one.__name__: one for one in (insert, insert_snippet, delete, flip, overwrite, change_digit, change_value)},
    **{one.__name__: one for one in (truncate, pad, crlf, twice)},
    "double a line": _with_lines(_double),
    "swap lines": _with_lines(_swap),
    "take out a line": _with_lines(_take_out),
    "join lines": _with_lines(_join),
}


def noisy(data: bytes, chance: random.Random) -> tuple[str, bytes]:
    """`data` with noise of one kind, or now and then of several, and the kind of the first."""
    name = chance.choice(list(KINDS_OF_NOISE))
    changed = KINDS_OF_NOISE[name](data, chance)
    while chance.random() < 0.2 and b'": ' in changed and any(48 <= byte < 58 for byte in changed):
        changed = KINDS_OF_NOISE[chance.choice(list(KINDS_OF_NOISE))](changed, chance)
    return name, changed
