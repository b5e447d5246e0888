"""The report's parts on seams and sections."""

import math
from dataclasses import replace

import numpy as np
import pytest
import shapely
from shapely.geometry import box

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cutting import division
from holeplacer.documents import sections_report
from holeplacer.evaluation.layout import Layout
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams import choice, sections
from holeplacer.sheet.stock import Stock

HOOK = shapely.union_all([box(300, 50, 900, 70), box(880, 50, 900, 400), box(600, 65, 620, 200)])


@pytest.fixture(scope="module")
def layout():
    """A hook that no sheet at hand takes whole, far from the sign's origin."""
    outline = Outline.from_geometry(HOOK)
    stock = (Stock(330.0, 300.0, True), Stock(330.0, 300.0, False, "300 mm"))
    plan = Plan(
        ArtworkFile("hook.svg", b""),
        holes=(Hole(1, 330.0, 60.0), Hole(2, 890.0, 380.0)),
        sections=SectionsChoice(stock=stock, seam_clear_mm=10.0),
    )
    axis = medial_axis(outline)
    found = choice.choose(plan, outline, axis)
    return Layout(replace(plan, seams=found.seams), None, outline, axis), found


@pytest.fixture(scope="module")
def told(layout):
    made, found = layout
    return sections_report.sections_report(
        made,
        division.division(made.plan, made.outline),
        found,
        division.compared(made.plan, made.outline, made.axis),
    )


def test_a_section_turned_and_moved_as_told_lies_in_what_may_be_cut(layout, told):
    """Turned about the sign's origin, then moved: inside the usable rectangle, none on another."""
    made, _ = layout
    parts = {part.number: part for part in sections.sections(made.outline, made.plan.seams)}
    assert len(told.sections) == len(parts) >= 3
    lying = {}
    for item in told.sections:
        angle = math.radians(item.angle_deg)
        turn = np.array([[math.cos(angle), -math.sin(angle)], [math.sin(angle), math.cos(angle)]])
        there = shapely.transform(
            parts[item.number].polygon, lambda xy, t=turn, i=item: xy @ t.T + (i.x_mm, i.y_mm)
        )
        sheet = told.sheets[item.sheet - 1]
        assert box(*sheet.usable_mm).buffer(1e-3).covers(there)
        assert sheet.usable_mm == (10.0, 10.0, sheet.width_mm - 10.0, sheet.height_mm - 10.0)
        for other in lying.setdefault(item.sheet, []):
            assert shapely.distance(other, there) >= 8.0 - 1e-3
        lying[item.sheet].append(there)
    assert sorted(lying) == list(range(1, len(told.sheets) + 1))


def test_sections_make_up_the_sign(layout, told):
    """Areas sum to the outline's, masses to the metal less holes; every hole is in one section."""
    made, _ = layout
    plan, outline = made.plan, made.outline
    assert sum(item.area_mm2 for item in told.sections) == pytest.approx(outline.area_mm2)
    drops = 2 * math.pi / 4 * plan.standoff.hole_mm**2
    metal, thick = plan.sheet.material, plan.sheet.thickness_mm
    whole = metal.mass_kg(outline.area_mm2 - drops, thick)
    assert sum(item.mass_kg for item in told.sections) == pytest.approx(whole)
    assert sorted(n for item in told.sections for n in item.holes) == [1, 2]


def test_seams_are_told_in_sign_coordinates_with_weld_and_order(layout, told):
    """Ends as in the plan, length in metal, order of welds and tacks without a gap."""
    made, found = layout
    ends = [(s.x1_mm, s.y1_mm, s.x2_mm, s.y2_mm) for s in told.seams]
    assert ends == [(s.x1_mm, s.y1_mm, s.x2_mm, s.y2_mm) for s in made.plan.seams]
    assert [s.weld_mm for s in told.seams] == pytest.approx([20.0] * len(ends), abs=0.5)
    assert sorted(s.order for s in told.seams) == list(range(1, len(ends) + 1))
    tacks = sorted(tack.order for s in told.seams for tack in s.tacks)
    assert tacks == list(range(1, len(tacks) + 1))
    assert told.divided.weld_mm == pytest.approx(found.weld_mm)
    assert (told.divided.sections, told.divided.proven) == (found.sections, found.proven)


def test_other_ways_stand_beside(told):
    """Both with what they cost; none has fewer sections than is proven the least."""
    assert [way.name for way in told.alternatives] == ["straight split", "letters singly"]
    straight = told.alternatives[0]
    assert straight.sections >= told.divided.sections
    assert straight.sheets >= 1
    assert 0 < straight.scrap_share < 1


def test_what_lies_on_no_sheet_has_no_place(layout):
    """Seams without sheets: sections with their areas, the place null; without both, nothing."""
    made, _ = layout
    bare = replace(made, plan=replace(made.plan, sections=SectionsChoice()))
    told = sections_report.sections_report(bare, None)
    assert {(s.sheet, s.x_mm, s.y_mm, s.angle_deg) for s in told.sections} == {(None,) * 4}
    assert (told.sheets, told.alternatives, told.divided.proven) == ((), (), None)
    whole = replace(bare, plan=replace(bare.plan, seams=()))
    nothing = sections_report.sections_report(whole, None)
    assert (nothing.divided, nothing.seams, nothing.sections) == (None, (), ())


def test_a_seam_that_joins_nothing_has_no_order(layout):
    """It is told all the same."""
    made, _ = layout
    lone = replace(made, plan=replace(made.plan, seams=(Seam(0.0, 0.0, 0.0, 9.0),)))
    (seam,) = sections_report.sections_report(lone, None).seams
    assert (seam.order, seam.between, seam.tacks, seam.weld_mm) == (None, (), (), 0.0)
