"""Strip span: the handbook's strip."""

import math
from dataclasses import replace

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.loads.loading import Loading
from holeplacer.placement import strip_span
from holeplacer.plan.plan import Plan

PLAN = Plan(ArtworkFile("wave.svg", b""))


def windy(pascal, **more):
    return replace(PLAN, loading=Loading("entered", pressure_out_pa=pascal, **more))


def test_strip_meets_its_limit():
    """At the strip's span, deflection by the handbook is just the limit."""
    plan = windy(1000.0)
    span, t, metal = strip_span.strip_span_mm(plan), 1.519, plan.sheet.material
    gives = 5 * 1e-3 * span**4 * 12 / (384 * metal.elastic_mpa * t**3)
    assert gives == pytest.approx(span / 60)
    stiff = windy(1000.0, deflection_limit_mm=1.0)
    span = strip_span.strip_span_mm(stiff)
    assert 5 * 1e-3 * span**4 * 12 / (384 * metal.elastic_mpa * t**3) == pytest.approx(1.0)


def test_stress_can_govern_the_strip():
    """A sheet that may bend freely is limited by its stress: M = w L^2 / 8."""
    plan = windy(1000.0, deflection_limit_mm=1e4)
    span = strip_span.strip_span_mm(plan)
    assert 6 * 1e-3 * span**2 / (8 * 1.519**2) == pytest.approx(228.0 / 1.67, rel=0.01)


def test_no_wind_no_limit():
    """Without a wind a strip spans as far as one likes."""
    assert strip_span.strip_span_mm(PLAN) == math.inf
