"""Line hashes and head codes."""

from __future__ import annotations

import pytest

from rinkfold.timeline.record import head_code, is_head_code_of, line_hash

# NIST's example for SHA-256 of the three letters abc (FIPS 180-4 example values)
ABC = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"


def test_the_hash_of_a_line_is_its_sha256() -> None:
    """Any program can make the chain: it is plain SHA-256 in hex."""
    assert line_hash(b"abc") == ABC


def test_a_head_code_is_four_groups_of_four() -> None:
    """Short enough to read out."""
    assert head_code(ABC) == "ba78-16bf-8f01-cfea"


@pytest.mark.parametrize("typed", ["ba78-16bf-8f01-cfea", "BA78 16BF 8F01 CFEA", " ba7816bf8f01cfea\n"])
def test_a_head_code_as_people_type_it(typed: str) -> None:
    """Capitals, blanks and hyphens do not matter."""
    assert is_head_code_of(typed, ABC)


@pytest.mark.parametrize("typed", ["", "ba78", "ba78-16bf-8f01-cfeb", ABC])
def test_what_is_not_the_head_code(typed: str) -> None:
    """Neither a part of it nor more than it, nor another."""
    assert not is_head_code_of(typed, ABC)
