"""A piece as beams."""

from dataclasses import replace

import numpy as np
import pytest

from holeplacer.structure import tributary
from holeplacer.structure.stroke_body import stroke_body


@pytest.fixture
def body(tee, sheet):
    return stroke_body(0, tee.polygon, tee.strip, tributary.bits(tee.polygon), sheet)


def test_load_is_the_area_at_its_centre(body, tee):
    """Force and both moments of unit pressure are those of the area."""
    assert body.rigid.T @ body.load == pytest.approx([tee.polygon.area, 0.0, 0.0], abs=1e-6)


def test_rigid_movements_cost_nothing(body):
    """The unsupported piece resists none of its three rigid movements."""
    assert np.abs(body.stiffness @ body.rigid).max() < 1e-8 * np.abs(body.stiffness).max()


def test_stations_lie_on_their_branches(body, tee):
    """Deflection along the strokes is that of the stations."""
    moved = body.place.rigid_at(body.along_xy)
    for index in range(3):
        assert body.along.of(body.rigid[:, index]) == pytest.approx(moved[:, index], abs=1e-9)
    assert len(body.first) == len(tee.axis.branches) + 1


def test_edge_reaches_every_corner(body):
    """The greatest deflection is looked for at the metal's edge, corners included."""
    assert np.hypot(*(body.metal_xy - [-30.0, 30.0]).T).min() < 1e-9


def test_plain_bending_stress(body):
    """A quadratic surface along x has the stress E t w'' / 2 on the bar."""
    xy = np.array([body.along_xy[i] for i in range(len(body.along_xy))])
    at = {}
    freedoms = np.zeros(len(body.load))
    for index, (x, y) in enumerate(xy):
        for column in body.along.columns[index]:
            at[int(column)] = (x, y)
    for column, (x, _) in at.items():
        freedoms[column : column + 3] = [0.5e-5 * x * x, 1e-5 * x, 0.0]
    on_bar = np.abs(body.gauges.xy[:, 1]) < 1e-6
    clear = on_bar & (np.abs(body.gauges.xy[:, 0] - 300) > 80)
    preset = replace(body.gauges, preset=np.zeros_like(body.gauges.preset))
    stress = preset.stress(freedoms, np.empty((0, 2)), np.empty((0, 1)))[clear]
    assert stress == pytest.approx(210e3 * 3.0 * 1e-5 / 2, rel=0.02)
