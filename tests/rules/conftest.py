"""A bar of metal, its axis, and a plan to put holes in."""

import numpy as np
import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.medial_axis.axis import Axis, Branch, Tip
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan


@pytest.fixture
def plan() -> Plan:
    return Plan(ArtworkFile("bar.svg", b""))


@pytest.fixture
def bar() -> Outline:
    """30 mm wide with round ends, its axis from x 0 to 400 at y 0."""
    return Outline.from_geometry(shapely.LineString([(0, 0), (400, 0)]).buffer(15, quad_segs=64))


@pytest.fixture
def axis() -> Axis:
    """That bar's axis, written down."""
    s = np.linspace(0.0, 400.0, 41)
    xy = np.stack([s, np.zeros_like(s)], axis=1)
    clearance = np.full_like(s, 15.0)
    contacts = np.stack([xy + np.array([0, 15]), xy - np.array([0, 15])], axis=1)
    branch = Branch(0, 1, 0, xy, clearance, s, contacts)
    return Axis(
        (branch,),
        xy[[0, -1]],
        clearance[[0, -1]],
        np.zeros(2, np.intp),
        (Tip(0, (-15.0, 0.0), 15.0), Tip(1, (415.0, 0.0), 15.0)),
    )
