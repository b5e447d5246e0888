"""The sign in its sections on sheets."""

import pytest
from shapely.geometry import box

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cutting import division, hand_layout, kept_layout
from holeplacer.errors import Cancelled, InputError
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.sheet.stock import Stock

BAR = Outline.from_geometry(box(0, 0, 500, 20))


def plan_on(*stock, seams=(250.0,), **choice):
    made = tuple(Seam(x, 0.0, x, 20.0) for x in seams)
    choice = SectionsChoice(stock=stock, **choice)
    return Plan(ArtworkFile("a.svg", b""), seams=made, sections=choice)


def test_sections_lie_on_sheets_with_their_figures():
    """Two halves on one sheet; figures are those of what is cut."""
    found = division.division(plan_on(Stock(300, 300, True)), BAR)
    assert len(found.layout.sections) == 2
    assert len(found.layout.sheets) == len(found.sheets) == 1
    assert found.whole.cut_mm == pytest.approx(2 * 2 * (250 + 20))
    assert found.whole.pierces == 2
    assert found.findings == ()


def test_the_root_gap_is_taken_off():
    """Half of it from either side of the seam."""
    found = division.division(plan_on(Stock(300, 300, True), root_gap_mm=2.0), BAR)
    assert sum(part.area_mm2 for part in found.layout.sections) == pytest.approx(20 * 498)


def test_what_fits_no_sheet_is_left_to_the_rule_on_seams():
    """No layout, and nothing said twice."""
    found = division.division(plan_on(Stock(300, 300, True), seams=()), BAR)
    assert (found.layout, found.sheets, found.findings, found.whole) == (None, (), (), None)


def test_too_few_sheets_are_a_finding():
    """It says how many sections find room, and bears the name of the module."""
    found = division.division(plan_on(Stock(300, 45, True, count=1), turning="none"), BAR)
    (finding,) = found.findings
    assert found.layout is None
    assert finding.rule == division.NAME == division.__name__.rpartition(".")[2]
    assert "take 1 of 2 sections" in finding.message
    assert "more or larger sheets" in finding.way_out


def test_without_a_sheet_there_is_nothing_to_lay_on():
    """The person is asked for one."""
    with pytest.raises(InputError, match="no sheet"):
        division.division(plan_on(), BAR)


def test_the_usual_ways_are_laid_on_the_same_sheets():
    """Both with figures; progress rises from 0 to below 1, and the work can be stopped."""
    plan, told = plan_on(Stock(300, 300, True)), []
    axis = medial_axis(BAR)
    found = division.compared(plan, BAR, axis, progress=lambda share, _: told.append(share))
    assert [item.way.name for item in found] == ["straight split", "letters singly"]
    straight, letters = found
    assert (straight.way.sections, len(straight.division.sheets)) == (2, 1)
    assert letters.division.layout is None
    assert letters.way.misfits == 1
    assert told == sorted(told)
    assert 0 <= told[0] <= told[-1] < 1
    with pytest.raises(Cancelled):
        division.compared(plan, BAR, axis, cancelled=lambda: True)


def test_sections_that_collide_by_hand_are_findings():
    """A half laid on the other by hand stays there, and it is said which lies on which."""
    plan = plan_on(Stock(300, 300, True))
    laid = division.division(plan, BAR).layout
    one, two = (placed.of(laid.section(placed.section).polygon).centroid for placed in laid.placed)
    moved = hand_layout.moved(laid, 2, one.x - two.x, one.y - two.y)
    found = division.division(kept_layout.with_layout(plan, moved, {2}), BAR)
    (finding,) = found.findings
    assert finding.message == "Section 1 on sheet 1 lies on section 2"
    assert finding.rule == division.NAME
    assert "laid out anew" in finding.way_out
