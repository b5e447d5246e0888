"""Plain shapes of one steel sheet, and what is asked of all of them."""

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString, box

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.structure.sheet_stiffness import SheetStiffness
from holeplacer.structure.stations import stations

ELASTIC, SHEAR, THICKNESS = 210e3, 210e3 / 2.6, 3.0


class Sign:
    """An outline with its axis."""

    def __init__(self, region):
        self.outline = Outline.from_geometry(region)
        self.axis = medial_axis(self.outline)

    @property
    def strip(self):
        return stations(self.axis, 0)

    @property
    def polygon(self):
        return self.outline.pieces[0].polygon


@pytest.fixture(scope="session")
def sheet():
    return SheetStiffness(THICKNESS, ELASTIC, SHEAR)


@pytest.fixture(scope="session")
def metal():
    return {"thickness_mm": THICKNESS, "elastic_mpa": ELASTIC, "shear_mpa": SHEAR}


@pytest.fixture(scope="session")
def bar():
    """1000 x 40, its lower left corner at the origin."""
    return Sign(box(0, 0, 1000, 40))


@pytest.fixture(scope="session")
def ring():
    """Middle radius 500, 40 wide."""
    centre = shapely.Point(0, 0)
    return Sign(centre.buffer(520, 100).difference(centre.buffer(480, 100)))


@pytest.fixture(scope="session")
def tee():
    """A bar of 600 with a stem of 300 below its middle, 60 wide."""
    bars = [LineString([(0, 0), (600, 0)]), LineString([(300, 0), (300, -300)])]
    return Sign(shapely.union_all([b.buffer(30, cap_style="square") for b in bars]))


@pytest.fixture(scope="session")
def disc():
    """Radius 100."""
    return Sign(shapely.Point(0, 0).buffer(100, 64))


@pytest.fixture(scope="session")
def drop():
    """A tapered stroke beside a dot: two pieces."""
    t = np.linspace(0, 1, 40)
    top = np.column_stack([400 * t, 8 + 8 * t + 10 * np.sin(3 * t)])
    low = np.column_stack([400 * t, -8 - 8 * t + 10 * np.sin(3 * t)])[::-1]
    stroke = shapely.Polygon(np.concatenate([top, low]))
    return Sign(stroke.union(shapely.Point(520, 0).buffer(40, 16)))
