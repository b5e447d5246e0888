"""Bearing."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.resistance import bearing
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade

PLACE = HolePlace(6.35, 7.144, 12.0)


def sheet(family="steel", method="asd", thickness=1.5):
    return SheetGrade(family, method, thickness, 228.0, 359.0)


@pytest.mark.parametrize(
    ("family", "method", "thickness", "sources"),
    [
        ("steel", "asd", 1.5, ["AISI S100-16 J3.3.1", "AISI S100-16 J3.3.2"]),
        ("stainless", "asd", 1.5, ["AISI S100-16", "ASCE 8"]),
        ("copper", "lrfd", 1.5, ["AISI S100-16 J3.3.1", "AISI S100-16 J3.3.2"]),
        ("steel", "asd", 6.0, ["AISC 360-16 J3.10"]),
        ("steel", "en", 1.5, ["EN 1993-1-3 Table 8.4", "EN 1993-1-8 Table 3.4"]),
        ("steel", "en", 3.0, ["EN 1993-1-8 Table 3.4"]),
        ("stainless", "en", 1.5, ["EN 1993-1-3 Table 8.4", "EN 1993-1-8 Table 3.4"]),
        ("aluminium", "asd", 1.5, ["Aluminum Design Manual J.3.7"]),
        ("aluminium", "en", 1.5, ["EN 1999-1-4 8.3.2.1", "EN 1999-1-1 Table 8.5"]),
        ("aluminium", "en", 2.0, ["EN 1999-1-1 Table 8.5"]),
    ],
)
def test_clauses_by_rules(family, method, thickness, sources):
    """Each family, method and thickness goes by its own clauses."""
    results = bearing.check(sheet(family, method, thickness), PLACE, 100.0)
    assert len(results) == len(sources)
    for result, source in zip(results, sources, strict=True):
        assert result.source.startswith(source)
        assert result.utilisation == pytest.approx(100 / result.resistance)


def test_washers_hold_the_sheet_flat():
    """Without washers on both sides 0.75 of the strength counts; the C table is from memory."""
    with_, _ = bearing.check(sheet(), PLACE, 0.0)
    without, _ = bearing.check(sheet(), HolePlace(6.35, 7.144, 12.0, washers=False), 0.0)
    assert without.resistance == pytest.approx(0.75 * with_.resistance)
    assert with_.resistance == pytest.approx(3.0 * 6.35 * 1.5 * 359 / 2.5)
    assert with_.caveat == "from memory, verify"


def test_thickness_is_converted_and_shown():
    """The inch bracket's own thickness stands among the inputs."""
    _, stretched = bearing.check(sheet(thickness=2.54), PLACE, 0.0)
    (inches,) = [item for item in stretched.inputs if item.unit == "in"]
    assert inches.value == pytest.approx(0.1)
    assert stretched.resistance == pytest.approx((0.464 + 1.53) * 6.35 * 2.54 * 359 / 2.22)


def test_weak_stud_limits_eurocode_bearing():
    """fub/fu stands in αb, once it is the least."""
    thick = sheet("steel", "en", 4.0)
    place = HolePlace(6.0, 6.6, 30.0)
    (strong,) = bearing.check(thick, place, 0.0)
    (weak,) = bearing.check(thick, place, 0.0, stud_ultimate_mpa=180.0)
    assert weak.resistance == pytest.approx(180 / 359 * strong.resistance)


def test_thinner_than_the_table():
    """Sheet under 0.75 mm is said to be outside EN 1993-1-3 Table 8.4."""
    covered, _ = bearing.check(sheet("steel", "en", 0.76), PLACE, 0.0)
    assert covered.note == ""
    thin, thick = bearing.check(sheet("steel", "en", 0.74), PLACE, 0.0)
    assert "thinner" in thin.note
    assert thick.note == ""


@pytest.mark.parametrize(("thickness", "kt"), [(1.0, 0.92), (1.24, 0.9968), (1.26, 1.0)])
def test_thin_sheet_crumples(thickness, kt):
    """kt is (0.8 t + 1.5)/2.5 to 1.25 mm, then 1."""
    nominal = bearing.en_1993_1_3_n(sheet("steel", "en", thickness), HolePlace(6.0, 6.6, 40.0))
    assert nominal == pytest.approx(2.5 * kt * 359 * 6 * thickness)


def test_neighbours_in_a_group():
    """Where they are near, p1/3d0 - 1/4 and 1.4 p2/d0 - 1.7 are the least."""
    made, place = sheet("steel", "en", 4.0), HolePlace(6.0, 6.6, 40.0)
    along = bearing.en_1993_1_8_n(made, place, spacing_mm=(15.0, None))
    assert along == pytest.approx(2.5 * (15 / 19.8 - 0.25) * 359 * 6 * 4)
    across = bearing.en_1993_1_8_n(made, place, spacing_mm=(None, 16.0))
    assert across == pytest.approx((1.4 * 16 / 6.6 - 1.7) * 359 * 6 * 4)


@pytest.mark.parametrize(("thickness", "clauses"), [(1.49, 2), (1.51, 1)])
def test_thin_aluminium(thickness, clauses):
    """To 1.5 mm 1.5 fu t d counts too, with no more than 260 MPa."""
    made = sheet("aluminium", "en", thickness)
    results = bearing.check(made, PLACE, 0.0)
    assert len(results) == clauses
    if clauses == 2:
        assert results[0].resistance == pytest.approx(1.5 * 260 * thickness * 6.35 / 1.25)


def test_hole_at_the_edge_bears_nothing_in_eurocode():
    """Negative factors of Table 3.4 are nought, and any force is too much."""
    place = HolePlace(6.0, 6.6, 2.0)
    (result,) = bearing.check(sheet("steel", "en", 4.0), place, 1.0)
    assert result.resistance == 0
    assert result.passes is False


FORMULAS = [
    bearing.aisi_nominal_n,
    bearing.aisi_deformation_nominal_n,
    bearing.aisc_nominal_n,
    bearing.adm_nominal_n,
    bearing.en_1993_1_8_n,
    bearing.en_1993_1_3_n,
]


@pytest.mark.parametrize("formula", FORMULAS)
@settings(max_examples=30, deadline=None)
@given(st.floats(3, 12), st.floats(0, 40), st.floats(0.4, 6), st.floats(1.0, 1.6))
def test_more_metal_is_never_weaker(formula, stud, edge, thickness, more):
    """Thicker, stronger sheet or more edge never bears less."""
    place = HolePlace(stud, 1.1 * stud, edge)
    base = formula(sheet(thickness=thickness), place)
    slack = 1 + 1e-9
    assert formula(sheet(thickness=thickness * more), place) * slack >= base
    assert (
        formula(sheet(thickness=thickness), HolePlace(stud, 1.1 * stud, edge * more)) * slack
        >= base
    )
    stronger = SheetGrade("steel", "asd", thickness, 228.0 * more, 359.0 * more)
    assert formula(stronger, place) * slack >= base


@pytest.mark.parametrize("method", ["asd", "lrfd"])
def test_no_step_down_to_aisc(method):
    """Where AISC takes over from AISI, thicker steel is not weaker."""
    place = HolePlace(6.35, 7.144, 30.0)
    thin = min(r.resistance for r in bearing.check(sheet("steel", method, 4.762), place, 0.0))
    thick = min(r.resistance for r in bearing.check(sheet("steel", method, 4.763), place, 0.0))
    assert thick >= thin
