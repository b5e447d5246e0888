"""Lag and wood screws in solid wood against the National Design Specification's tables.

Sources: NDS 12.2.1 and Table 12.2A (P), NDS 12.2.2 (P), NDS 12.4.1 (M); the mean ultimate of the
wood handbook, 8100 G^1.5 D^0.75 (P). 1 lb = 4.4482216152605 N.
"""

import math

import pytest

from holeplacer.loads.loading import WoodScrew
from holeplacer.resistance import wood_withdrawal

IN = 25.4
LB_PER_IN = 4.4482216152605 / IN


@pytest.mark.parametrize(
    ("gravity", "diameter_in", "pounds"),
    [(0.50, 0.25, 225.0), (0.50, 0.375, 305.0), (0.42, 0.25, 173.2)],
)
def test_lag_withdrawal(gravity, diameter_in, pounds):
    """G .50: 225.0 and 305.0; G .42: 173.2 lb per in of thread."""
    each = wood_withdrawal.lag_n_per_mm(gravity, diameter_in * IN) / LB_PER_IN
    assert each == pytest.approx(pounds, abs=0.05)


@pytest.mark.parametrize(
    ("gravity", "row"),
    [
        (0.73, (397, 469, 538, 604, 668, 789, 905, 1016, 1123, 1226, 1327)),
        (0.55, (260, 307, 352, 395, 437, 516, 592, 664, 734, 802, 868)),
        (0.36, (137, 163, 186, 209, 231, 273, 313, 352, 389, 425, 460)),
        (0.31, (110, 130, 149, 167, 185, 218, 250, 281, 311, 339, 367)),
    ],
)
def test_lag_withdrawal_table(gravity, row):
    """Rows of Table 12.2A, 1/4 to 1 1/4 in, rounded to a pound as printed."""
    sizes = (1 / 4, 5 / 16, 3 / 8, 7 / 16, 1 / 2, 5 / 8, 3 / 4, 7 / 8, 1, 9 / 8, 5 / 4)
    for size, pounds in zip(sizes, row, strict=True):
        each = wood_withdrawal.lag_n_per_mm(gravity, size * IN) / LB_PER_IN
        assert each == pytest.approx(pounds, abs=0.51)


@pytest.mark.parametrize(("gravity", "pounds"), [(0.45, 109.7), (0.50, 135.4)])
def test_wood_screw_withdrawal(gravity, pounds):
    """#10 (.190 in): 109.7 lb/in in G .45, 135.4 in G .50."""
    each = wood_withdrawal.wood_screw_n_per_mm(gravity, 0.190 * IN) / LB_PER_IN
    assert each == pytest.approx(pounds, abs=0.05)


def test_margin_to_the_mean_of_tests():
    """8100 G^1.5 D^0.75 is 4.5 times the allowable."""
    each = wood_withdrawal.lag_n_per_mm(0.5, 0.25 * IN) / LB_PER_IN
    assert 8100 * 0.5**1.5 * 0.25**0.75 / each == pytest.approx(4.5)


def test_force_at_an_angle():
    """Wp 540, Z 150 at 60 degrees: 327.3 lb."""
    assert wood_withdrawal.combined_n(540, 150, math.radians(60)) == pytest.approx(327.3, abs=0.05)


def test_load_duration_and_end_grain():
    """Wind takes 1.6 times, end grain 0.75 of it; a wood screw in end grain nothing."""
    screw = WoodScrew("lag", 0.25 * IN, 1 * IN, 0.5, 1.6)
    assert wood_withdrawal.withdrawal_n(screw) / LB_PER_IN / IN == pytest.approx(360.0, abs=0.1)
    ended = WoodScrew("lag", 0.25 * IN, 1 * IN, 0.5, 1.6, end_grain=True)
    assert wood_withdrawal.withdrawal_n(ended) == pytest.approx(
        0.75 * wood_withdrawal.withdrawal_n(screw)
    )
    assert wood_withdrawal.withdrawal_n(WoodScrew("wood", 4.8, 25.4, 0.5, 1.6, True)) == 0
