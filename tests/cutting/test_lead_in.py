"""Ways from the pierce to the contour, judged by sweeping the torch along them."""

import math

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.cutting import contours, lead_in
from holeplacer.cutting.contours import Kind, Part, RoundHole
from holeplacer.cutting.cut_path import CutWish, cut_path
from holeplacer.sheet.process import process

PLASMA = process("plasma")
THICKNESS = 2.0
KERF = PLASMA.kerf_mm(THICKNESS)
CLEARANCE = PLASMA.pierce_clearance_mm(THICKNESS)


def blob(x, y, lobes, wave, size=30.0):
    """A wavy disc with a counter."""
    t = np.linspace(0, 2 * math.pi, 180, endpoint=False)
    r = size * (1 + wave * np.sin(lobes * t))
    xy = np.column_stack([x + r * np.cos(t), y + r * np.sin(t)])
    return shapely.Polygon(xy, [shapely.Point(x, y).buffer(size / 4).exterior.coords])


SHEETS = st.lists(
    st.tuples(st.integers(2, 7), st.floats(0.0, 0.3), st.floats(0.0, 12.0)), min_size=2, max_size=4
)


@settings(max_examples=25, deadline=None)
@given(SHEETS, st.booleans(), st.sampled_from(["arc", "straight"]))
def test_no_lead_in_touches_metal_that_stays(shapes, offset, shape):
    """The swept torch takes nothing of any part on the sheet, and each pierce keeps clear."""
    parts = [
        Part(str(i), blob(i * 75.0 + shift / 4, shift, lobes, wave))
        for i, (lobes, wave, shift) in enumerate(shapes)
    ]
    metal = shapely.union_all([part.polygon for part in parts])
    found = cut_path(parts, PLASMA, THICKNESS, None, CutWish(offset, True, shape))
    for cut in found.cuts:
        assert cut.lead is not None
        assert metal.distance(shapely.Point(cut.lead.pierce)) >= CLEARANCE - 1e-6
        way = shapely.LineString(lead_in.way_points(cut.lead))
        places = shapely.get_coordinates(way.segmentize(0.1))
        apart = shapely.distance(metal, shapely.points(places))
        assert (apart >= (KERF / 2 if offset else 0.0) - 0.02).all()
        if not offset:  # the controller moves the way's end half a kerf into the drop
            left = np.hypot(*(places - np.array(cut.lead.entry)).T)
            assert (apart[left > CLEARANCE] >= KERF / 2 - 0.02).all()
        region = cut.path.region
        inside = region.contains(shapely.Point(cut.lead.pierce))
        assert inside == (cut.path.kind is not Kind.OUTER)


@settings(max_examples=25, deadline=None)
@given(SHEETS)
def test_the_path_starts_where_the_lead_in_ends(shapes):
    """Same points, same direction, another start."""
    parts = [
        Part(str(i), blob(i * 80.0, 0.0, lobes, wave)) for i, (lobes, wave, _) in enumerate(shapes)
    ]
    nominal = {(item.part, item.kind): item for item in contours.contours_of(parts, None)}
    for cut in cut_path(parts, PLASMA, THICKNESS).cuts:
        assert cut.lead is not None
        assert cut.path.xy[0] == pytest.approx(cut.lead.entry)
        before = nominal[cut.path.part, cut.path.kind].xy
        assert contours.signed_area_mm2(cut.path.xy) == pytest.approx(
            contours.signed_area_mm2(before)
        )


def test_an_arc_meets_the_contour_in_its_direction():
    """The way's last chord and the path's first run alike."""
    for cut in cut_path([Part("A", blob(0, 0, 3, 0.1, 90.0))], PLASMA, THICKNESS).cuts:
        assert cut.lead.bulge > 0
        way = lead_in.way_points(cut.lead)
        last, first = way[-1] - way[-2], cut.path.xy[1] - cut.path.xy[0]
        turn = math.atan2(*np.array([np.cross([*last, 0], [*first, 0])[2], last @ first]))
        assert abs(turn) < 0.12


def test_a_narrow_counter_has_no_room_and_says_so():
    """In a slit 3 mm wide no pierce keeps 2.4 mm clear of both sides."""
    slit = shapely.box(0, 0, 60, 30).difference(shapely.box(10, 13.5, 50, 16.5))
    cuts = cut_path([Part("A", slit)], PLASMA, THICKNESS).cuts
    assert [cut.lead is None for cut in cuts] == [True, False]


def test_a_hole_is_entered_from_its_centre():
    """Radius as clearance: even the smallest hole that is cut has room for its pierce."""
    for diameter in (7.144, 4.8):
        hole = RoundHole(20, 20, diameter, 1)
        for offset in (False, True):
            (cut, _) = cut_path(
                [Part("A", shapely.box(0, 0, 40, 40), (hole,))], PLASMA, THICKNESS, None,
                CutWish(offset),
            ).cuts  # fmt: skip
            assert cut.lead.pierce == (20, 20)
            assert cut.lead.clear_mm == pytest.approx(diameter / 2)
            assert cut.lead.fits


def test_ways_have_a_length():
    """A straight way into a hole is as long as its radius."""
    hole = RoundHole(20, 20, 8.0, 1)
    part = Part("A", shapely.box(0, 0, 40, 40), (hole,))
    cuts = cut_path([part], PLASMA, THICKNESS, None, CutWish(shape="straight")).cuts
    assert lead_in.travels_mm([cuts[0].lead, None]) == pytest.approx(4.0)
