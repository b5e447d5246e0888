"""A sign with a stroke, a ring and a dot; its axis; a plan with holes in it."""

import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.medial_axis import medial_axis
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan


@pytest.fixture(scope="session")
def outline() -> Outline:
    """Stroke 30 mm wide along x 0 to 600, a ring to its right, a dot above, a hair-thin stroke."""
    stroke = shapely.LineString([(0, 0), (600, 0)]).buffer(15, quad_segs=32)
    ring = shapely.Point(720, 0).buffer(80, quad_segs=64)
    ring = ring.difference(shapely.Point(720, 0).buffer(50, quad_segs=64))
    dot = shapely.Point(300, 90).buffer(14, quad_segs=32)
    hair = shapely.LineString([(0, 200), (300, 200)]).buffer(4, quad_segs=16)
    return Outline.from_geometry(shapely.union_all([stroke, ring, dot, hair]))


@pytest.fixture(scope="session")
def axis(outline: Outline) -> Axis:
    return medial_axis.medial_axis(outline)


@pytest.fixture
def plan() -> Plan:
    return Plan(
        ArtworkFile("sign.svg", b""),
        holes=(
            Hole(1, 50.0, 0.0),
            Hole(2, 300.0, 0.0),
            Hole(3, 550.0, 4.0, 5.5),
            Hole(5, 720.0, 65.0),
            Hole(6, 720.0, -65.0, None, True),
            Hole(7, 300.0, 90.0),
        ),
    )
