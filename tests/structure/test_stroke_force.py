"""Stroke force."""

import numpy as np
import pytest
import shapely

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.structure import frame, stroke_force
from holeplacer.structure.bearing_studs import Stud
from holeplacer.structure.sheet_stiffness import SheetStiffness

SHEET = SheetStiffness(1.5, 203e3, 78e3)
STUD = Stud(4.8, 25.0, 200e3, 0.2)
WEIGHT = 1.2e-4


def sign(*lines):
    metal = Outline.from_geometry(
        shapely.unary_union([shapely.LineString(line).buffer(15, quad_segs=32) for line in lines])
    )
    axis = medial_axis(metal)
    hung = frame.frame(
        metal,
        axis,
        thickness_mm=SHEET.thickness_mm,
        elastic_mpa=SHEET.elastic_mpa,
        shear_mpa=SHEET.shear_mpa,
    )
    return hung, axis


def pulls(hung, axis, holes, strain, weight=WEIGHT):
    found = frame.hang(hung, holes, STUD, weight_mpa=weight, strain=strain)
    return found, stroke_force.pulls(hung, axis, SHEET, holes, [found], weight_mpa=weight)[0]


def test_cold_pulls_a_straight_stroke():
    """Shrinking between its studs, a bar is pulled by the sum of what those beside hold it with."""
    hung, axis = sign([(0, 0), (1600, 0)])
    holes = np.array([(x, 0.0) for x in (100, 450, 800, 1150, 1500)])
    found, along = pulls(hung, axis, holes, -1e-3, weight=0.0)
    sideways = np.abs(found.forces_n[:, 0])
    assert sideways[0] > 50
    assert along[2] == pytest.approx(sideways[:2].sum(), rel=2e-3)
    assert along[0] == pytest.approx(sideways[0], rel=2e-3)
    assert along[1] == pytest.approx(sideways[:2].sum(), rel=2e-3)


def test_heat_presses_it_together():
    """Growing, the middle of the bar is pressed, not pulled."""
    hung, axis = sign([(0, 0), (1600, 0)])
    _, along = pulls(hung, axis, [(100, 0.0), (800, 0.0), (1500, 0.0)], 1e-3)
    assert along[1] < -50


def test_upright_stroke_hangs_by_its_weight():
    """A bar on a hole at its top and one below: the upper one's stroke carries what hangs below."""
    hung, axis = sign([(0, 0), (0, 800)])
    found, along = pulls(hung, axis, [(0.0, 400.0), (0.0, 780.0)], 0.0)
    own = np.abs(found.forces_n[:, 1])
    below_n = WEIGHT * hung.bodies[0].body.place.area_mm2 * 785 / 830
    assert own.sum() == pytest.approx(WEIGHT * hung.bodies[0].body.place.area_mm2, rel=1e-6)
    assert 0 < along[1] <= below_n


def test_a_moved_hole_is_as_one_never_asked_for():
    """What is kept of the last time gives the same as all found anew."""
    hung, axis = sign([(0, 0), (700, 0)], [(350, 0), (350, 400)])
    fresh, same = sign([(0, 0), (700, 0)], [(350, 0), (350, 400)])
    holes = np.array([(50.0, 0.0), (350.0, 200.0), (340.0, 390.0), (650.0, 3.0)])
    pulls(hung, axis, holes, 4e-4)
    for number, place in ((1, (352.0, 120.0)), (3, (600.0, -2.0)), (3, (610.0, 0.0))):
        holes[number] = place
        _, kept = pulls(hung, axis, holes, 4e-4)
    _, anew = pulls(fresh, same, holes, 4e-4)
    assert kept == pytest.approx(anew, rel=1e-6, abs=1e-6)


def test_no_stroke_no_force():
    """A piece on one stud, and a dot without a stroke, are pulled along nothing."""
    hung, axis = sign([(0, 0), (300, 0)])
    assert pulls(hung, axis, [(150.0, 0.0)], -1e-3)[1] == pytest.approx([0.0])
    dot, alone = sign([(0, 0), (0.5, 0)])
    assert pulls(dot, alone, [(-5.0, 0.0), (5.0, 0.0)], -1e-3)[1] == pytest.approx([0.0, 0.0])


def test_holes_come_and_go():
    """Two holes where there were three, then three again: as ones never asked for."""
    hung, axis = sign([(0, 0), (700, 0)])
    fresh, same = sign([(0, 0), (700, 0)])
    three = [(50.0, 0.0), (350.0, 2.0), (650.0, 0.0)]
    first = pulls(hung, axis, three, -1e-3)[1]
    two = pulls(hung, axis, three[1:], -1e-3)[1]
    assert two == pytest.approx(pulls(fresh, same, three[1:], -1e-3)[1], rel=1e-6)
    assert pulls(hung, axis, three, -1e-3)[1] == pytest.approx(first, rel=1e-6)
