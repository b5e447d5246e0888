"""Spacing limit: the edge beyond which the fewest holes fail."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import Cancelled
from holeplacer.loads.loading import Loading, WallFixing
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose, spacing_limit
from holeplacer.placement.watch import Watch
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.rules import strength

PLAN = Plan(ArtworkFile("wave.svg", b""))


@pytest.fixture(scope="module")
def wave():
    """A stroke 30 mm wide that swings up and down over 0.9 m."""
    x = np.linspace(0.0, 900.0, 91)
    line = shapely.LineString(np.column_stack([x, 120 * np.sin(x / 120)]))
    outline = Outline.from_geometry(line.buffer(15, quad_segs=16))
    return outline, medial_axis.medial_axis(outline)


def windy(pascal, **more):
    return replace(PLAN, loading=Loading("entered", pressure_out_pa=pascal, **more))


def evaluated(spacing_mm, loading, wave):
    """Greatest utilisation of the fewest holes at a spacing, everything asked."""
    limits = replace(PLAN.limits, spacing_mm=spacing_mm, overhang_mm=spacing_mm / 2)
    calm = replace(PLAN, limits=limits)
    holes = propose.propose(calm, *wave).holes
    return strength.strength(replace(edit.with_holes(calm, holes), loading=loading), *wave)


@pytest.mark.parametrize("pascal", [1500.0, 3000.0])
def test_passes_and_the_next_greater_fails(wave, pascal):
    """The spacing found bears all loads; within two hundredths above it the fewest holes fail."""
    plan = windy(pascal)
    found = spacing_limit.spacing_limit(plan, *wave)
    assert found.enough
    assert found.spacing_mm < found.beyond_mm <= 1.02 * found.spacing_mm * (1 + 1e-9)
    assert found.overhang_mm == pytest.approx(found.spacing_mm / 2)
    whole = evaluated(found.spacing_mm, plan.loading, wave)
    assert whole.worst_known.share == pytest.approx(found.verdict.utilisation)
    assert whole.worst_known.share <= 1.0
    above = evaluated(found.beyond_mm, plan.loading, wave)
    assert above.worst_known.share == pytest.approx(found.beyond.utilisation)
    assert above.worst_known.share > 1.0


def test_taken_into_the_plan(wave):
    """Limits and holes go together, and what the plan then uses is what was said."""
    plan = windy(3000.0)
    found = spacing_limit.spacing_limit(plan, *wave)
    taken = found.taken(plan)
    assert (taken.limits.spacing_mm, taken.limits.overhang_mm) == (
        found.spacing_mm, found.overhang_mm,
    )  # fmt: skip
    share = strength.strength(taken, *wave).worst_known.share
    assert share == pytest.approx(found.verdict.utilisation)


def test_an_anchor_that_is_weak_holds_the_spacing_back(wave):
    """Not the sheet alone: what the anchor may bear is kept, too."""
    plan = windy(1500.0)
    weak = replace(plan.loading, fixing=WallFixing(tension_n=8.0, shear_n=200.0))
    free = spacing_limit.spacing_limit(plan, *wave)
    found = spacing_limit.spacing_limit(replace(plan, loading=weak), *wave)
    assert "anchor in the wall" in free.verdict.not_judged
    assert "anchor in the wall" not in found.verdict.not_judged
    assert found.spacing_mm < free.spacing_mm


def test_less_wind_spans_further(wave):
    """Half the wind never asks for a shorter spacing."""
    strong, light = (spacing_limit.spacing_limit(windy(p), *wave) for p in (4000.0, 1000.0))
    assert light.spacing_mm > strong.spacing_mm


def test_hopeless_wind(wave):
    """Where no spacing will do, it says so and what fails at the closest tried."""
    plan = windy(90_000.0)
    foil = replace(plan, sheet=replace(plan.sheet, gauge=None, thickness_mm=0.3))
    found = spacing_limit.spacing_limit(foil, *wave)
    assert not found.enough
    assert found.verdict.utilisation > 1.0


def test_nothing_without_wind(wave):
    """Without a wind there is nothing to solve."""
    assert spacing_limit.spacing_limit(PLAN, *wave) is None


def test_tells_and_can_be_stopped(wave):
    """Shares never fall; the person can stop the work."""
    told = []
    watch = Watch(progress=lambda share, _text: told.append(share))
    spacing_limit.spacing_limit(windy(2000.0), *wave, watch)
    assert len(told) > 2
    assert all(0 <= share <= 1 for share in told)
    with pytest.raises(Cancelled):
        spacing_limit.spacing_limit(windy(1000.0), *wave, Watch(cancelled=lambda: True))
