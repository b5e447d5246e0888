"""Holes and screws in cold-formed steel against worked figures of AISI S100.

Sources: AISI S100-16 J3.3, J4.4, J4.5, J6.1 (E3.3, E4.4, E4.5 before), read as excerpts and in
worked examples (P) but for: C table and 3/4 in cap (M), domed washer (M), tear-out (M).
Figures are printed in kips: 1 kip = 4448.2216152605 N, 1 ksi = 6.894757293168361 MPa, exactly
converted.
"""

import pytest

from holeplacer.resistance import bearing, pull_over, pull_over_with_shear, tear_out
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade

IN = 25.4
KIP = 4448.2216152605
KSI = KIP / IN**2


def steel(thickness_in, ultimate_ksi, method="asd"):
    return SheetGrade("steel", method, thickness_in * IN, 33 * KSI, ultimate_ksi * KSI)


def place(stud_in, edge_in=10.0, *, hole_in=None, washers=True):
    hole = stud_in if hole_in is None else hole_in
    return HolePlace(stud_in * IN, hole * IN, edge_in * IN, washers=washers)


def test_units_are_exact():
    """A ksi is 6.894757 MPa and a kip 4448.22 N."""
    assert pytest.approx(6.894757293168361, rel=1e-12) == KSI


def test_pull_over_of_a_half_inch_washer():
    """0.0598 in of 45 ksi under a 1/2 in washer: 2.018 kip, 0.673 kip allowed."""
    sheet = steel(0.0598, 45)
    assert pull_over.aisi(sheet, 0.5 * IN).newtons / KIP == pytest.approx(2.018, abs=5e-4)
    result = pull_over.check(sheet, 0.0, pressed_mm=0.5 * IN, hole_mm=9 / 32 * IN)
    assert result.resistance / KIP == pytest.approx(0.673, abs=5e-4)
    assert result.status == "P"


def test_pull_over_counts_three_quarters_of_an_inch():
    """A washer wider than 3/4 in counts as one of 3/4 in, which is from memory."""
    sheet = steel(0.0598, 45)
    wide = pull_over.check(sheet, 100.0, pressed_mm=2 * IN, hole_mm=7.0)
    assert wide.resistance / KIP == pytest.approx(1.5 * 0.0598 * 0.75 * 45 / 3, rel=1e-9)
    assert wide.caveat == "from memory, verify"
    assert "0.75 in" in wide.note


def test_domed_washer():
    """A head of .4, a washer .06 thick on .06 of sheet: .58 in counts."""
    domed = pull_over.domed_washer_mm(0.4 * IN, 0.06 * IN, 0.06 * IN, 1.0 * IN)
    assert domed / IN == pytest.approx(0.58)
    assert pull_over.domed_washer_mm(0.4 * IN, 0.06 * IN, 0.06 * IN, 0.5 * IN) == 0.5 * IN


def test_shear_and_pull_over_by_asd():
    """Nothing at no load; at no tension 0.468 of Pns is the limit."""
    sheet, hole = steel(0.0359, 45), place(0.216)
    none = pull_over_with_shear.check(
        sheet, hole, shear_n=0.0, tension_n=0.0, pressed_mm=0.625 * IN
    )
    assert none.demand == 0
    assert none.resistance == pytest.approx(0.468, abs=5e-4)
    pns = 2.7 * 0.0359 * 0.216 * 45 * KIP
    sheared = pull_over_with_shear.check(
        sheet, hole, shear_n=1.1 / 2.35 * pns, tension_n=0.0, pressed_mm=0.625 * IN
    )
    assert sheared.utilisation == pytest.approx(1.0)
    pnov = 1.5 * 0.0359 * 0.625 * 45 * KIP
    pulled = pull_over_with_shear.check(
        sheet, hole, shear_n=0.2 * pns, tension_n=0.3 * pnov, pressed_mm=0.625 * IN
    )
    assert pulled.demand == pytest.approx(0.2 + 0.71 * 0.3)


def test_bearing_without_hole_deformation():
    """3/8 in bolt, .06 in, 55 ksi, no washers: 2.784 kip; φ 0.60 gives 1.67 kip."""
    sheet, hole = steel(0.06, 55), place(0.375, washers=False)
    assert bearing.aisi_nominal_n(sheet, hole) / KIP == pytest.approx(2.784, abs=5e-4)
    lrfd, _ = bearing.check(steel(0.06, 55, "lrfd"), hole, 0.0)
    assert lrfd.resistance / KIP == pytest.approx(1.67, abs=5e-3)
    asd, _ = bearing.check(sheet, hole, 0.0)
    assert asd.resistance / KIP == pytest.approx(2.784 / 2.5, abs=5e-4)


def test_bearing_with_hole_deformation():
    """The same by J3.3.2: 2.238 kip; φ 0.65 gives 1.45 kip."""
    sheet, hole = steel(0.06, 55), place(0.375)
    assert bearing.aisi_deformation_nominal_n(sheet, hole) / KIP == pytest.approx(2.238, abs=5e-4)
    _, lrfd = bearing.check(steel(0.06, 55, "lrfd"), hole, 0.0)
    assert lrfd.resistance / KIP == pytest.approx(1.45, abs=6e-3)
    assert lrfd.status == "P"


@pytest.mark.parametrize(
    ("share", "factor"),
    [(5, 3.0), (9.9, 3.0), (10.1, 2.99), (16, 2.4), (21.9, 1.81), (22.1, 1.8), (40, 1.8)],
)
def test_bearing_factor_table(share, factor):
    """C is 3.0 under d/t 10, 4 - 0.1 d/t to 22, 1.8 above, without a step."""
    assert bearing.aisi_factor(share) == pytest.approx(factor)


def test_tear_out():
    """45 ksi, .0598 in, e .5, hole .25: 1.211 kip; 0.545 kip allowed."""
    sheet, hole = steel(0.0598, 45), place(0.25, 0.5)
    assert tear_out.aisi_nominal_n(sheet, hole) / KIP == pytest.approx(1.211, abs=5e-4)
    result = tear_out.check(sheet, hole, 0.0)
    assert result.resistance / KIP == pytest.approx(0.545, abs=6e-4)
    assert result.caveat
