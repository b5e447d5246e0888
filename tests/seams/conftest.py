"""Small signs to divide, and one who tries everything."""

import itertools

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString, Point

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams import sections, stock_fit
from holeplacer.sheet.stock import Stock


def stroke(points, width):
    return LineString(points).buffer(width / 2, cap_style="flat", join_style="round")


SHAPES = {
    "bar": stroke([(0, 0), (300, 0)], 12),
    "wedge": shapely.Polygon([(0, -4), (280, -12), (280, 12), (0, 4)]),
    "fork": shapely.union_all(
        [
            stroke([(0, 0), (120, 0)], 14),
            stroke([(110, 0), (220, 90)], 9),
            stroke([(110, 0), (220, -90)], 11),
        ]
    ),
    "ring": Point(0, 0).buffer(70, 32) - Point(4, 0).buffer(56, 32),
    "handle": shapely.union_all(
        [
            stroke([(0, 0), (180, 0)], 12),
            shapely.affinity.translate(
                Point(0, 0).buffer(40, 32) - Point(0, 0).buffer(30, 32), 215
            ),
        ]
    ),
}


class Sign:
    """A plan, its outline and its axis."""

    def __init__(self, region, width, height=None, holes=(), **choice):
        self.outline = Outline.from_geometry(region)
        self.axis = medial_axis(self.outline)
        stock = (Stock(width, height or width, True),) if width else ()
        values = {"margin_mm": 5.0, "seam_clear_mm": 5.0} | choice
        self.plan = Plan(
            ArtworkFile("a.svg", b""), holes=holes, sections=SectionsChoice(stock, **values)
        )

    def all_fit(self, seams):
        sizes = stock_fit.usable_sizes(self.plan.sections)
        parts = sections.sections(self.outline, seams)
        return all(stock_fit.fits(stock_fit.hull_of(part.polygon), sizes) for part in parts)

    def by_trying_all(self, cuts, rows, worth, most):
        """Fewest sections, then least cost, of all sets of so many cuts at most."""
        best = (np.inf, np.inf)
        for count in range(most + 1):
            for chosen in itertools.combinations(rows.tolist(), count):
                seams = [cuts.seam(row) for row in chosen]
                cost = float(worth[list(chosen)].sum())
                number = len(sections.sections(self.outline, seams))
                if (number, cost) < best and self.all_fit(seams):
                    best = (number, cost)
        return best


@pytest.fixture(scope="session")
def sign():
    return Sign


@pytest.fixture(scope="session")
def shapes():
    return SHAPES
