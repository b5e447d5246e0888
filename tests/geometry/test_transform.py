"""Affine maps of curves."""

import math

import numpy as np
import pytest
from curves import EXAMPLES, affine_maps, circular_arcs, curves, distance_to_chain, polylines
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import CircularArc, EllipticArc, Polyline, Spline
from holeplacer.geometry.evaluate import domain, points_at
from holeplacer.geometry.transform import (
    IDENTITY,
    combined,
    matrix,
    moved,
    rational_spline,
    transformed,
)


def evenly(curve, count=101):
    start, end = domain(curve)
    return points_at(curve, start + (end - start) * np.linspace(0, 1, count))


@given(curves, affine_maps())
@settings(**EXAMPLES)
def test_points_of_the_image_are_images_of_points(curve, by):
    """The transformed curve runs through the transformed points, from end to end."""
    image = transformed(curve, by)
    expected, found = moved(evenly(curve), by), evenly(image)
    if isinstance(curve, Polyline) and isinstance(image, Spline):
        assert np.allclose(expected[[0, -1]], found[[0, -1]], atol=1e-6)
        whole = moved(points_at(curve, np.arange(int(domain(curve)[1]) + 1)), by)
        assert np.allclose(points_at(image, np.arange(len(whole))), whole, atol=1e-6)
    else:
        assert np.allclose(found, expected, atol=1e-6)


@given(polylines(bulged=st.just(True)))
@settings(**EXAMPLES)
def test_arcs_as_rational_pieces_are_the_same_arcs(polyline):
    """Every point of the rational spline lies on the arc of its step, on the same side."""
    spline = rational_spline(polyline)
    for step in range(int(domain(polyline)[1])):
        t = step + np.linspace(0, 1, 800)
        arc = points_at(polyline, t)
        length = np.linalg.norm(np.diff(arc, axis=0), axis=1).sum()
        away = distance_to_chain(points_at(spline, t[::20]), arc)
        assert away.max() <= 1e-4 * (1 + length)


@given(circular_arcs, affine_maps())
@settings(**EXAMPLES)
def test_circles_stay_circles_only_under_similar_maps(arc, by):
    """Turned, mirrored and evenly scaled arcs stay arcs; stretched ones become elliptic."""
    longest, shortest = np.linalg.svd(by[:, :2], compute_uv=False) ** 2
    stretch = (longest - shortest) / (longest + shortest)
    assume(not 1e-11 < stretch < 1e-9)  # rounding decides
    kind = CircularArc if stretch < 1e-10 else EllipticArc
    assert isinstance(transformed(arc, by), kind)


@given(curves, affine_maps(), affine_maps())
@settings(**EXAMPLES)
def test_maps_combine(curve, first, second):
    """One combined map gives the same ends as two in a row."""
    ends = evenly(transformed(transformed(curve, first), second), 2)
    assert np.allclose(ends, evenly(transformed(curve, combined(second, first)), 2), atol=1e-5)


def test_mirrored_bulge_turns_the_other_way():
    """Mirroring changes the sign of a bulge, so the arc still bends to the same side of metal."""
    half = Polyline(np.array([[0.0, 0.0], [10.0, 0.0]]), np.array([1.0, 0.0]))
    image = transformed(half, matrix(-1, 0, 0, 1, 0, 0))
    assert image.bulges.tolist() == [-1, 0]
    assert np.allclose(points_at(image, 0.5), [[-5, -5]])


def test_stretched_circle_has_the_stretch_as_ratio():
    """A circle stretched three times along x has half axes 3 r and r."""
    image = transformed(CircularArc((1, 1), 2, 0, math.tau), matrix(3, 0, 0, 1, 0, 0))
    assert image.ratio == pytest.approx(1 / 3)
    assert math.hypot(*image.major) == pytest.approx(6)
    assert image.centre == pytest.approx((3, 1))


@pytest.mark.parametrize("by", [matrix(0, 0, 0, 1, 0, 0), matrix(1, 2, 2, 4, 0, 0), 0 * IDENTITY])
def test_flattening_maps_are_refused(by):
    """A map onto a line is an error, never a curve without width."""
    with pytest.raises(ArtworkError, match="scale of zero"):
        transformed(CircularArc((0, 0), 1, 0, 1), by)
