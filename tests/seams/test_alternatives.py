"""Other ways to divide."""

import pytest
import shapely
from shapely.geometry import LineString, Point, box

from holeplacer.errors import InputError
from holeplacer.plan import edit
from holeplacer.plan.seam import Seam
from holeplacer.seams import alternatives, choice
from holeplacer.seams.stock_fit import Usable


def rings(count):
    """Round letters joined at the foot by thin strokes."""
    parts = []
    for n in range(count):
        at = Point(150 * n, 0)
        parts.append(at.buffer(50, 32) - at.buffer(36, 32))
        if n:
            parts.append(LineString([(150 * n - 105, 0), (150 * n - 45, 0)]).buffer(4))
    return shapely.union_all(parts)


def test_straight_split_is_the_fewest_columns_and_rows(sign):
    """Equal columns across everything, however many strokes a line meets."""
    here = sign(shapely.union_all([box(0, 0, 300, 12), box(0, 40, 300, 52)]), 130)
    seams = alternatives.straight_split(here.outline, (Usable(120, 60, "any"),))
    assert sorted((seam.x1_mm, seam.length_mm) for seam in seams) == [
        (100.0, 12.0), (100.0, 12.0), (200.0, 12.0), (200.0, 12.0)
    ]  # fmt: skip
    seams = alternatives.straight_split(here.outline, (Usable(300, 30, "none"),))
    assert seams == ()


def test_a_tall_sheet_is_turned_where_that_helps(sign, shapes):
    """One sheet lying instead of three standing; not where turning is not wanted."""
    here = sign(shapes["bar"], 130)
    assert alternatives.straight_split(here.outline, (Usable(20, 310, "quarter"),)) == ()
    assert len(alternatives.straight_split(here.outline, (Usable(110, 310, "none"),))) == 2


def test_letters_are_parted_at_the_strokes_that_join_them(sign):
    """Three rings joined by strokes: two seams, both in joining strokes, three sections."""
    here = sign(rings(3), 130)
    seams = alternatives.letters_singly(here.plan, here.outline, here.axis)
    assert len(seams) == 2
    for seam, middle in zip(seams, (75, 225), strict=True):
        assert abs(seam.middle_mm[0] - middle) < 25
        assert seam.length_mm == pytest.approx(8.0, abs=0.2)


def test_one_letter_is_left_whole(sign, shapes):
    """A ring has nothing to part it; a hook without a junction is one stroke, however long."""
    hook = LineString([(0, 80), (0, 0), (150, 0), (150, 200)]).buffer(6)
    for region in (shapes["ring"], shapes["bar"], hook):
        here = sign(region, 130)
        assert alternatives.letters_singly(here.plan, here.outline, here.axis) == ()


def test_figures_beside_the_proposal(sign):
    """Seams, sections, weld; what is too near or does not fit is counted; the plan's own seams
    play no part."""
    here = sign(rings(3), 290, 290, turning="none")
    here.plan = edit.with_seams(here.plan, [Seam(0, 30, 0, 60, True)])
    straight, letters = alternatives.alternatives(here.plan, here.outline, here.axis)
    assert (straight.name, letters.name) == ("straight split", "letters singly")
    assert (len(straight.seams), straight.sections, straight.misfits) == (2, 2, 0)
    assert (len(letters.seams), letters.sections, letters.misfits) == (2, 3, 0)
    assert letters.weld_mm == pytest.approx(16.0, abs=0.4)
    assert (letters.too_near, straight.weld_mm > letters.weld_mm) == (0, True)
    near = alternatives.measured("own", here.plan, here.outline, here.axis, (Seam(55, -4, 55, 4),))
    assert near.too_near == 1


def test_the_proposal_is_no_worse(sign):
    """Fewest sections: no usual way has fewer that fit."""
    here = sign(rings(4), 290, 200)
    found = choice.choose(here.plan, here.outline, here.axis)
    for other in alternatives.alternatives(here.plan, here.outline, here.axis):
        assert other.misfits or other.sections >= found.sections


def test_without_sheets_there_is_nothing_to_compare(sign, shapes):
    """Said in one sentence."""
    here = sign(shapes["bar"], None)
    with pytest.raises(InputError, match="no sheet"):
        alternatives.alternatives(here.plan, here.outline, here.axis)
