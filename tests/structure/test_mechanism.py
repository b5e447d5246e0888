"""Pieces that are free to move."""

import numpy as np
import pytest

from holeplacer.structure import tributary
from holeplacer.structure.mechanism import mechanism
from holeplacer.structure.stroke_body import stroke_body


@pytest.fixture
def body(tee, sheet):
    return stroke_body(3, tee.polygon, tee.strip, tributary.bits(tee.polygon), sheet)


@pytest.mark.parametrize(
    ("xy", "words"),
    [
        ([], "no hole holds it"),
        ([(10, 0)], "one hole holds it: it can tilt any way about it"),
        ([(10, 0), (500, 5)], "two holes hold it: it can turn about the line through them"),
        ([(0, 0), (300, 0), (600, 0)], "its 3 holes lie in one line: it can turn about the line"),
    ],
)
def test_free_pieces_are_named(body, xy, words):
    """Too few holes, or all in a line, leave a piece free to move; it is said how."""
    found = mechanism(body, np.array(xy, float).reshape(-1, 2), clamped=False)
    assert found.piece == 3
    assert found.certain
    assert words in found.why
    assert found.holes == len(xy)


def test_three_holes_apart_hold(body):
    """Three holes that span a triangle hold a piece."""
    assert mechanism(body, np.array([(0, 0), (600, 0), (300, -250.0)]), clamped=False) is None


def test_nearly_in_line_is_told(body):
    """Holes a few millimetres off a line hold, but hardly."""
    found = mechanism(body, np.array([(0, 0), (300, 3.0), (600, 0)]), clamped=False)
    assert not found.certain
    assert "nearly in one line" in found.why


def test_clamped_holes_hold_alone(body):
    """One clamped hole holds a piece; none does not."""
    assert mechanism(body, np.array([(10.0, 0)]), clamped=True) is None
    assert mechanism(body, np.empty((0, 2)), clamped=True).why == "no hole holds it"
