"""Sheets at hand on the command line."""

import json

import click
import pytest

from holeplacer.cli import dividing
from holeplacer.plan import edit, plan_file
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.sheet.stock import Stock


def chosen(plan, given_nothing, **given):
    return dividing.chosen(plan, given_nothing | given)


@pytest.fixture
def plan(saved_plan):
    return plan_file.load_plan(saved_plan)


@pytest.mark.parametrize(
    ("text", "stock"),
    [
        ("48 x 47 1/8 in", Stock(1219.2, 1196.975, True)),
        ("3 of 1250 x 2500 mm", Stock(1250.0, 2500.0, True, "", 3)),
        ("48 x 48 in nominal", Stock(1219.2, 1219.2, False, "48 x 48 in")),
    ],
)
def test_a_sheet_is_measured_unless_it_is_said_to_be_nominal(text, stock):
    """Sizes with units, counts, and what nobody measured."""
    assert dividing.Sheet().convert(text, None, None) == stock


@pytest.mark.parametrize("text", ["48", "48 x", "a x b in", "0 x 48 in", "0 of 48 x 48 in"])
def test_what_is_no_sheet_is_told_in_one_sentence(run, bar, text):
    """Status 2, and how a size is written."""
    status, out, err = run("propose", bar, "--stock", text)
    assert (status, out) == (2, "")
    assert "--stock" in err
    assert err.count("\n") == 1


def test_what_is_given_takes_the_place_of_the_plans_own(plan, given_nothing):
    """Each figure by itself; what is not given stays."""
    plan = edit.with_sections(plan, SectionsChoice(stock=(Stock(500.0, 500.0, True),)))
    made = chosen(plan, given_nothing, margin=4.0, turning="quarter").sections
    assert (made.margin_mm, made.turning, made.seam_clear_mm) == (4.0, "quarter", 15.0)
    assert made.stock == plan.sections.stock
    made = chosen(plan, given_nothing, stock=(Stock(9.0, 9.0, True),)).sections
    assert [item.width_mm for item in made.stock] == [9.0]
    assert chosen(plan, given_nothing) is plan


def test_a_margin_without_a_sheet_is_meant_for_none(plan, given_nothing):
    """It is asked for; the seams' distance stands by itself, for seams may be drawn by hand."""
    with pytest.raises(click.UsageError, match="--margin goes with --stock"):
        chosen(plan, given_nothing, margin=4.0)
    assert chosen(plan, given_nothing, seam_clear=4.0).sections.seam_clear_mm == 4.0


def test_a_sign_is_divided_and_its_holes_keep_clear(run, bar, tmp_path):
    """Seams are in the plan file and the report, sections on their sheets, no rule broken."""
    plan, report = tmp_path / "p.holeplan", tmp_path / "r.json"
    status, out, err = run(
        "propose", bar, "--stock", "300 x 300 mm", "--margin", "5 mm", "--seam-clear", "20 mm",
        "--save", plan, "--report", report,
    )  # fmt: skip
    assert (status, err) == (0, "")
    assert "Sections        3, proven: no fewer fit the sheets, 2 seams" in out
    assert "Or              straight split: 3 sections, 2 seams" in out
    saved = plan_file.load_plan(plan)
    assert len(saved.seams) == 2
    assert saved.sections.stock == (Stock(300.0, 300.0, True),)
    assert (saved.sections.margin_mm, saved.sections.seam_clear_mm) == (5.0, 20.0)
    told = json.loads(report.read_text())
    assert (len(told["seams"]), len(told["sections"]), len(told["alternatives"])) == (2, 3, 2)
    for seam in told["seams"]:
        x = seam["x1_mm"]
        assert all(abs(hole["x_mm"] - x) >= 20 + 3.572 - 1e-3 for hole in told["holes"])
    assert run("check", plan)[0] == 0


def test_free_seams_give_way_and_fixed_ones_stay(run, saved_plan, tmp_path):
    """Proposing anew keeps only what is fixed, and holes keep clear of it."""
    plan = edit.with_sections(
        plan_file.load_plan(saved_plan), SectionsChoice(stock=(Stock(500.0, 500.0, True),))
    )
    fixed, free = Seam(250.0, 0.0, 250.0, 60.0, True), Seam(601.0, 0.0, 601.0, 60.0)
    source = tmp_path / "p.holeplan"
    plan_file.save_plan(edit.with_seams(plan, (fixed, free)), source)
    assert run("propose", source, "--save", source)[0] == 0
    seams = plan_file.load_plan(source).seams
    assert fixed in seams
    assert free not in seams


def test_a_sign_that_fits_needs_no_seam(run, bar, tmp_path):
    """One section, as it is."""
    report = tmp_path / "r.json"
    status, out, _ = run("propose", bar, "--stock", "48 x 48 in", "--report", report)
    assert status == 0
    assert "Sections        1, proven: no fewer fit the sheets, no seam" in out
    told = json.loads(report.read_text())
    assert (told["seams"], len(told["sections"]), len(told["sheets"])) == ([], 1, 1)


@pytest.mark.parametrize(
    ("options", "reason"),
    [
        (("--stock", "50 x 400 mm"), "wider than the sheet"),
        (("--stock", "300 x 300 mm", "--margin", "150 mm"), "anything left within its margin"),
        (("--stock", "90 x 90 mm", "--seam-clear", "60 mm"), "no room for a seam|no seam has room"),
    ],
)
def test_what_can_not_work_is_one_sentence(run, bar, options, reason):
    """Stroke wider than the sheet, margins that meet, holes that leave no room: status 2."""
    status, out, err = run("propose", bar, *options)
    assert (status, out) == (2, "")
    assert err.count("\n") == 1
    assert any(part in err for part in reason.split("|"))


def test_too_few_sheets_are_a_finding(run, bar, tmp_path):
    """The plan is saved all the same, for a sheet may be found; status 1."""
    plan = tmp_path / "p.holeplan"
    status, out, err = run("propose", bar, "--stock", "1 of 300 x 85 mm", "--save", plan)
    assert (status, err) == (1, "")
    assert "Rule broken [division] Sections can't be laid on sheets" in out
    assert plan.exists()


def test_check_tries_other_sheets(run, saved_plan):
    """A bar that fits none is a finding; the file stays as it is."""
    before = saved_plan.read_bytes()
    status, out, _ = run("check", saved_plan, "--stock", "47 1/8 x 47 1/8 in")
    assert status == 0
    assert "Sheets          1" in out
    status, out, _ = run("check", saved_plan, "--stock", "300 x 300 mm")
    assert status == 1
    assert "Rule broken [seams] Section 1 fits no sheet at hand" in out
    assert saved_plan.read_bytes() == before


def test_check_tries_another_process(run, saved_plan, tmp_path):
    """Its smallest hole is that of the process given."""
    report = tmp_path / "r.json"
    run("check", saved_plan, "--process", "hand", "--report", report)
    assert "hand" in json.loads(report.read_text())["rules"]["process_hole_mm"]["governs"]
