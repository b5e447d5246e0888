"""Counting crossings before any work is spent on them."""

import math

import numpy as np
import pytest

from holeplacer.artwork.crossings import MOST_CROSSINGS, estimated_crossings, refuse_tangle
from holeplacer.errors import ArtworkError


def star(points: int) -> np.ndarray:
    """A star polygon {n / m}, which crosses itself n (m - 1) times."""
    turn = np.arange(points) * math.tau * (points // 2) / points
    return np.column_stack([np.cos(turn), np.sin(turn)]) * 100


def steps_of(ring: np.ndarray) -> np.ndarray:
    return np.stack([ring, np.roll(ring, -1, axis=0)], axis=1)


@pytest.mark.parametrize("points", [5, 7, 21, 51])
def test_crossings_of_stars_are_counted(points: int) -> None:
    """n (m - 1), the well-known figure (status M); neighbours that share a vertex don't count."""
    assert estimated_crossings(steps_of(star(points))) == points * (points // 2 - 1)


def test_a_sample_tells_a_large_tangle() -> None:
    """Within a tenth where only a part of the steps is tested: two combs, tooth across tooth."""
    tooth = np.arange(4000)
    sides = [np.column_stack([tooth, sign * (-1.0) ** tooth]) for sign in (1, -1)]
    steps = np.concatenate([np.stack([comb[:-1], comb[1:]], axis=1) for comb in sides])
    assert estimated_crossings(steps) == pytest.approx(3999, rel=0.1)


def test_a_tangle_is_refused_and_lettering_is_not() -> None:
    """A star of 20 001 points would cross itself two hundred million times."""
    with pytest.raises(ArtworkError, match=f"cross each other more than {MOST_CROSSINGS} times"):
        refuse_tangle([star(20_001)])
    refuse_tangle([star(81)])
    refuse_tangle([])
