"""Holes and studs against AISC 360-16 J3, J4.

Sources: J3.10 (1.2 lc t Fu, 2.4 d t Fu, Ω 2.00: P in excerpts), Table J3.2 and J3-3 (P). The stud
as a cantilever is recomputed (R).
"""

import math

import pytest

from holeplacer.resistance import bearing, stud, tear_out
from holeplacer.resistance.hole_place import HolePlace
from holeplacer.resistance.sheet_grade import SheetGrade

IN = 25.4
LBF = 4.4482216152605
KIP = 1000 * LBF
KSI = KIP / IN**2


def test_tear_out_and_its_cap():
    """lc .375, t .1196, Fu 58: 3.12 kip tear-out; bearing caps it at 4.16 kip for a 1/4 in stud."""
    sheet = SheetGrade("steel", "asd", 0.1196 * IN, 36 * KSI, 58 * KSI)
    place = HolePlace(0.25 * IN, 0.25 * IN, 0.5 * IN)
    assert tear_out.aisc_nominal_n(sheet, place) / KIP == pytest.approx(3.12, abs=5e-3)
    assert bearing.aisc_nominal_n(sheet, place) / KIP == pytest.approx(4.16, abs=5e-3)


def test_aisc_takes_over_from_three_sixteenths():
    """Steel of 3/16 in and more goes by AISC 360, thinner by AISI S100."""
    place = HolePlace(0.5 * IN, 0.5625 * IN, 0.75 * IN)
    thick = SheetGrade("steel", "asd", 0.1875 * IN, 36 * KSI, 58 * KSI)
    (result,) = bearing.check(thick, place, 0.0)
    assert result.source.startswith("AISC 360-16")
    assert result.resistance / KIP == pytest.approx(2.4 * 0.5 * 0.1875 * 58 / 2, rel=1e-9)
    thin = SheetGrade("steel", "asd", 0.18 * IN, 36 * KSI, 58 * KSI)
    assert len(bearing.check(thin, place, 0.0)) == 2


def test_stud_under_the_weight():
    """20 lb on 6 studs, 1 in out, root .1887 in: 3.33 lb-in, 5.05 ksi, .00062 in."""
    force, lever, root = 20 / 6 * LBF, 1.0 * IN, 0.1887 * IN
    assert force / LBF * lever / IN == pytest.approx(3.33, abs=5e-3)
    bent = stud.bending_mpa(force, lever, root, "fixed-free")
    assert bent / KSI == pytest.approx(5.05, abs=5e-3)
    sinks = stud.deflection_mm(force, lever, root, 29000 * KSI, "fixed-free")
    assert sinks / IN == pytest.approx(0.00062, abs=5e-6)


def test_a_guided_stud_has_half_the_moment_and_a_quarter_of_the_deflection():
    """Clamped upright by cap and barrel the stud bends in an S."""
    one = (100.0, 50.0, 5.0)
    assert stud.bending_mpa(*one, "fixed-guided") == stud.bending_mpa(*one, "fixed-free") / 2
    free = stud.deflection_mm(*one, 2e5, "fixed-free")
    assert stud.deflection_mm(*one, 2e5, "fixed-guided") == free / 4


def test_the_root_of_a_quarter_inch_stud():
    """1/4 in with 20 threads to the inch has a root of .1887 in."""
    item = stud.grade("steel", 0.25 * IN, "asd")
    assert item.thread.root_mm / IN == pytest.approx(0.1887, abs=5e-5)


def test_threaded_stud_strength():
    """0.75 Fu and 0.45 Fu on the nominal area, Ω 2.00."""
    item = stud.grade("steel", 0.5 * IN, "asd")
    shear, tension, _ = stud.strengths_n(item)
    area = math.pi / 4 * (0.5 * IN) ** 2
    assert shear == pytest.approx(0.45 * 400 * area / 2)
    assert tension == pytest.approx(0.75 * 400 * area / 2)


def test_interaction_is_the_clause_solved_for_the_load():
    """F'nt = 1.3 Fnt - Ω Fnt frv/Fnv <= Fnt (J3-3b): at its limit the share is 1."""
    fnt, fnv, omega = 310.0, 188.0, 2.0
    for frv in (0.0, 20.0, 28.2, 40.0, 70.0, 94.0):
        reduced = min(1.3 * fnt - omega * fnt / fnv * frv, fnt)
        share, _ = stud.interaction("aisc-360", frv / (fnv / omega), reduced / fnt)
        assert share == pytest.approx(1.0)
