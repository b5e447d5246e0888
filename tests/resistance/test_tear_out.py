"""Tear-out."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.resistance import tear_out
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade

PLACE = HolePlace(6.35, 7.0, 12.0)


def sheet(family="steel", method="asd", thickness=1.5):
    return SheetGrade(family, method, thickness, 228.0, 359.0)


@pytest.mark.parametrize(
    ("family", "method", "thickness", "allowed", "source"),
    [
        ("steel", "asd", 1.5, 0.6 * 359 * 3 * 8.5 / 2.22, "AISI S100-16 J6.1"),
        ("steel", "lrfd", 1.5, 0.65 * 0.6 * 359 * 3 * 8.5, "AISI S100-16 J6.1"),
        ("stainless", "asd", 1.5, 0.6 * 359 * 3 * 8.5 / 2.4, "ASCE 8"),
        ("steel", "asd", 6.0, 1.2 * 8.5 * 6 * 359 / 2, "AISC 360-16 J3.10"),
        ("aluminium", "asd", 1.5, 0.6 * 359 * 3 * 8.5 / 1.95, "Aluminum Design Manual"),
        ("steel", "en", 1.5, 228 / math.sqrt(3) * 3 * 8.5, "EN 1993-1-8 3.10.2"),
        ("aluminium", "en", 1.5, 228 / math.sqrt(3) * 3 * 8.5 / 1.1, "EN 1993-1-8 3.10.2"),
    ],
)
def test_strength_by_rules(family, method, thickness, allowed, source):
    """Two shear planes of the metal between hole and edge, by each family's own figures."""
    result = tear_out.check(sheet(family, method, thickness), PLACE, 200.0)
    assert result.resistance == pytest.approx(allowed)
    assert result.utilisation == pytest.approx(200 / allowed)
    assert result.source.startswith(source)


def test_hole_that_reaches_the_edge():
    """Nothing between: infinitely used under load, and said."""
    result = tear_out.check(sheet(), HolePlace(6.35, 7.0, 3.0), 1.0)
    assert result.utilisation == math.inf
    assert "reaches the edge" in result.note


@pytest.mark.parametrize(
    "formula",
    [tear_out.aisi_nominal_n, tear_out.aisc_nominal_n, tear_out.adm_nominal_n, tear_out.en_n],
)
@settings(max_examples=25, deadline=None)
@given(st.floats(0, 40), st.floats(0.4, 6), st.floats(1.0, 1.6))
def test_more_metal_is_never_weaker(formula, edge, thickness, more):
    """Thicker sheet or more edge never tears sooner."""
    base = formula(sheet(thickness=thickness), HolePlace(6.0, 7.0, edge))
    assert formula(sheet(thickness=thickness * more), HolePlace(6.0, 7.0, edge)) >= base * (
        1 - 1e-9
    )
    assert formula(sheet(thickness=thickness), HolePlace(6.0, 7.0, edge * more)) >= base * (
        1 - 1e-9
    )
