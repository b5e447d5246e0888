"""The folder that goes to the table."""

import csv
from dataclasses import replace

import pyogrio
import pytest

from holeplacer.cutting import sheet_layout
from holeplacer.cutting.cut_path import CutWish
from holeplacer.documents import cut_folder
from holeplacer.errors import ExportError
from holeplacer.plan.hole import Hole
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams import sections
from holeplacer.sheet.stock import Stock


def laid_on(layout, *stock):
    made = sections.sections(layout.outline, layout.plan.seams, layout.plan.holes)
    return sheet_layout.sheet_layout(made, SectionsChoice(stock=stock))


def sheet_for(layout):
    """A sheet that takes one piece at a time, as it is in the sign or turned."""
    sizes = [
        (box[2] - box[0], box[3] - box[1]) for box in (p.bounds_mm for p in layout.outline.pieces)
    ]
    return Stock(max(w for w, _ in sizes) + 22, max(h for _, h in sizes) + 22, True)


def test_every_file_is_there_and_read_by_a_second_reader(laid_out, tmp_path):
    """The whole, one drawing per sheet with its closed paths, coupon, slip, list and paper."""
    layout = laid_out(Hole(1, 55.0, -50.0))
    laid = laid_on(layout, sheet_for(layout))
    done = cut_folder.write_cut_folder(layout, laid, tmp_path)
    assert len(laid.sheets) >= 2
    assert [file.name for file in done.files] == list(cut_folder.names(len(laid.sheets)))
    assert all(file.stat().st_size > 0 for file in done.files)
    outer = 0
    for index in range(len(laid.sheets)):
        meta, _, _, fields = pyogrio.raw.read(tmp_path / f"sheet-{index + 1}.dxf")
        outer += list(fields[list(meta["fields"]).index("Layer")]).count("OUTER")
    assert outer == len(laid.sections)
    assert (tmp_path / "cut-list.pdf").read_bytes().startswith(b"%PDF")
    text = (tmp_path / "cut-list.csv").read_text(encoding="utf-8")
    rows = list(csv.DictReader(r for r in text.splitlines() if not r.startswith("#")))
    assert len(rows) == len(laid.sections)


def test_everything_cut_lies_on_its_sheet(laid_out):
    """Pierces and paths stay within the sheet, offset or not."""
    layout = laid_out(Hole(1, 55.0, -50.0))
    stock = Stock(1200.0, 900.0, True)
    laid = laid_on(layout, stock)
    for offset in (False, True):
        path = cut_folder.sheet_path(layout, laid, 0, CutWish(offset=offset))
        for cut in path.cuts:
            points = [*cut.path.xy.tolist(), *([cut.lead.pierce] if cut.lead else [])]
            assert all(0 <= x <= stock.width_mm and 0 <= y <= stock.height_mm for x, y in points)


def test_what_is_protected_is_not_written_over(laid_out, tmp_path):
    """A plan or artwork of such a name stays as it is."""
    layout = laid_out(Hole(1, 55.0, -50.0))
    kept = tmp_path / "whole.dxf"
    kept.write_text("the customer's own")
    laid = laid_on(layout, Stock(1200.0, 900.0, True))
    with pytest.raises(ExportError):
        cut_folder.write_cut_folder(layout, laid, tmp_path, protected=[kept])
    assert kept.read_text() == "the customer's own"


def test_the_wish_reaches_every_drawing(laid_out, tmp_path):
    """Inches and R12 in all of them."""
    layout = laid_out(Hole(1, 55.0, -50.0))
    laid = laid_on(layout, Stock(1200.0, 900.0, True))
    wish = cut_folder.FolderWish(
        style=replace(cut_folder.FolderWish().style, version="R12", units="in"), paper="letter"
    )
    done = cut_folder.write_cut_folder(layout, laid, tmp_path, wish)
    drawings = [file for file in done.files if file.suffix == ".dxf"]
    assert all(b"Units: inches" in file.read_bytes()[:200] for file in drawings)
    assert all(b"AC1009" in file.read_bytes()[:2000] for file in drawings)


def test_sheets_of_an_earlier_run_are_taken_away_and_nothing_else(laid_out, tmp_path):
    """Only what the program wrote under that very number goes; the person's own files stay."""
    layout = laid_out(Hole(1, 55.0, -50.0))
    many = laid_on(layout, sheet_for(layout))
    cut_folder.write_cut_folder(layout, many, tmp_path)
    sheets = len(many.sheets)
    own = tmp_path / f"sheet-{sheets + 1}.dxf"
    own.write_text("999\nthe customer's own\n")
    copied = tmp_path / f"sheet-{sheets + 2}.dxf"
    copied.write_bytes((tmp_path / f"sheet-{sheets}.dxf").read_bytes())
    one = laid_on(layout, Stock(1200.0, 900.0, True))
    done = cut_folder.write_cut_folder(layout, one, tmp_path)
    assert [path.name for path in done.removed] == [f"sheet-{n}.dxf" for n in range(2, sheets + 1)]
    assert (tmp_path / "sheet-1.dxf").exists()
    assert not (tmp_path / "sheet-2.dxf").exists()
    assert own.exists()
    assert copied.exists()
