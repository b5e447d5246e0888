"""`check`."""

import json

import pytest

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


def test_overload_ends_with_one(run, saved_plan, tmp_path):
    """A wind that is too much is a broken rule; a light one is not; the plan stays as it is."""
    before = saved_plan.read_bytes()
    status, out, _ = run("check", saved_plan, "--pressure", "50 kPa")
    assert status == 1
    assert "[strength]" in out
    told = tmp_path / "report.json"
    run("check", saved_plan, "--pressure", "100 Pa", "--report", told)
    value = json.loads(told.read_text())
    assert not [f for f in value["findings"] if f["rule"] == "strength" and f["broken"]]
    assert value["response"]["cases"][0]["name"] == "pressure out"
    assert saved_plan.read_bytes() == before


def test_strength_is_not_reckoned_without_wind(run, saved_plan):
    """Without a wind the program says so instead of showing figures."""
    _, out, _ = run("check", saved_plan)
    assert "no wind given" in out


@pytest.mark.parametrize("text", ["-1kPa", "20", "1 mm", "lots"])
def test_bad_pressure_is_one_sentence(run, saved_plan, text):
    """Negative, without unit, of another kind: status 2 and one sentence."""
    status, out, err = run("check", saved_plan, "--pressure", text)
    assert (status, out, err.count("\n")) == (2, "", 1)
