"""The folder that goes to the table, as `make` writes it."""

import re

import ezdxf
import pytest

from holeplacer.documents import cut_folder


@pytest.fixture
def divided(run, bar, tmp_path):
    """A plan of a bar in three sections."""
    plan = tmp_path / "p.holeplan"
    assert run("propose", bar, "--stock", "300 x 85 mm", "--save", plan)[0] == 0
    return plan


def test_all_that_goes_to_the_table_is_made(run, divided, tmp_path):
    """Whole, a sheet per section, coupon, list and paper; the result says where each lies."""
    cut = tmp_path / "out" / "cut"
    status, out, err = run("make", divided, "--to", tmp_path / "out")
    assert (status, err) == (0, "")
    for name in cut_folder.names(3):
        assert (cut / name).stat().st_size > 100
        assert str(cut / name) in out
    assert (cut / "holes.dxf").exists()


def test_fewer_sheets_take_the_old_ones_away(run, divided, tmp_path):
    """What the program wrote itself, by name and mark; said in the result."""
    cut = tmp_path / "out" / "cut"
    run("make", divided, "--to", tmp_path / "out")
    (cut / "sheet-9.dxf").write_text("mine")
    status, out, _ = run("make", divided, "--to", tmp_path / "out", "--stock", "300 x 300 mm")
    assert status == 0
    assert sorted(path.name for path in cut.glob("sheet-*")) == ["sheet-1.dxf", "sheet-9.dxf"]
    assert re.search(r"left from an earlier run: sheet-2.dxf, sheet-3.dxf", out)


def test_drawings_are_as_wished(run, divided, tmp_path):
    """Version, unit, labels, lead-ins and kerf offset reach the sheets."""
    run(
        "make", divided, "--to", tmp_path / "out", "--dxf-units", "in", "--no-marks",
        "--no-lead-ins", "--kerf-offset", "--paper", "letter",
    )  # fmt: skip
    drawing = ezdxf.readfile(tmp_path / "out" / "cut" / "sheet-1.dxf")
    layers = {entity.dxf.layer for entity in drawing.modelspace()}
    assert drawing.units == ezdxf.units.IN
    assert {"HOLES", "OUTER"} <= layers <= {"HOLES", "OUTER", "COUNTERS"}
    assert b"612" in (tmp_path / "out" / "cut" / "cut-list.pdf").read_bytes()


def test_without_sheets_there_is_no_folder(run, saved_plan, tmp_path):
    """Only what was made before; where sections can't be laid the result says so."""
    status, out, _ = run("make", saved_plan, "--to", tmp_path / "out")
    assert status == 0
    assert not (tmp_path / "out" / "cut" / "whole.dxf").exists()
    status, out, _ = run("make", saved_plan, "--to", tmp_path / "out", "--stock", "300 x 300 mm")
    assert status == 1
    assert "no sheets drawn" in out
    assert not (tmp_path / "out" / "cut" / "whole.dxf").exists()
