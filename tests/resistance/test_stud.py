"""Stud."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.resistance import stud
from holeplacer.standoffs.stud import stud_materials

MATERIALS = [item.name for item in stud_materials()]


@pytest.mark.parametrize("method", ["asd", "lrfd", "en"])
@pytest.mark.parametrize("material", MATERIALS)
def test_every_material_has_rules(material, method):
    """No stud of the table is without strength under any method."""
    item = stud.grade(material, 6.35, method)
    shear, tension, _ = stud.strengths_n(item)
    assert 0 < shear <= tension
    assert tension < item.material.ultimate_mpa * math.pi * 6.35**2 / 4
    bent = stud.check_bending(item, shear_n=10.0, tension_n=0.0, lever_mm=25.4)
    assert bent.resistance <= item.material.yield_mpa
    assert bent.formula
    pulled = stud.check_fastener(item, shear_n=10.0, tension_n=20.0)
    assert pulled.passes is True
    assert item.material.title in pulled.note


@pytest.mark.parametrize(
    ("material", "method", "rules"),
    [
        ("steel", "asd", "aisc-360"),
        ("stainless-70", "lrfd", "aisc-360"),
        ("aluminium", "asd", "adm"),
        ("steel", "en", "en-1993-1-8"),
        ("aluminium", "en", "en-1999"),
    ],
)
def test_rules_of_fasteners(material, method, rules):
    """The stud's own metal decides, not the sheet's."""
    assert stud.grade(material, 6.0, method).rules == rules


@pytest.mark.parametrize(
    ("material", "method", "shear", "tension"),
    [
        ("steel", "asd", 0.45 / 2.0, 0.75 / 2.0),
        ("steel", "lrfd", 0.45 * 0.75, 0.75 * 0.75),
        ("stainless", "en", 0.5 / 1.25, 0.9 / 1.25),
        ("aluminium", "en", 0.5 / 1.25, 0.5 / 1.25),
        ("aluminium", "asd", 0.6 / 2.34, 1 / 2.34),
        ("aluminium", "lrfd", 0.6 * 0.65, 0.65),
    ],
)
def test_strength_by_rules(material, method, shear, tension):
    """Shares of the tensile strength on nominal, stress or root area."""
    item = stud.grade(material, 6.35, method)
    area = {
        "aisc-360": math.pi / 4 * 6.35**2,
        "adm": math.pi / 4 * item.thread.root_mm**2,
        "en-1993-1-8": item.thread.stress_area_mm2,
        "en-1999": item.thread.stress_area_mm2,
    }[item.rules]
    whole = item.material.ultimate_mpa * area
    found = stud.strengths_n(item)
    assert found[0] == pytest.approx(shear * whole)
    assert found[1] == pytest.approx(tension * whole)


def test_brass_borrows_and_says_so():
    """No published rules for brass studs."""
    assert "by analogy" in stud.grade("brass", 6.0, "asd").note


def test_bending_with_tension():
    """32 F L/π d^3 + 4 T/π d^2 at the thread's root, and how far it sinks."""
    item = stud.grade("steel", 6.35, "asd")
    root = item.thread.root_mm
    result = stud.check_bending(item, shear_n=15.0, tension_n=100.0, lever_mm=50.0)
    assert result.demand == pytest.approx(
        32 * 15 * 50 / (math.pi * root**3) + 400 / (math.pi * root**2)
    )
    assert result.resistance == pytest.approx(item.material.yield_mpa / 1.67)
    sinks = stud.deflection_mm(15.0, 50.0, root, item.material.elastic_mpa, "fixed-free")
    assert f"sinks {sinks:.2f} mm" in result.note
    guided = stud.check_bending(
        item, shear_n=15.0, tension_n=0.0, lever_mm=50.0, held="fixed-guided"
    )
    assert guided.demand == pytest.approx(16 * 15 * 50 / (math.pi * root**3))


def test_foam_triples_the_moment():
    """2 in of foam behind a 1 in gap: three times the bending of the gap alone."""
    near, far = (stud.bending_mpa(10.0, lever, 4.8, "fixed-free") for lever in (25.4, 76.2))
    assert far == pytest.approx(3 * near)


def test_eurocode_tension_alone_is_limited_by_itself():
    """1.4 in the sum does not let tension go beyond its own strength."""
    assert stud.interaction("en-1993-1-8", 0.0, 1.2)[0] == pytest.approx(1.2)
    assert stud.interaction("en-1999", 1.0, 0.0)[0] == pytest.approx(1.0)
    assert stud.interaction("en-1999", 0.5, 0.7)[0] == pytest.approx(1.0)


def test_aluminium_adds_squares():
    """sqrt of the squares."""
    assert stud.interaction("adm", 0.6, 0.8)[0] == pytest.approx(1.0)


@pytest.mark.parametrize("rules", ["aisc-360", "adm", "en-1993-1-8", "en-1999"])
@settings(max_examples=30, deadline=None)
@given(st.floats(0, 2), st.floats(0, 2), st.floats(0, 1))
def test_more_force_is_never_less_used(rules, shear, tension, more):
    """No interaction falls with either force, or lies below the greater share."""
    both, _ = stud.interaction(rules, shear, tension)
    assert both >= max(shear, tension) - 1e-12
    assert stud.interaction(rules, shear + more, tension)[0] >= both - 1e-12
    assert stud.interaction(rules, shear, tension + more)[0] >= both - 1e-12


def test_no_stud_that_cannot_be():
    """Unknown materials, nought diameters, negative forces are refused."""
    with pytest.raises(InputError, match="no stud material 'cheese'"):
        stud.grade("cheese", 6.0, "asd")
    with pytest.raises(InputError, match="the stud's diameter in mm is 0"):
        stud.grade("steel", 0.0, "asd")
    item = stud.grade("steel", 6.0, "asd")
    with pytest.raises(InputError, match="the force across the stud in N is -1"):
        stud.check_fastener(item, shear_n=-1.0, tension_n=0.0)
    with pytest.raises(InputError, match="the stud's lever arm in mm is -1"):
        stud.check_bending(item, shear_n=1.0, tension_n=0.0, lever_mm=-1.0)
