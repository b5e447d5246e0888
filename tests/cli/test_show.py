"""`show`."""

import json
import subprocess
import sys


def test_the_facts_are_printed(run, bar):
    """Size in both units, pieces, metal, strokes and layers."""
    status, out, err = run("show", bar)
    assert (status, err) == (0, "")
    for words in ("bar.svg", "mm, stated by the file", "800 mm × 60 mm", "31.496 in", "0.0480 m²"):
        assert words in out


def test_a_report_may_be_had(run, bar, tmp_path):
    """The same facts for machines; nothing is proposed, so nothing is proven."""
    path = tmp_path / "r.json"
    status, out, _ = run("show", bar, "--report", path)
    assert status == 0
    told = json.loads(path.read_text())
    assert told["outline"]["bounds_mm"] == [0, 0, 800, 60]
    assert (told["count"], told["proven"]) == (0, None)
    assert str(path) in out


def test_a_plan_is_shown_too(run, saved_plan):
    """A saved plan's artwork has the same facts."""
    status, out, _ = run("show", saved_plan, "--rotate", "90")
    assert status == 0
    assert "60 mm × 800 mm" in out


def test_sheet_and_mass_are_told(run, bar):
    """Metal, gauge and thickness are named where nobody chose them, and both masses."""
    out = run("show", bar)[1]
    assert "16 ga steel, 1.52 mm (0.0598 in), bare" in out
    assert "0.57 kg (1.26 lb) by density, by its gauge 0.59 kg" in out
    assert "balances at x 400.0, y 30.0 mm" in out


def test_a_gauge_without_a_metal_is_refused(run, bar, saved_plan):
    """For artwork; a saved plan has its metal."""
    status, _, err = run("show", bar, "--gauge", "14")
    assert status == 2
    assert "1.63 mm in aluminium" in err
    assert err.count("\n") == 1
    assert "14 ga steel" in run("show", saved_plan, "--gauge", "14")[1]
    assert "14 ga brass, 1.63 mm" in run("show", bar, "--gauge", "14", "--metal", "brass")[1]


def test_the_rules_are_loaded_only_for_a_report(bar, tmp_path):
    """The facts alone need neither the rules nor what words a report."""
    asked = "import sys; from holeplacer.cli import commands; commands.run(sys.argv[1:]); "
    asked += "print([*sys.modules])"
    slow = ("'holeplacer.rules.load_effects'", "'holeplacer.documents.report'")
    for more, loaded in (((), False), (("--report", tmp_path / "r.json"), True)):
        command = [sys.executable, "-c", asked, "show", bar, *more]
        done = subprocess.run(command, capture_output=True, text=True, check=True)
        assert [name in done.stdout for name in slow] == [loaded, loaded]
