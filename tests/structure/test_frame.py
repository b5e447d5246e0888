"""The sign hung on its studs."""

import numpy as np
import pytest

from holeplacer.errors import InputError
from holeplacer.structure import frame
from holeplacer.structure.bearing_studs import Stud

TIGHT, LOOSE = Stud(6.0, 25.0, 200e3), Stud(6.0, 25.0, 200e3, 0.5)
WEIGHT = 7850e-9 * 9.80665 * 3.0
HOLES = [(40.0, 5.0), (560.0, -6.0), (301.0, -250.0), (310.0, 0.0)]
STRAIN = 12e-6 * 40


@pytest.fixture(scope="module")
def sign(tee, metal):
    return frame.frame(tee.outline, tee.axis, **metal)


@pytest.mark.parametrize("stud", [TIGHT, LOOSE])
@pytest.mark.parametrize("strain", [0.0, STRAIN, -STRAIN])
def test_forces_balance_the_weight(sign, stud, strain):
    """Whatever the room and the temperature, the studs carry the weight and nothing sideways."""
    found = frame.hang(sign, HOLES, stud, weight_mpa=WEIGHT, strain=strain)
    weight = WEIGHT * sign.outline.area_mm2
    assert found.settled
    assert found.forces_n.sum(axis=0) == pytest.approx([0.0, -weight], abs=1e-6 * weight)
    moment = (np.array(HOLES) * found.forces_n[:, ::-1] * [1, -1]).sum()
    at = sign.outline.pieces[0].centre_of_gravity_mm[0]
    assert moment == pytest.approx(-weight * at, rel=1e-4)


def test_room_takes_up_growth(sign):
    """Without room growth presses on the studs; with room for it, only the weight does."""
    tight, loose = (
        frame.hang(sign, HOLES, stud, weight_mpa=WEIGHT, strain=STRAIN) for stud in (TIGHT, LOOSE)
    )
    weight = WEIGHT * sign.outline.area_mm2
    assert np.hypot(*tight.forces_n.T).max() > 3 * weight
    assert np.hypot(*loose.forces_n.T).max() < 1.01 * weight


def test_restrained_growth_of_a_bar(bar, metal):
    """Two tight studs on a bar: the bar and both studs share alpha dT L as springs in a row."""
    sign = frame.frame(bar.outline, bar.axis, **metal)
    found = frame.hang(sign, [(50.0, 20.0), (950.0, 20.0)], TIGHT, weight_mpa=0.0, strain=STRAIN)
    yielding = 900 / (210e3 * 40 * 3.0) + 2 / TIGHT.stiffness_n_mm
    assert found.forces_n[1, 0] == pytest.approx(STRAIN * 900 / yielding, rel=1e-3)
    assert found.forces_n[0, 0] == pytest.approx(-found.forces_n[1, 0])


def test_one_stud_carries_all(sign, drop, metal):
    """A piece on one stud hangs from it; one on none is told."""
    both = frame.frame(drop.outline, drop.axis, **metal)
    found = frame.hang(both, [(520.0, 0.0)], LOOSE, weight_mpa=WEIGHT)
    weight = WEIGHT * drop.outline.pieces[1].area_mm2
    assert found.hanging == (1,)
    assert found.unheld == (0,)
    assert found.forces_n[0] == pytest.approx([0.0, -weight])
    assert found.movement_mm[0, 1] == pytest.approx(-0.5 - weight / LOOSE.stiffness_n_mm)


def test_a_dot_is_rigid(drop, metal):
    """Two studs side by side carry half of a dot each."""
    both = frame.frame(drop.outline, drop.axis, **metal)
    found = frame.hang(both, [(500.0, 0.0), (540.0, 0.0)], TIGHT, weight_mpa=WEIGHT)
    weight = WEIGHT * drop.outline.pieces[1].area_mm2
    assert found.forces_n[:, 1] == pytest.approx([-weight / 2, -weight / 2], rel=1e-3)


def test_free_movement_is_about_the_fixed_point():
    """1.5 m of aluminium from the fixed point, 30 K: 1.06 mm."""
    moved = frame.free_movement([(1500.0, 0.0), (0.0, 0.0)], (0.0, 0.0), 23.6e-6 * 30)
    assert moved[0] == pytest.approx([1.062, 0.0], abs=0.001)
    assert moved[1].tolist() == [0.0, 0.0]


def test_nonsense_is_refused(sign):
    """A weight that is no number gets one sentence."""
    with pytest.raises(InputError, match="must be numbers"):
        frame.hang(sign, HOLES, TIGHT, weight_mpa=float("nan"))


def test_a_dot_on_two_studs(drop, metal):
    """A small piece, stiff as it is, comes to rest, and its studs carry its weight alone."""
    both = frame.frame(drop.outline, drop.axis, **metal)
    holes = [(515.0, 5.0), (535.0, -5.0)]
    weight = WEIGHT * drop.outline.pieces[1].area_mm2
    for strain in (0.0, STRAIN, -STRAIN):
        found = frame.hang(both, holes, LOOSE, weight_mpa=WEIGHT, strain=strain)
        assert found.settled
        assert found.forces_n.sum(axis=0) == pytest.approx([0.0, -weight], abs=1e-4 * weight)
        assert np.hypot(*found.forces_n.T).max() < 1.01 * weight


def test_where_one_begins_does_not_matter(tee, metal):
    """A sign that lay elsewhere before comes to rest where a fresh one does."""
    fresh = frame.frame(tee.outline, tee.axis, **metal)
    for x in (301.0, 180.0, 420.0):
        moved = [*HOLES[:3], (x, 0.0)]
        found = frame.hang_through(fresh, moved, LOOSE, weight_mpa=WEIGHT, strains=(STRAIN, 0.0))
        anew = frame.Frame(fresh.outline, fresh.bodies)
        alone = frame.hang_through(anew, moved, LOOSE, weight_mpa=WEIGHT, strains=(STRAIN, 0.0))
        for one, two in zip(found, alone, strict=True):
            assert one.settled
            assert one.forces_n == pytest.approx(two.forces_n, abs=1e-3)
