"""Pull-out."""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.errors import InputError
from holeplacer.resistance import pull_out
from holeplacer.resistance.sheet_grade import SheetGrade

IN = 25.4


def support(family="steel", method="asd", thickness=1.5):
    return SheetGrade(family, method, thickness, 228.0, 359.0)


@pytest.mark.parametrize(
    ("family", "method", "thickness", "allowed"),
    [
        ("steel", "asd", 1.5, 0.85 * 1.5 * 6 * 359 / 3),
        ("steel", "lrfd", 1.5, 0.5 * 0.85 * 1.5 * 6 * 359),
        ("steel", "en", 1.5, 0.45 * 6 * 1.5 * 359 / 1.25),
        ("aluminium", "asd", 1.5, 1.01 * 6 * 1.5 * 228 / 3),
        ("aluminium", "asd", 3.1, 1.01 * 6 * 3.1 * 228 / 3),
        ("aluminium", "asd", 3.2, 1.20 * 6 * 3.2 * 228 / 3),
        ("aluminium", "asd", 4.0, 1.20 * 6 * 4.0 * 228 / 3),
        ("aluminium", "asd", 20.0, 1.20 * 6 * 0.25 * IN * 228 / 3),
        ("aluminium", "en", 1.5, 0.95 * 359 * math.sqrt(1.5**3 * 6) / 1.25),
    ],
)
def test_strength_by_rules(family, method, thickness, allowed):
    """Each family's own clause, by the metal behind."""
    result = pull_out.check(support(family, method, thickness), 100.0, screw_mm=6.0)
    assert result.resistance == pytest.approx(allowed)
    assert result.utilisation == pytest.approx(100 / allowed)
    assert "metal behind" in result.note


def test_coarse_thread_in_thin_support():
    """EN without a pitch takes the smaller factor; with a finer thread the larger."""
    thin = pull_out.check(support(method="en"), 0.0, screw_mm=6.0)
    fine = pull_out.check(support(method="en"), 0.0, screw_mm=6.0, pitch_mm=1.0)
    assert fine.resistance == pytest.approx(0.65 / 0.45 * thin.resistance)


def test_no_screw_that_cannot_be():
    """Nought diameters and pitches are refused."""
    with pytest.raises(InputError, match="the screw's diameter in mm is 0"):
        pull_out.check(support(), 1.0, screw_mm=0.0)
    with pytest.raises(InputError, match="the thread's pitch in mm is -1"):
        pull_out.check(support(), 1.0, screw_mm=6.0, pitch_mm=-1.0)


@pytest.mark.parametrize("method", ["asd", "lrfd", "en"])
@pytest.mark.parametrize("family", ["steel", "aluminium"])
@settings(max_examples=25, deadline=None)
@given(st.floats(3, 10), st.floats(0.4, 8), st.floats(1.0, 1.6))
def test_more_metal_is_never_weaker(family, method, screw, thickness, more):
    """A thicker support or screw never lets go sooner."""

    def allowed(d, t):
        return pull_out.check(support(family, method, t), 1.0, screw_mm=d).resistance

    base = allowed(screw, thickness) * (1 - 1e-9)
    assert allowed(screw, thickness * more) >= base
    assert allowed(screw * more, thickness) >= base
