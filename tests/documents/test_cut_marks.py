"""Labels and match marks."""

import numpy as np
import pytest
import shapely
from shapely.affinity import translate

from holeplacer.cutting.contours import Part, RoundHole, SeamEdge
from holeplacer.documents import cut_marks

BAR = shapely.box(0, 0, 200, 40)


def halves():
    """A bar welded at x = 100, its right half moved aside as on a sheet."""
    seam = SeamEdge(3, (100.0, 0.0), (100.0, 40.0))
    moved = SeamEdge(3, (150.0, 10.0), (150.0, 50.0))
    left = Part("1", shapely.box(0, 0, 100, 40), (), (seam,))
    right = Part("2", translate(shapely.box(100, 0, 200, 40), 50, 10), (), (moved,))
    return left, right


def test_a_label_lies_in_the_metal_clear_of_holes():
    """Where the metal is widest; a hole there moves it aside."""
    for holes in ((), (RoundHole(100, 20, 30, 1),)):
        strokes = shapely.MultiLineString(list(cut_marks.label(Part("S12", BAR, holes))))
        assert BAR.covers(strokes)
        assert all(strokes.distance(shapely.Point(h.x_mm, h.y_mm)) >= 15 for h in holes)


def test_a_label_shrinks_to_fit_and_is_left_out_where_nobody_could_read_it():
    """In a bar of 6 mm it is smaller, in one of 2 mm there is none."""
    narrow = cut_marks.label(Part("S1", shapely.box(0, 0, 100, 6)))
    assert 2.5 <= np.ptp(np.concatenate(narrow)[:, 1]) < 6
    assert cut_marks.label(Part("S1", shapely.box(0, 0, 100, 2))) == ()


def test_match_marks_meet_across_the_seam():
    """Put together again, the marks of both parts lie in one line, each on its own side."""
    left, right = (cut_marks.match_marks(part) for part in halves())
    for one, other in zip(left[:2], right[:2], strict=True):
        back = other - (50.0, 10.0)
        assert one[:, 1] == pytest.approx(back[:, 1])
        assert one[:, 0].max() < 100 < back[:, 0].min()


def test_match_marks_carry_the_seam_s_number_on_both_sides():
    """More strokes than the two marks, all within the metal."""
    for part in halves():
        marks = cut_marks.match_marks(part)
        assert len(marks) > 2
        assert part.polygon.covers(shapely.MultiLineString(list(marks)))


def test_no_mark_leaves_a_narrow_part():
    """Beside a short stub the marks end before its far edge."""
    stub = Part("1", shapely.box(0, 0, 5, 40), (), (SeamEdge(1, (5, 0), (5, 40)),))
    for mark in cut_marks.match_marks(stub):
        assert stub.polygon.covers(shapely.LineString(mark))


def test_a_centre_mark_stays_within_its_hole():
    """A cross half as wide as the hole."""
    lines = cut_marks.centre_mark(RoundHole(5, 6, 3.2, 1))
    assert [np.hypot(*(b - a)) for a, b in lines] == pytest.approx([1.6, 1.6])
    assert [(a + b).tolist() for a, b in lines] == [pytest.approx([10, 12])] * 2
