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
    assert [item.deflection_mm for item in found] == pytest.approx([100, 200, 300, 415], abs=1.01)


def test_tips_go_on_straight(held, bar, axis):
    """An overhang gives most at its tip, 15 mm beyond the axis's end, not at that end."""
    first, *_, last = sides(held, bar, axis, lambda s: -0.1 * np.abs(s - 200.0))
    assert first.deflection_mm == pytest.approx(21.5)
    assert first.at_mm == pytest.approx((-15.0, 0.0))
    assert last.deflection_mm == pytest.approx(21.5)
    assert last.at_mm == pytest.approx((415.0, 0.0))


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


def test_what_is_allowed_belongs_to_the_side(held, bar, axis):
    """200 mm of span over 60, 115 mm of overhang over 30; at every station of each."""
    found = spacing.spans(held, bar, axis)
    stations = (np.linspace(0.0, 400.0, 401),)
    (allowed,) = span_deflection.allowed_mm(
        axis, found, stations, span_ratio=60.0, overhang_ratio=30.0
    )
    way = stations[0]
    inner = (way > 100.5) & (way < 299.5)
    outer = (way < 99.5) | (way > 300.5)
    assert allowed[inner] == pytest.approx(200.0 / 60.0)
    assert allowed[outer] == pytest.approx(115.0 / 30.0)


def test_allowed_agrees_with_what_is_judged(held, bar, axis):
    """The ribbon's limit is the rule's: length of each side over its ratio."""
    found = spacing.spans(held, bar, axis)
    stations = (np.linspace(0.0, 400.0, 401),)
    (allowed,) = span_deflection.allowed_mm(
        axis, found, stations, span_ratio=50.0, overhang_ratio=20.0
    )
    for item in sides(held, bar, axis, lambda s: 1 + np.sin(s / 20.0) ** 2):
        at = allowed[round(min(max(item.at_mm[0], 0.0), 400.0))]  # a tip counts as its axis end
        judged = item.length_mm / 20.0 if item.overhang else 2 * item.length_mm / 50.0
        assert at == pytest.approx(judged)


def test_without_a_hole_everything_is_allowed(plan, bar, axis):
    """There is nothing to hold it to."""
    found = spacing.spans(plan, bar, axis)
    (allowed,) = span_deflection.allowed_mm(
        axis, found, (np.linspace(0.0, 400.0, 5),), span_ratio=60.0, overhang_ratio=30.0
    )
    assert np.all(np.isinf(allowed))
