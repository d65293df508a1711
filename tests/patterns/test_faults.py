"""Mistakes planted in the sound patterns are found, and at their own line."""

import pytest

from .faults import measure

EACH = 6  # of each kind in each pattern, so that the test stays short
SHARE = 0.98


@pytest.mark.slow
def test_planted_mistakes_are_found_where_they_stand() -> None:
    shares, misses = measure(EACH)
    there = sum(column[0] for column in shares.values())
    planted = sum(sum(column) for column in shares.values())
    assert there >= SHARE * planted, "\n".join(misses)
