"""`propose`."""

import json

import ezdxf
import pytest

from holeplacer.plan import plan_file


def test_the_fewest_holes_are_proven(run, bar, tmp_path):
    """A bar of 800 mm needs three holes at 300 mm spacing, and that is said to be proven."""
    report = tmp_path / "r.json"
    status, out, err = run("propose", bar, "--report", report)
    assert (status, err) == (0, "")
    assert "3, proven: no fewer can satisfy the rules" in out
    told = json.loads(report.read_text())
    assert (told["count"], told["lower_bound"], told["proven"]) == (3, 3, True)
    assert told["unsupported"] == told["findings"] == []


def test_a_given_number_of_holes_is_placed(run, bar, tmp_path):
    """With --count so many holes are placed, more than needed too."""
    report = tmp_path / "r.json"
    assert run("propose", bar, "--count", "6", "--report", report)[0] == 0
    assert json.loads(report.read_text())["count"] == 6


def test_too_few_holes_are_findings(run, bar):
    """Fewer holes than the rules need end with 1 and say what is too long."""
    status, out, _ = run("propose", bar, "--count", "2")
    assert status == 1
    assert "Rule broken [spacing]" in out


def test_metal_too_thin_is_unsupported_with_ways_out(run, bar, tmp_path):
    """Where no hole fits, the report says how much, why, and what would cure it."""
    report = tmp_path / "r.json"
    status, out, _ = run("propose", bar, "--height", "12", "--report", report)
    assert status == 1
    assert "Unsupported" in out
    (stretch,) = json.loads(report.read_text())["unsupported"]
    assert stretch["length_mm"] == pytest.approx(160, rel=0.1)
    assert "fatter" in stretch["reason"]
    assert "smaller hole" in stretch["reason"]


def test_limits_given_are_kept(run, bar, tmp_path):
    """A wider spacing needs fewer holes; the plan saved has the limits."""
    plan = tmp_path / "p.holeplan"
    status, out, _ = run(
        "propose", bar, "--spacing", "24in", "--overhang", "10in", "--hole", "1/4", "--save", plan
    )
    assert status == 0
    assert "2, proven" in out
    saved = plan_file.load_plan(plan)
    assert saved.limits.spacing_mm == pytest.approx(609.6)
    assert saved.standoff.hole_mm == pytest.approx(6.35)
    assert len(saved.holes) == 2


def test_fixed_holes_of_a_plan_stay(run, saved_plan, tmp_path):
    """The plan's fixed hole keeps number and place, the others are placed anew."""
    after = tmp_path / "after.holeplan"
    assert run("propose", saved_plan, "--save", after)[0] == 0
    (kept,) = [hole for hole in plan_file.load_plan(after).holes if hole.fixed]
    assert (kept.number, kept.x_mm, kept.y_mm) == (2, 400.0, 30.0)


def test_a_plan_may_be_saved_over_itself_but_nothing_else(run, saved_plan, tmp_path):
    """`--save` onto the plan is saving; `--dxf` onto it is refused."""
    plan = tmp_path / "p.holeplan"
    plan.write_bytes(saved_plan.read_bytes())
    status, _, err = run("propose", plan, "--dxf", plan)
    assert (status, plan.read_bytes()) == (2, saved_plan.read_bytes())
    assert "overwrite" in err
    assert run("propose", plan, "--spacing", "250", "--save", plan)[0] == 0
    assert plan.read_bytes() != saved_plan.read_bytes()


def test_holes_under_the_process_minimum_are_drilled_and_said_to_be(run, bar, tmp_path):
    """A 4 mm hole is no plasma cut: noted, marked in the drawing, and no failure."""
    drawing = tmp_path / "c.dxf"
    status, out, _ = run("propose", bar, "--hole", "4", "--dxf", drawing)
    assert status == 0
    assert "Note [process]" in out
    assert b"AcDbCircle" not in drawing.read_bytes()


def test_old_and_inch_drawings(run, bar, tmp_path):
    """Version and unit of the drawing are as asked for, in any case of letters."""
    drawing = tmp_path / "c.dxf"
    options = ["--dxf-version", "r12", "--dxf-units", "in", "--no-marks"]
    assert run("propose", bar, "--dxf", drawing, *options)[0] == 0
    assert b"Units: inches" in drawing.read_bytes()
    assert b"\r\nTEXT\r\n" not in drawing.read_bytes()


def test_a_hole_layer_of_the_artwork_is_left_alone_and_told(run, tmp_path):
    """Where the artwork has a layer HOLES, ours has another name, and the result says which."""
    document = ezdxf.new("R2000")
    document.units = 4
    document.modelspace().add_lwpolyline(
        [(0, 0), (800, 0), (800, 60), (0, 60)], close=True, dxfattribs={"layer": "Holes"}
    )
    document.saveas(tmp_path / "bar.dxf")
    status, out, _ = run("propose", tmp_path / "bar.dxf", "--dxf", tmp_path / "c.dxf")
    assert status == 0
    assert "holes on layer HOLES-2" in out
    (outline,) = ezdxf.readfile(tmp_path / "c.dxf").modelspace().query("LWPOLYLINE")
    assert outline.dxf.layer == "Holes"


def test_the_hole_that_heat_and_finish_ask_for_is_told(run, bar):
    """Fit, finish and movement of the worst hole, and how many are too small."""
    options = ["--metal", "aluminum", "--finish", "powder"]
    out = run("propose", bar, *options)[1]
    assert "16 ga aluminium, 1.29 mm (0.0508 in), powder 0.075 mm" in out
    assert "7.14 mm normal fit, 0.15 finish" in out
    assert "3 of 3 holes smaller than what they need" in out
    fits = run("propose", bar, *options, "--stud", "6.35", "--hole", "9")[1]
    assert "smaller" not in fits
