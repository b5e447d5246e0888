"""Sections as they lie on their sheet."""

import math

import pytest
from shapely.geometry import box

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cutting import sheet_layout, sheet_parts
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams import sections
from holeplacer.sheet.stock import Stock

PLAN = Plan(
    ArtworkFile("bar.svg", b""),
    holes=(Hole(1, 20.0, 30.0), Hole(2, 180.0, 30.0, diameter_mm=5.0)),
    seams=(Seam(100.0, 0.0, 100.0, 60.0),),
)
OUTLINE = Outline.from_geometry(box(0, 0, 200, 60))


def laid():
    made = sections.sections(OUTLINE, PLAN.seams, PLAN.holes)
    choice = SectionsChoice(stock=(Stock(130.0, 150.0, True),))
    return made, sheet_layout.sheet_layout(made, choice)


def test_holes_and_seams_lie_on_their_part():
    """Turned and moved, a hole keeps its place in the metal, and a seam its place on the edge."""
    made, layout = laid()
    for sheet in range(len(layout.sheets)):
        for part in sheet_parts.sheet_parts(layout, sheet, PLAN):
            (hole,), (seam,) = part.holes, part.seams
            source = made[int(part.label) - 1]
            at = next(h for h in PLAN.holes if h.number == hole.number)
            edge = part.polygon.exterior
            there = box(at.x_mm, at.y_mm, at.x_mm, at.y_mm).centroid
            here = box(hole.x_mm, hole.y_mm, hole.x_mm, hole.y_mm).centroid
            assert here.distance(edge) == pytest.approx(there.distance(source.polygon.exterior))
            assert part.polygon.contains(here)
            assert math.dist(seam.start, seam.end) == pytest.approx(60.0)
            middle = [(a + b) / 2 for a, b in zip(seam.start, seam.end, strict=True)]
            assert edge.distance(box(*middle, *middle).centroid) < 1e-9


def test_both_sides_of_a_seam_bear_its_number():
    """Whoever welds them finds the two ends that belong together."""
    made, _ = laid()
    one, two = sheet_parts.whole_parts(made, PLAN)
    assert one.seams[0].number == two.seams[0].number == 1
    assert one.seams[0].start == two.seams[0].start


def test_parts_of_the_whole_stay_where_they_are_in_the_sign():
    """Numbers, diameters and coordinates are the plan's."""
    made, _ = laid()
    parts = sheet_parts.whole_parts(made, PLAN)
    assert [part.label for part in parts] == ["1", "2"]
    assert [(h.x_mm, h.diameter_mm) for part in parts for h in part.holes] == [
        (20.0, PLAN.standoff.hole_mm),
        (180.0, 5.0),
    ]
    assert parts[0].polygon.equals(made[0].polygon)
