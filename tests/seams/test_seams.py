"""Findings about seams."""

import pytest
import shapely
from shapely.geometry import box

from holeplacer.plan import edit
from holeplacer.plan.hole import Hole
from holeplacer.plan.seam import Seam
from holeplacer.rules.finding import PlaceKind
from holeplacer.seams import choice, seams


def across(x, **values):
    return Seam(x, -6.0, x, 6.0, **values)


def found(here, *drawn):
    return seams.check(edit.with_seams(here.plan, drawn), here.outline, here.axis)


def bar(sign, width=160, **values):
    return sign(box(0, -6, 300, 6), width, **values)


def test_a_proposal_has_no_findings(sign, shapes):
    """What is proposed keeps what is checked."""
    for name in shapes:
        here = sign(shapes[name], 130)
        chosen = choice.choose(here.plan, here.outline, here.axis)
        assert found(here, *chosen.seams) == ()


def test_nothing_to_divide_and_no_sheets(sign, shapes):
    """Without seams and sheets nothing is said."""
    assert found(sign(shapes["bar"], None)) == ()


def test_holes_change_nothing_that_is_said_of_seams(sign):
    """Dragging one gives the very findings of before, made once; counting them knows of holes."""
    here = bar(sign, seam_clear_mm=10.0)
    before = found(here, across(2.0))
    assert len(before) == 2
    assert seams.too_near(here.plan, here.axis, (across(150.0),)) == 0
    here.plan = edit.with_holes(here.plan, [Hole(4, 156.0, 0.0, 6.0)])
    after = found(here, across(2.0))
    assert all(one is two for one, two in zip(before, after, strict=True))
    assert seams.too_near(here.plan, here.axis, (across(150.0), across(80.0))) == 1
    assert seams.too_near(here.plan, here.axis, ()) == 0


def test_too_near_a_tip_and_a_junction(sign, shapes):
    """Both are told by name."""
    here = bar(sign, 400)
    assert "from a tip" in found(here, across(2.0))[0].message
    here = sign(shapes["fork"], 400)
    (finding,) = found(here, Seam(104.0, -7.0, 104.0, 7.0))
    assert "from a junction" in finding.message


def test_a_seam_that_parts_nothing(sign, shapes):
    """One that stops short, one in the air, and one alone round a counter."""
    here = bar(sign, 400)
    for seam in (Seam(150.0, -6.0, 150.0, 4.0), Seam(500.0, 0.0, 500.0, 9.0)):
        (finding,) = found(here, seam)
        assert "parts nothing" in finding.message
        assert (finding.limit, finding.unit) == (2, "")
    here = sign(shapes["ring"], 400)
    one, two = Seam(0.0, 40.0, 0.0, 80.0), Seam(0.0, -40.0, 0.0, -80.0)
    assert "parts nothing" in found(here, one)[0].message
    assert found(here, one, two) == ()


def test_a_seam_over_two_strokes(sign):
    """One seam is one weld."""
    here = sign(shapely.union_all([box(0, 0, 300, 12), box(0, 30, 300, 42)]), 400)
    (finding,) = found(here, Seam(150.0, 0.0, 150.0, 42.0))
    assert (finding.value, finding.limit) == (2, 1)


def test_a_section_that_fits_no_sheet(sign):
    """By how much, at the best turn: 300 mm on a 150 mm square's diagonal are 69.5 mm over."""
    (finding,) = found(bar(sign, turning="quarter"))
    assert (finding.value, finding.limit) == (pytest.approx(150.0), 0.0)
    assert finding.place.kind is PlaceKind.PIECE
    assert finding.place.index == 1
    (finding,) = found(bar(sign))
    assert finding.value == pytest.approx((300 + 12) / 2**0.5 - 150, abs=0.1)
    assert found(bar(sign), across(150.0)) == ()
    (finding,) = found(bar(sign, margin_mm=90.0))
    assert "none is left within the margin" in finding.message
