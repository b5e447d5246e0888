"""The cut list as values and as CSV."""

import csv
import io
import math
from dataclasses import replace

import pytest
from shapely.geometry import box

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cutting import sheet_layout
from holeplacer.documents import caution, cut_list
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import Feeds, SectionsChoice
from holeplacer.seams import sections
from holeplacer.sheet.stock import Stock
from holeplacer.units import LengthUnit

PLAN = Plan(
    ArtworkFile("b\x07ar.svg", b""),
    holes=(Hole(1, 20.0, 30.0), Hole(2, 180.0, 30.0, diameter_mm=3.0)),
    seams=(Seam(100.0, 0.0, 100.0, 60.0),),
)
CHOICE = SectionsChoice(stock=(Stock(121.0, 121.0, True),))


def listed(choice=CHOICE):
    outline = Outline.from_geometry(box(0, 0, 200, 60))
    made = sections.sections(outline, PLAN.seams, PLAN.holes)
    return cut_list.cut_list(sheet_layout.sheet_layout(made, choice), PLAN, outline)


def table(data):
    lines = data.decode("utf-8").split("\r\n")
    notes = [line for line in lines if line.startswith("#")]
    return notes, list(csv.DictReader(io.StringIO("\n".join(lines[len(notes) :]))))


def test_every_section_has_a_row_with_what_it_costs():
    """Sheet, size, mass, contours, length, holes cut and drilled, weld, and where it lies."""
    notes, rows = table(cut_list.as_csv(listed()))
    assert [(row["sheet"], row["section"]) for row in rows] == [("1", "1"), ("2", "2")]
    one, two = rows
    assert (one["contours"], one["holes_cut"], one["holes_drilled"]) == ("2", "1", "0")
    assert (two["contours"], two["holes_cut"], two["holes_drilled"]) == ("1", "0", "1")
    assert float(one["cut_mm"]) == pytest.approx(320 + math.pi * 7.144, abs=0.5)
    assert float(one["weld_mm"]) == 60.0
    area = 6000 - math.pi / 4 * 7.144**2
    assert float(one["area_mm2"]) == pytest.approx(area, abs=0.05)
    mass = PLAN.sheet.material.mass_kg(area, PLAN.sheet.thickness_mm)
    assert float(one["mass_kg"]) == pytest.approx(mass, abs=5e-4)
    assert (float(one["x_mm"]), float(one["y_mm"])) == pytest.approx((10.0, 10.0))
    assert any("Sheet 2" in note for note in notes)


def test_the_caution_and_a_printable_name_stand_above():
    """Signs that can't be printed are replaced."""
    notes, _ = table(cut_list.as_csv(listed()))
    assert notes[0] == "# Cut list of b?ar.svg"
    assert notes[-1] == f"# {caution.SHORT}"


def test_a_sheet_nobody_measured_is_told_apart():
    """The nominal size carries a warning, a measured one what it was bought as."""
    sheet = Stock(121.0, 121.0, False)
    assert "NOT MEASURED" in cut_list.size(sheet)
    bought = replace(sheet, measured=True, nominal="5 x 5 in")
    assert cut_list.size(bought).endswith("measured (bought as 5 x 5 in)")


def test_no_time_is_stated_before_speeds_are_entered():
    """Then it is, rounded to minutes and called rough."""
    assert "speeds are not entered" in cut_list.heading(listed())[2]
    fed = replace(CHOICE, feeds=Feeds(cut_mm_min=330.0, pierce_s=20.0))
    assert "about 3 min by the speeds entered" in cut_list.heading(listed(fed))[2]


def test_lengths_are_in_the_unit_asked_for():
    """Inches, feet and pounds where inches are wanted."""
    lines = " ".join(cut_list.heading(listed(), LengthUnit.INCH))
    assert " lb" in lines
    assert " ft" in lines
    assert "mm" not in lines


def test_welds_are_told_in_their_order():
    """Length, sections on either side, tacks by number, preparation; nothing where nothing is."""
    made = listed()
    notes, rows = table(cut_list.as_csv(made))
    assert len(rows) == 2
    assert any("1 seam, 60 mm of weld" in note and "all 3 tacks" in note for note in notes)
    assert any("Weld 1: seam 1 between sections 1 and 2, 60 mm; tacks 1, 2, 3" in n for n in notes)
    assert any("Edges square" in note for note in notes)
    assert cut_list.weld_lines(replace(made, welds=())) == ()
