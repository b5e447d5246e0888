"""Responses of whole signs."""

import numpy as np
import pytest

from holeplacer.structure import grillage
from holeplacer.structure.response import Case, respond

CASES = (Case("pressure out", 1e-3), Case("pressure in", -2e-3))
HOLES = [(40.0, 5.0), (560.0, -6.0), (301.0, -250.0), (310.0, 0.0)]
DOT = [(500.0, 0.0), (540.0, 10.0), (525.0, -25.0)]


@pytest.fixture
def sign(tee, metal):
    return grillage.grillage(tee.outline, tee.axis, **metal)


@pytest.fixture
def pair(drop, metal):
    return grillage.grillage(drop.outline, drop.axis, **metal)


def test_reactions_add_up_to_the_load(sign, pair):
    """To 1e-9 of pressure times area, in every case."""
    for built, holes in ((sign, HOLES), (pair, [(20, 5), (380, 30), (200, 25), *DOT])):
        for case, found in zip(CASES, respond(built, holes, CASES, clamped=True), strict=True):
            wanted = case.pressure_mpa * built.outline.area_mm2
            assert found.total_load_n == pytest.approx(wanted, rel=1e-12)
            assert sum(found.reactions_n) == pytest.approx(wanted, rel=1e-9)


def test_cases_are_the_unit_pressure_scaled(sign):
    """Twice the pressure the other way: twice the size, the other sign."""
    out, back = respond(sign, HOLES, CASES, clamped=False)
    assert (out.name, back.name) == ("pressure out", "pressure in")
    assert back.max_deflection_mm == pytest.approx(2 * out.max_deflection_mm)
    assert back.max_stress_mpa == pytest.approx(2 * out.max_stress_mpa)
    assert back.reactions_n == pytest.approx(tuple(-2 * r for r in out.reactions_n))
    for one, two in zip(out.deflection_mm, back.deflection_mm, strict=True):
        assert two == pytest.approx(-2 * one)
        assert not two.flags.writeable
    assert [len(w) for w in out.deflection_mm] == [len(w) for w in sign.ways]
    assert [len(s) for s in out.stress_mpa] == [len(w) for w in sign.ways]


def test_moved_hole_gives_what_a_fresh_answer_gives(tee, metal):
    """Nothing of the holes before is left over."""
    holes = np.array(HOLES)
    used = grillage.grillage.__wrapped__(tee.outline, tee.axis, **metal)
    for x in (30.0, 60.0, 90.0):
        holes[0, 0] = x
        moved = respond(used, holes, CASES, clamped=False)[0]
    fresh = grillage.grillage.__wrapped__(tee.outline, tee.axis, **metal)
    anew = respond(fresh, holes, CASES, clamped=False)[0]
    assert moved.reactions_n == pytest.approx(anew.reactions_n, rel=1e-9)
    assert moved.max_deflection_mm == pytest.approx(anew.max_deflection_mm, rel=1e-9)


def test_clamping_stiffens(sign):
    """Caps that hold the slope lessen the deflection, and hold with moments."""
    free = respond(sign, HOLES, CASES, clamped=False)[0]
    held = respond(sign, HOLES, CASES, clamped=True)[0]
    assert held.max_deflection_mm < free.max_deflection_mm
    assert np.abs(held.moments_nmm).max() > 0
    assert np.abs(free.moments_nmm).max() == 0


def test_a_free_piece_is_named_and_the_others_solved(pair):
    """Two holes leave the stroke free to turn; the dot is reckoned all the same."""
    found = respond(pair, [(20, 5), (380, 30), *DOT], CASES, clamped=False)[0]
    assert [m.piece for m in found.mechanisms] == [0]
    assert found.reactions_n[:2] == (0.0, 0.0)
    dot = pair.outline.pieces[1].area_mm2 * 1e-3
    assert sum(found.reactions_n) == pytest.approx(dot, rel=1e-9)
    assert found.total_load_n == pytest.approx(dot)
    assert all(np.isfinite(w).all() for w in (*found.deflection_mm, *found.stress_mpa))


def test_steadied_by_caps(pair):
    """If asked, caps keep from turning what two free holes would not; it is named still."""
    holes = [(20, 5), (380, 30), *DOT]
    found = respond(pair, holes, CASES, clamped=False, steadied=True)[0]
    assert [m.piece for m in found.mechanisms] == [0]
    assert found.total_load_n == pytest.approx(1e-3 * pair.outline.area_mm2)
    assert np.abs(found.moments_nmm[:2]).max() > 0
    assert np.abs(found.moments_nmm[2:]).max() == 0


def test_holes_off_the_metal_carry_nothing(sign):
    """A hole beside the sign has no reaction and helps nothing."""
    found = respond(sign, [*HOLES, (100.0, 500.0)], CASES, clamped=False)[0]
    assert found.reactions_n[4] == 0.0
    assert found.max_deflection_mm == pytest.approx(
        respond(sign, HOLES, CASES, clamped=False)[0].max_deflection_mm
    )


def test_no_holes_at_all(sign):
    """Without holes the sign is not held, and nothing is divided by zero."""
    found = respond(sign, [], CASES, clamped=False)[0]
    assert found.reactions_n == ()
    assert found.mechanisms[0].why == "no hole holds it"
    assert (found.max_deflection_mm, found.max_stress_mpa, found.total_load_n) == (0.0, 0.0, 0.0)


def test_beams_and_plate_agree_on_lean_strokes(bar, ring, metal):
    """Where a piece counts as strokes, a plate of it answers within two percent."""
    turn = 2 * np.pi * np.arange(5) / 5
    holes = {
        bar: [(30.0, 8.0), (970.0, 32.0), (500.0, 30.0), (40.0, 33.0)],
        ring: 500 * np.column_stack([np.cos(turn), np.sin(turn)]),
    }
    for sign, xy in holes.items():
        two = [
            respond(
                grillage.grillage(sign.outline, sign.axis, **metal, model=model),
                xy,
                CASES,
                clamped=False,
            )[0]
            for model in ("strokes", "plate")
        ]
        assert two[0].max_deflection_mm == pytest.approx(two[1].max_deflection_mm, rel=0.02)
        assert two[0].reactions_n == pytest.approx(
            two[1].reactions_n, abs=0.02 * np.abs(two[1].reactions_n).max()
        )
        assert two[0].max_stress_mpa == pytest.approx(two[1].max_stress_mpa, rel=0.1)
