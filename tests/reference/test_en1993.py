"""Holes, screws and bolts against worked figures of EN 1993-1-1, -1-3 and -1-8.

Sources: EN 1993-1-8 Table 3.4 (P, and recomputed), EN 1993-1-3 Table 8.2 (P; the 0.45 of thin
supports M), Table 8.4 (M), EN 1993-1-1 6.2.3 (0.9: P). Partial factors are the recommended ones.
"""

import pytest

from holeplacer.resistance import bearing, net_section, pull_over, stud
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade


def steel(thickness, ultimate=360.0, method="en"):
    return SheetGrade("steel", method, thickness, 235.0, ultimate)


def test_bearing_of_an_inner_bolt():
    """d 20, d0 22, e1 30, e2 35, p1 60, p2 90, t 9, fu 410: 67.09 kN."""
    nominal = bearing.en_1993_1_8_n(
        steel(9.0, 410.0), HolePlace(20.0, 22.0, 30.0, side_mm=35.0), spacing_mm=(60.0, 90.0)
    )
    assert nominal / 1.25 / 1000 == pytest.approx(67.09, abs=5e-3)


def test_the_worksheet_trap():
    """d 20, e 1.2 d0, t 8, fu 360 with bolts of 400: 30.597 kN, not 33.997 with fub for fu."""
    sheet, place = steel(8.0), HolePlace(20.0, 22.0, 26.4)
    (result,) = bearing.check(sheet, place, 0.0, stud_ultimate_mpa=400.0)
    assert result.resistance / 1000 == pytest.approx(30.597, abs=5e-4)
    assert result.resistance / 1000 * 400 / 360 == pytest.approx(33.997, abs=5e-4)
    assert result.source == "EN 1993-1-8 Table 3.4"


@pytest.mark.parametrize(("thickness", "kn"), [(1.5, 4.32), (1.0, 2.65)])
def test_bearing_of_a_bolt_in_thin_sheet(thickness, kn):
    """M6, e1 12, fu 360: 4.32 kN in 1.5 mm, 2.65 kN in 1.0 mm."""
    result, _ = bearing.check(steel(thickness), HolePlace(6.0, 6.6, 12.0), 0.0)
    assert result.resistance / 1000 == pytest.approx(kn, abs=5e-3)
    assert result.source == "EN 1993-1-3 Table 8.4"
    assert result.caveat == "from memory, verify"


@pytest.mark.parametrize(("repeated", "kn"), [(False, 6.048), (True, 3.024)])
def test_pull_through(repeated, kn):
    """dw 14, t 1.5, fu 360: 6.048 kN once, 3.024 kN where wind repeats."""
    result = pull_over.check(steel(1.5), 0.0, pressed_mm=14.0, hole_mm=6.6, repeated=repeated)
    assert result.resistance / 1000 == pytest.approx(kn, abs=5e-4)
    assert result.status == "P"


def test_punching():
    """dm 30, tp 8, fu 360: 130.29 kN."""
    result = pull_over.check(steel(8.0), 0.0, pressed_mm=30.0, hole_mm=22.0)
    assert result.resistance / 1000 == pytest.approx(130.29, abs=5e-3)


def test_net_section():
    """A 40 mm stroke with a hole of 8, t 2, fu 360: 16.59 kN."""
    result = net_section.check_rupture(
        steel(2.0), width_mm=40.0, hole_mm=8.0, tension_n=0.0, stud_mm=6.0
    )
    assert result.resistance / 1000 == pytest.approx(16.59, abs=5e-3)
    assert result.status == "P"


def test_bolt_in_shear_and_tension():
    """.2 + .25/1.4 = .379."""
    assert stud.interaction("en-1993-1-8", 0.2, 0.25)[0] == pytest.approx(0.379, abs=5e-4)
