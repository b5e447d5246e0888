"""Branches cut where room or demand changes."""

from math import inf

import numpy as np
import pytest
from graphs import NONE, graph, path, wanted

from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement.axis_steps import steps

TAPER = graph([(0, 0), (290, 0)], [(0, 1)], clearance=[np.linspace(10.0, 0.0, 30)])


def test_plain_stroke():
    """One step each way."""
    ((forwards, back),) = steps(wanted(path(600.0), 150.0), NONE, 1.0)
    assert [(s.begin, s.length, s.room, s.radius) for s in forwards] == [(0.0, 600.0, True, 150.0)]
    assert [(s.begin, s.sign, s.length) for s in back] == [(600.0, -1, 600.0)]


def test_taper():
    """Room ends half-way; what is out of reach is not wanted."""
    ((forwards, _),) = steps(wanted(TAPER, 100.0), NONE, 1.0)
    assert [s.room for s in forwards] == [True, False, False]
    assert [s.length for s in forwards] == pytest.approx([145.0, 100.0, 45.0], abs=1e-3)
    assert [s.radius for s in forwards] == [100.0, 100.0, inf]


def test_thin_metal_widens_tight_radii():
    """At half the limits a hole within 2 mm of the nearest place will do, up to the limits."""
    demand = wanted(TAPER, 100.0)
    ((forwards, _),) = steps(demand, NONE, 0.5)
    for step in forwards:
        for share in (0.0, 0.3, 1.0):
            s = np.array([step.begin + share * step.length])
            radius = demand.at(np.zeros(1, np.intp), s).radius(0.5)[0]
            if step.radius < inf:
                assert step.radius + share * step.length * step.growth == pytest.approx(radius)
    assert {step.growth for step in forwards} == {0.0, 1.0}


def test_holes_that_stay():
    """They are steps without length, met in either direction."""
    stays = AxisPoints.on_branches([0], [200.0])
    ((forwards, back),) = steps(wanted(path(600.0), 150.0, stays=stays), stays, 1.0)
    assert [s.length for s in forwards] == [200.0, 0.0, 400.0]
    assert [s.length for s in back] == [400.0, 0.0, 200.0]
