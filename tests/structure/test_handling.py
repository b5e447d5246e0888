"""Pieces carried by two hands."""

import numpy as np
import pytest

from holeplacer.structure import grillage
from holeplacer.structure.handling import carried

WEIGHT = 7850e-9 * 9.80665 * 3.0


def test_a_bar_is_best_held_near_its_quarter_points(bar, metal):
    """The best pair sags little more than the ideal: 0.000270 w L^4 / E I at 0.2232 L."""
    sign = grillage.grillage(bar.outline, bar.axis, **metal)
    found = carried(sign)[0].times(WEIGHT)
    ideal = 0.000270 * WEIGHT * 40 * 1000.0**4 / (210e3 * 90.0)
    assert ideal <= found.deflection_mm <= 4 * ideal
    ends = sorted(x for x, _ in found.grips_mm)
    assert ends[0] == pytest.approx(223, abs=90)
    assert ends[1] == pytest.approx(777, abs=90)


def test_every_piece_is_carried(drop, tee, metal):
    """Also dots and junctions; hands lie on the metal and apart."""
    for sign in (drop, tee):
        built = grillage.grillage(sign.outline, sign.axis, **metal)
        found = carried(built)
        assert [one.piece for one in found] == list(range(len(sign.outline.pieces)))
        for one in found:
            assert (sign.outline.piece_at(np.array(one.grips_mm)) == one.piece).all()
            assert np.hypot(*np.subtract(*one.grips_mm)) > 10
            assert np.isfinite([one.deflection_mm, one.stress_mpa]).all()
            assert one.stress_mpa > 0


def test_sag_grows_with_the_weight(tee, metal):
    """Twice the weight sags twice."""
    one = carried(grillage.grillage(tee.outline, tee.axis, **metal))[0]
    assert one.times(2.0).deflection_mm == pytest.approx(2 * one.deflection_mm)
    assert one.times(2.0).stress_mpa == pytest.approx(2 * one.stress_mpa)
    assert one.times(2.0).grips_mm == one.grips_mm
