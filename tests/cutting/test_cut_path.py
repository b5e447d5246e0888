"""All that the torch does on a sheet."""

import pytest
import shapely

from holeplacer.cutting import cut_path
from holeplacer.cutting.contours import Kind, Part, RoundHole
from holeplacer.cutting.cut_path import CutWish
from holeplacer.sheet.process import process

PLATE = Part(
    "A",
    shapely.box(0, 0, 80, 60).difference(shapely.box(20, 20, 40, 40)),
    (RoundHole(60, 30, 7.1, 1), RoundHole(70, 30, 3.0, 2)),
)


def test_small_holes_are_marked_and_the_rest_cut_inside_out():
    """The 3 mm hole is left to the drill."""
    found = cut_path.cut_path([PLATE], process("plasma"), 2.0)
    assert [cut.path.kind for cut in found.cuts] == [Kind.HOLE, Kind.COUNTER, Kind.OUTER]
    assert [hole.number for hole in found.marked] == [2]
    assert all(cut.lead is not None and cut.lead.fits for cut in found.cuts)


def test_by_hand_every_hole_is_marked():
    """No hole is cut by hand."""
    found = cut_path.cut_path([PLATE], process("hand"), 2.0)
    assert [hole.number for hole in found.marked] == [1, 2]


def test_the_offset_is_half_the_kerf():
    """Outer 60 mm high becomes 60 + k, the counter of 20 becomes 20 - k."""
    width = process("plasma").kerf_mm(2.0)
    found = cut_path.cut_path([PLATE], process("plasma"), 2.0, None, CutWish(offset=True))
    heights = [cut.path.xy[:, 1].max() - cut.path.xy[:, 1].min() for cut in found.cuts]
    assert heights == pytest.approx([7.1 - width, 20 - width, 60 + width], abs=0.01)
    assert found.kerf_mm == pytest.approx(width)


def test_what_the_kerf_swallows_is_told():
    """A slit of 1 mm vanishes, parts 1 mm apart are crowded."""
    slit = Part("A", shapely.box(0, 0, 40, 20).difference(shapely.box(5, 9.5, 35, 10.5)))
    near = Part("B", shapely.box(41, 0, 60, 20))
    found = cut_path.cut_path([slit, near], process("plasma"), 2.0, None, CutWish(offset=True))
    assert [item.kind for item in found.vanished] == [Kind.COUNTER]
    assert len(found.crowded) == 1


def test_without_leads():
    """Paths only."""
    found = cut_path.cut_path([PLATE], process("plasma"), 2.0, None, CutWish(leads=False))
    assert [cut.lead for cut in found.cuts] == [None, None, None]


def test_no_pierce_off_the_sheet():
    """A sheet that ends 1 mm beside the part on all sides but one is pierced there."""
    sheet = shapely.box(-1, -1, 81, 75)
    found = cut_path.cut_path([PLATE], process("plasma"), 2.0, sheet)
    assert found.cuts[-1].lead.pierce[1] > 60
