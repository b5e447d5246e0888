"""`check`."""

import json

from holeplacer.plan import edit, plan_file


def test_a_sound_plan_is_fine(run, saved_plan):
    """Three well-placed holes on a bar break no rule."""
    status, out, err = run("check", saved_plan)
    assert (status, err) == (0, "")
    assert "Holes           3" in out
    assert "Rule broken" not in out
    assert "Local code" in out


def test_what_is_broken_is_listed(run, saved_plan, tmp_path):
    """A missing hole leaves stroke unsupported: status 1, with place and way out."""
    plan, report = tmp_path / "p.holeplan", tmp_path / "r.json"
    plan_file.save_plan(edit.without_hole(plan_file.load_plan(saved_plan), 2), plan)
    status, out, _ = run("check", plan, "--report", report)
    assert status == 1
    assert "Rule broken [spacing]" in out
    assert "Way out: " in out
    told = json.loads(report.read_text())
    assert told["unsupported"][0]["reason"]


def test_artwork_is_no_plan(run, bar):
    """Artwork in place of a plan is refused in a sentence."""
    assert run("check", bar)[0] == 2
