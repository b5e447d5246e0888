"""A piece as a plate."""

import numpy as np
import pytest

from holeplacer.structure import supports, tributary
from holeplacer.structure.plate_body import plate_body

NO_STANDOFFS = np.empty((0, 2)), np.empty((0, 1))


def built(sign, sheet, **kind):
    return plate_body(0, sign.polygon, sign.strip, tributary.bits(sign.polygon), sheet, **kind)


@pytest.mark.parametrize("name", ["tee", "disc", "ring"])
def test_load_is_the_area_at_its_centre(name, request, sheet):
    """Force and both moments of unit pressure are those of the area."""
    sign = request.getfixturevalue(name)
    body = built(sign, sheet)
    wanted = [sign.polygon.area, 0.0, 0.0]
    assert body.rigid.T @ body.load == pytest.approx(wanted, abs=1e-7 * sign.polygon.area)


def test_disc_on_its_rim_sinks_as_a_round_plate(disc, sheet):
    """Many supports on a circle near the rim: (5 + nu) / (1 + nu) q a^4 / 64 D, a little less.

    Source: Timoshenko, Theory of Plates and Shells (from memory).
    """
    body = supports.held(built(disc, sheet, across=5.0))
    turn = 2 * np.pi * np.arange(60) / 60
    rim = 99.5 * np.column_stack([np.cos(turn), np.sin(turn)])
    answer = supports.answer(body, rim, clamped=False)
    middle = body.body.attach(np.zeros((1, 2)))[0].of(answer.freedoms)[0]
    wanted = 5.3 / 1.3 * 99.5**4 / 64 / sheet.rigidity_nmm
    assert middle == pytest.approx(wanted, rel=0.02)


def test_stress_of_a_cylinder(tee, sheet):
    """A surface bent along x only has E t w'' / 2 (1 - nu^2) along and nu times that across."""
    body = built(tee, sheet)
    x = body.metal_xy[:, 0]
    freedoms = np.column_stack([0.5e-5 * x * x, 1e-5 * x, np.zeros(len(x))]).ravel()
    along = 6 * sheet.rigidity_nmm / 9 * 1e-5
    wanted = along * np.sqrt(1 - 0.3 + 0.09)
    assert body.gauges.stress(freedoms, *NO_STANDOFFS) == pytest.approx(wanted, rel=1e-6)


def test_every_station_has_a_stress(tee, sheet):
    """No stretch of stroke is left without a gauge."""
    body = built(tee, sheet)
    assert set(body.gauges.station) == set(range(len(body.along_xy)))
