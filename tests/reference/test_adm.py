"""Holes in aluminium against the Aluminum Design Manual.

Sources: J.3.7 bearing (M); pull-over of J.5, its formula found again from a maker's published table
of hexagon washer head screws in aluminium, worked by the 2015 edition (R against P). Ω 3.0 (P).
"""

import pytest

from holeplacer.resistance import bearing, pull_over
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade

IN = 25.4
LBF = 4.4482216152605
KIP = 1000 * LBF
KSI = KIP / IN**2


def aluminium(thickness_in, yield_ksi, ultimate_ksi, method="asd"):
    return SheetGrade(
        "aluminium", method, thickness_in * IN, yield_ksi * KSI, ultimate_ksi * KSI, 0.33
    )


def test_bearing():
    """de .375, t .125, Ftu 31: 1.453 kip, capped at 1.938 kip for a 1/4 in stud; Ω 1.95."""
    sheet = aluminium(0.125, 23, 31)
    near = HolePlace(0.25 * IN, 0.28125 * IN, 0.375 * IN)
    far = HolePlace(0.25 * IN, 0.28125 * IN, 3.0 * IN)
    assert bearing.adm_nominal_n(sheet, near) / KIP == pytest.approx(1.453, abs=5e-4)
    assert bearing.adm_nominal_n(sheet, far) / KIP == pytest.approx(1.938, abs=5e-4)
    (result,) = bearing.check(sheet, near, 0.0)
    assert result.resistance / KIP == pytest.approx(1.453 / 1.95, abs=5e-4)
    assert result.caveat == "from memory, verify"


@pytest.mark.parametrize(
    ("head_in", "thickness_in", "yield_ksi", "pounds"),
    [
        (0.399, 1 / 32, 16, 225),
        (0.399, 1 / 32, 35, 495),
        (0.399, 1 / 16, 35, 1105),
        (0.399, 1 / 8, 35, 2680),
        (0.415, 1 / 16, 35, 1140),
        (0.415, 1 / 8, 16, 1255),
        (0.500, 1 / 16, 25, 945),
        (0.500, 1 / 32, 35, 605),
        (0.500, 1 / 8, 35, 3115),
    ],
)
def test_pull_over_table(head_in, thickness_in, yield_ksi, pounds):
    """(1.0 + 1.7 t/Dw) Dw t Fty gives the table, which is rounded to 5 lb."""
    nominal = pull_over.adm(aluminium(thickness_in, yield_ksi, 38), head_in * IN)
    assert nominal.newtons / LBF == pytest.approx(pounds, abs=6)


def test_pull_over_allowed():
    """#10 head on 1/16 in of 6061-T6: 1105/3 = 370 lb in the same table."""
    result = pull_over.check(
        aluminium(1 / 16, 35, 42), 0.0, pressed_mm=0.399 * IN, hole_mm=0.2 * IN
    )
    assert result.resistance / LBF == pytest.approx(370, abs=3)
