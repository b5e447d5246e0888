"""Overload: what fails under a plan's loads, where, and how much in all."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import overload
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import spacing, strength

HOLES = (Hole(1, 100, 0), Hole(2, 300, 12), Hole(3, 900, 0))


@pytest.fixture(scope="module")
def bar():
    """A straight stroke 40 mm wide and 1 m long."""
    outline = Outline.from_geometry(shapely.box(0, -20, 1000, 20))
    return outline, medial_axis.medial_axis(outline)


def over(bar, pascal, holes=HOLES, **more):
    plan = Plan(ArtworkFile("bar.svg", b""))
    plan = replace(plan, holes=holes, loading=Loading("entered", pressure_out_pa=pascal, **more))
    found = strength.strength(plan, *bar)
    return overload.overload(plan, bar[1], spacing.spans(plan, *bar), found)


def test_light_wind_overloads_nothing(bar):
    """Where every utilisation is at most 1 there is no overload and no spot."""
    assert over(bar, 20.0) == overload.Overload(0.0, ())


def test_long_span_is_the_spot(bar):
    """The long span fails along its middle; every spot fails, the worst first."""
    found = over(bar, 2000.0)
    assert found.total > 0
    assert any(500 < spot.xy_mm[0] < 700 for spot in found.spots)
    assert all(spot.share > 1 for spot in found.spots)
    assert [s.share for s in found.spots] == sorted((s.share for s in found.spots), reverse=True)


def test_total_rises_with_the_wind(bar):
    """More wind is more overload, and a hole in the long span is less."""
    assert over(bar, 1000.0).total < over(bar, 2000.0).total
    more = (*HOLES, Hole(4, 600, 0))
    assert over(bar, 2000.0, more).total < over(bar, 2000.0).total


def test_entered_limit_counts(bar):
    """A deflection limit in mm fails wherever the stroke gives more than it."""
    assert over(bar, 100.0, deflection_limit_mm=1000.0).total == 0
    found = over(bar, 100.0, deflection_limit_mm=0.01)
    assert len(found.spots) > 2


def test_spots_are_apart(bar):
    """One place is told once."""
    spots = over(bar, 5000.0).spots
    xy = np.array([spot.xy_mm for spot in spots])
    away = np.hypot(*(xy[:, None] - xy[None]).transpose(2, 0, 1))
    near = overload.ONE_SPOT * Plan(ArtworkFile("bar.svg", b"")).limits.spacing_mm
    assert away[~np.eye(len(xy), dtype=bool)].min(initial=np.inf) > near
