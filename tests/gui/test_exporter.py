"""Drawing and list are written by a worker; a failure leaves the old file as it was."""

import ezdxf
import pytest

from holeplacer.errors import ExportError
from holeplacer.gui.exporter import Wanted
from holeplacer.plan import edit


@pytest.fixture
def exporter(opened):
    """The small sign with two holes."""
    left, bottom, right, top = opened.session.layout.outline.pieces[0].bounds_mm
    plan = opened.session.committed
    for share in (0.25, 0.75):
        plan = edit.with_hole_added(plan, left + share * (right - left), (bottom + top) / 2)
    opened.session.push(plan, "Add holes")
    return opened.exporter


def test_drawing_holds_the_holes(exporter, opened, qtbot, tmp_path):
    """The DXF has both holes as circles of the right diameter."""
    path = tmp_path / "sign-holes.dxf"
    with qtbot.waitSignal(exporter.written, timeout=30_000) as told:
        exporter.write_drawing(path)
    assert told.args == [path]
    circles = ezdxf.readfile(path).modelspace().query("CIRCLE")
    assert [circle.dxf.radius for circle in circles] == pytest.approx([3.572, 3.572])


def test_what_is_wanted_is_written(exporter, qtbot, tmp_path):
    """Inches, no numbers, no marks, R12: all as chosen."""
    exporter.wanted = Wanted("R12", "in", numbers=False, centre_marks=False)
    path = tmp_path / "sign-holes.dxf"
    with qtbot.waitSignal(exporter.written, timeout=30_000):
        exporter.write_drawing(path)
    drawing = ezdxf.readfile(path)
    assert drawing.dxfversion == "AC1009"
    assert not drawing.modelspace().query("TEXT MTEXT")
    (first, _second) = drawing.modelspace().query("CIRCLE")
    assert first.dxf.radius == pytest.approx(3.572 / 25.4)


def test_list_has_a_row_per_hole(exporter, qtbot, tmp_path):
    """The CSV names every hole."""
    path = tmp_path / "sign-holes.csv"
    with qtbot.waitSignal(exporter.written, timeout=30_000):
        exporter.write_schedule(path)
    rows = [line for line in path.read_text("utf-8-sig").splitlines() if line[:1].isdigit()]
    assert [row.split(",")[0] for row in rows] == ["1", "2"]


def test_artwork_is_not_overwritten(exporter, qtbot, sign_file):
    """The file the work was made from can't be the target."""
    before = sign_file.read_bytes()
    with qtbot.waitSignal(exporter.failed, timeout=30_000) as told:
        exporter.write_drawing(sign_file)
    assert isinstance(told.args[0], ExportError)
    assert sign_file.read_bytes() == before


def test_name_is_suggested_beside_the_artwork(exporter, sign_file):
    """The suggestion says what it is and where it comes from."""
    assert exporter.suggested(".dxf") == str(sign_file.with_name("sign-holes.dxf"))


def test_nothing_to_write_without_holes(opened):
    """An empty plan is not ready."""
    assert not opened.exporter.ready


def test_the_cut_folder_holds_all_that_goes_to_the_table(divided, qtbot, tmp_path):
    """Whole, sheets, coupon with its slip, cut list; in the version that is wanted."""
    laid = divided.divider.division.layout
    divided.exporter.wanted = Wanted("R12", "mm", kerf_offset=True)
    assert divided.exporter.in_the_way(tmp_path, len(laid.sheets)) == ()
    with qtbot.waitSignal(divided.exporter.written, timeout=60_000):
        divided.exporter.write_cut_folder(tmp_path, laid)
    found = {path.name for path in tmp_path.iterdir()}
    assert {"whole.dxf", "sheet-1.dxf", "coupon.dxf", "cut-list.csv", "cut-list.pdf"} <= found
    assert ezdxf.readfile(tmp_path / "sheet-1.dxf").dxfversion == "AC1009"
    assert "whole.dxf" in divided.exporter.in_the_way(tmp_path, len(laid.sheets))
