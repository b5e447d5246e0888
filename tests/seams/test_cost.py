"""Cost of a seam."""

from dataclasses import replace

import numpy as np
import pytest

from holeplacer.seams import cost
from holeplacer.seams.candidates import Candidates


def cut(**values):
    far = np.array([np.inf])
    plain = Candidates(
        branch=np.array([0]),
        piece=np.array([0]),
        s=np.array([5.0]),
        ends=np.zeros((1, 2, 2)),
        weld_mm=np.array([40.0]),
        turn_rad=np.array([0.0]),
        taper=np.array([0.0]),
        hole_mm=far,
        tip_mm=far.copy(),
        junction_mm=far.copy(),
    )
    return replace(plain, **{name: np.array([value]) for name, value in values.items()})


def test_a_plain_seam_costs_its_weld():
    """Straight, even and far from everything."""
    assert cost.cost(cut(), 15.0) == pytest.approx([40.0])


@pytest.mark.parametrize(
    ("values", "expected"),
    [
        ({"turn_rad": 1.0}, 40 * (1 + cost.CURVATURE)),
        ({"taper": 0.2}, 40 * (1 + 0.2 * cost.TAPER)),
        ({"hole_mm": 15.0}, 40 * (1 + cost.NEARNESS)),
        ({"tip_mm": 22.5}, 40 * (1 + cost.NEARNESS / 2)),
        ({"junction_mm": 30.0}, 40.0),
        ({"hole_mm": 15.0, "junction_mm": 15.0}, 40 * (1 + 2 * cost.NEARNESS)),
    ],
)
def test_what_makes_it_worse_adds_weld(values, expected):
    """Each by its factor; nearness fades out at twice the least distance."""
    assert cost.cost(cut(**values), 15.0) == pytest.approx([expected])


def test_without_a_least_distance_near_is_still_worse():
    """Ten millimetres are the range then."""
    assert cost.cost(cut(hole_mm=5.0), 0.0) == pytest.approx([40 * (1 + cost.NEARNESS / 2)])
