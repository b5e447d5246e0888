"""Sheet limits: spacing and gauge that a wind asks for."""

from dataclasses import replace

import numpy as np
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import Cancelled
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.placement import propose, sheet_limits
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


def test_strip_meets_its_limit():
    """At the strip's span, deflection by the handbook is just the limit."""
    plan = windy(1000.0)
    span, t, metal = sheet_limits.strip_span_mm(plan), 1.519, plan.sheet.material
    gives = 5 * 1e-3 * span**4 * 12 / (384 * metal.elastic_mpa * t**3)
    assert gives == pytest.approx(span / 60)
    stiff = windy(1000.0, deflection_limit_mm=1.0)
    span = sheet_limits.strip_span_mm(stiff)
    assert 5 * 1e-3 * span**4 * 12 / (384 * metal.elastic_mpa * t**3) == pytest.approx(1.0)


def test_stress_can_govern_the_strip():
    """A sheet that may bend freely is limited by its stress: M = w L^2 / 8."""
    plan = windy(1000.0, deflection_limit_mm=1e4)
    span = sheet_limits.strip_span_mm(plan)
    assert 6 * 1e-3 * span**2 / (8 * 1.519**2) == pytest.approx(228.0 / 1.67, rel=0.01)


def test_largest_spacing_passes_and_a_much_larger_fails(wave):
    """The fewest holes at the spacing found bear the wind; at half as much again they don't."""
    plan = windy(3000.0)
    found = sheet_limits.largest_spacing(plan, *wave)
    assert found.utilisation <= 1.0
    assert found.overhang_mm == pytest.approx(found.spacing_mm / 2)
    assert found.governs.utilisation.utilisation == found.utilisation

    def share(spacing_mm):
        limits = replace(PLAN.limits, spacing_mm=spacing_mm, overhang_mm=spacing_mm / 2)
        calm = replace(PLAN, limits=limits)
        holes = propose.propose(calm, *wave).holes
        result = strength.strength(
            replace(edit.with_holes(calm, holes), loading=plan.loading), *wave
        )
        return result.worst_known.utilisation.utilisation

    assert share(found.spacing_mm) == pytest.approx(found.utilisation)
    assert share(1.5 * found.spacing_mm) > 1.0


def test_less_wind_spans_further(wave):
    """Half the wind never asks for a shorter spacing."""
    strong, light = (sheet_limits.largest_spacing(windy(p), *wave) for p in (4000.0, 1000.0))
    assert light.spacing_mm > strong.spacing_mm


def test_nothing_without_wind(wave):
    """Without a wind there is nothing to solve."""
    assert sheet_limits.largest_spacing(PLAN, *wave) is None
    assert sheet_limits.thinnest_gauge(PLAN, *wave) is None


def test_hopeless_wind(wave):
    """Where no spacing will do, none is named."""
    plan = windy(90_000.0)
    foil = replace(plan, sheet=replace(plan.sheet, gauge=None, thickness_mm=0.3))
    assert sheet_limits.largest_spacing(foil, *wave) is None


def test_thinnest_gauge(wave):
    """The next thinner gauge fails with the same holes."""
    holes = propose.propose(PLAN, *wave).holes
    plan = edit.with_holes(windy(600.0), holes)
    row = sheet_limits.thinnest_gauge(plan, *wave)
    assert 16 < row.number < 26
    thinner = sheet_limits.gauge.gauge("steel", row.number + 1)
    sheet = replace(plan.sheet, gauge=thinner.number, thickness_mm=thinner.thickness_mm)
    result = strength.strength(replace(plan, sheet=sheet), *wave)
    assert result.worst_known.utilisation.utilisation > 1.0


def test_can_be_stopped(wave):
    """The person can stop the work."""
    with pytest.raises(Cancelled):
        sheet_limits.largest_spacing(windy(1000.0), *wave, cancelled=lambda: True)
