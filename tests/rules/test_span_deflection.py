"""Span deflection: which metal belongs to which side of a hole, and how long that side is."""

from dataclasses import replace

import numpy as np
import pytest

from holeplacer.plan.hole import Hole
from holeplacer.rules import spacing, span_deflection


class Bent:
    """Stands for a response: deflection alone is looked at."""

    def __init__(self, *deflection):
        self.deflection_mm = deflection


def sides(plan, bar, axis, deflection):
    stations = (np.linspace(0.0, 400.0, 401),)
    found = spacing.spans(plan, bar, axis)
    return span_deflection.side_deflections(axis, found, stations, Bent(deflection(stations[0])))


@pytest.fixture
def held(plan):
    return replace(plan, holes=(Hole(1, 100.0, 0.0), Hole(2, 300.0, 0.0)))


def test_four_sides(held, bar, axis):
    """Two holes have two overhangs of 115 mm and share a span of 200 mm, half each."""
    found = sides(held, bar, axis, lambda s: s)
    assert [(item.hole, item.overhang, item.length_mm) for item in found] == [
        (0, True, pytest.approx(115.0)),
        (0, False, pytest.approx(100.0)),
        (1, False, pytest.approx(100.0)),
        (1, True, pytest.approx(115.0)),
    ]
    assert [item.deflection_mm for item in found] == pytest.approx([100, 200, 300, 400], abs=1.01)


def test_sign_does_not_matter(held, bar, axis):
    """Metal pushed towards the wall counts as well as metal pulled off it."""
    found = sides(held, bar, axis, lambda s: -np.ones_like(s))
    assert {item.deflection_mm for item in found} == {1.0}


def test_place_of_the_greatest(held, bar, axis):
    """It is said where the deflection is greatest."""
    found = sides(held, bar, axis, lambda s: np.exp(-(((s - 170.0) / 20) ** 2)))
    assert found[1].at_mm == pytest.approx((170.0, 0.0))


def test_no_hole(plan, bar, axis):
    """Without a hole there is no side."""
    assert sides(plan, bar, axis, lambda s: s) == ()
