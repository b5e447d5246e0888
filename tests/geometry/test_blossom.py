"""Blossoms of splines."""

import numpy as np
import pytest
from curves import EXAMPLES, splines
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import ArtworkError
from holeplacer.geometry.blossom import homogeneous, projected, spans
from holeplacer.geometry.curve import Spline


@given(splines(), st.integers(0, 1000))
@settings(**EXAMPLES)
def test_blossom_at_knots_is_the_control_point(spline, choice):
    """The blossom of a piece at neighbouring knots gives back the control point between them."""
    pieces = spans([spline])
    piece = choice % len(pieces.start)
    upto = np.searchsorted(spline.knots, pieces.start[piece], side="right") - 1
    index = upto - choice % (spline.degree + 1)
    arguments = spline.knots[index + 1 : index + 1 + spline.degree]
    found = pieces.at(np.array([piece]), arguments[None])
    expected = homogeneous(spline) if spline.weights is not None else spline.control
    assert np.allclose(found[0], expected[index], atol=1e-6)


@given(splines(rational=st.just(False)), st.randoms(use_true_random=False))
@settings(**EXAMPLES)
def test_blossom_is_symmetric(spline, random):
    """The order of the arguments does not matter."""
    pieces = spans([spline])
    arguments = [random.uniform(pieces.start[0], pieces.end[0]) for _ in range(spline.degree)]
    shuffled = random.sample(arguments, len(arguments))
    first = pieces.at(np.array([0]), np.array([arguments]))
    assert np.allclose(first, pieces.at(np.array([0]), np.array([shuffled])), atol=1e-8)


@given(splines())
@settings(**EXAMPLES)
def test_bezier_pieces_meet(spline):
    """The Bezier form of each piece ends where the next begins."""
    control = projected(spans([spline]).bezier())
    assert np.allclose(control[:-1, -1], control[1:, 0], atol=1e-7)


def test_many_splines_keep_apart():
    """Pieces of several splines carry their owner, control points and knots."""
    line = Spline(1, np.array([[0.0, 0], [1, 0], [1, 1]]), np.array([0.0, 0, 1, 2, 2]))
    other = Spline(1, np.array([[5.0, 5], [6, 6]]), np.array([0.0, 0, 3, 3]))
    pieces = spans([line, other])
    assert pieces.spline.tolist() == [0, 0, 1]
    assert pieces.end.tolist() == [1, 2, 3]
    assert pieces.bezier()[2].tolist() == [[5, 5], [6, 6]]


def test_spline_without_length_is_refused():
    """Knots that are all equal leave no parameter to run over."""
    with pytest.raises(ArtworkError, match="no length"):
        spans([Spline(1, np.array([[0.0, 0], [1, 1]]), np.ones(4))])
