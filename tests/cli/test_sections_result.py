"""Lines on sections."""

from dataclasses import replace

import pytest
from shapely.geometry import box

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cli import sections_result
from holeplacer.cli.dividing import Divided
from holeplacer.cutting import division
from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import Feeds, SectionsChoice
from holeplacer.seams import choice
from holeplacer.sheet.stock import Stock

BAR = Outline.from_geometry(box(0, 0, 500, 20))
PLAN = Plan(
    ArtworkFile("bar.svg", b""),
    seams=(Seam(250.0, 0.0, 250.0, 20.0),),
    sections=SectionsChoice(stock=(Stock(300.0, 300.0, False, "300 mm"),)),
)


@pytest.fixture(scope="module")
def parted():
    axis = medial_axis(BAR)
    return Divided(
        division.division(PLAN, BAR),
        choice.choose(PLAN, BAR, axis),
        division.compared(PLAN, BAR, axis),
    )


def test_all_figures_stand_side_by_side(parted):
    """Sections with their proof, sheets, a warning where nobody measured, the usual ways."""
    sections, sheets, warning, *others = sections_result.lines(PLAN, parted)
    assert sections == (
        "Sections        2, proven: no fewer fit the sheets, 1 seam with 20 mm (0.787 in) of weld"
    )
    assert sheets.startswith("Sheets          1, scrap 88.9 %, cut 1.08 m, 2 pierces")
    assert "not measured" in warning
    assert [line.split(":")[0].split()[-1] for line in others] == ["split", "singly"]
    assert "1 section fit no sheet" in others[1]


def test_a_number_that_is_not_proven_is_told_with_its_bound(parted):
    """Never more is claimed."""
    weaker = replace(parted, choice=replace(parted.choice, proven=False, lower_bound=1))
    assert "2 (at least 1 are needed)" in next(sections_result.lines(PLAN, weaker))
    assert "2, 1 seam" in next(sections_result.lines(PLAN, replace(parted, choice=None)))


def test_time_is_told_once_speeds_are_entered():
    """Minutes by the feeds."""
    feeds = Feeds(cut_mm_min=1000.0, pierce_s=1.0)
    plan = replace(PLAN, sections=replace(PLAN.sections, feeds=feeds))
    lines = list(sections_result.lines(plan, Divided(division.division(plan, BAR))))
    assert "about 1 min" in lines[1]


def test_what_is_not_laid_is_said():
    """Seams without a sheet, sections that fit none, and nothing where nothing is divided."""
    bare = replace(PLAN, sections=SectionsChoice())
    (line,) = sections_result.lines(bare, Divided())
    assert "--stock" in line
    assert list(sections_result.lines(replace(bare, seams=()), Divided())) == []
    wide = replace(PLAN, seams=())
    (line,) = sections_result.lines(wide, Divided(division.division(wide, BAR)))
    assert line == "Sections        not laid on sheets, no seam"
