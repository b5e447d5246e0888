"""`found`."""

from holeplacer.plan import plan_file


def test_ways_out_are_listed_with_their_figures(run, saved_plan):
    """Those that keep every rule first; those that don't are told, not hidden."""
    status, out, err = run("found", saved_plan, "2", "steel", "--cut", "--pressure", "300 Pa")
    assert (status, err) == (0, "")
    assert out.index("keeps every rule") < out.index("DOES NOT PASS")
    assert "Hole 2 was found blocked: steel" in out
    assert "largest span     300.0 -> 600.0 mm" in out
    assert "breaks: 300 mm of stroke" in out
    assert "utilisation" in out
    assert "deflection" in out


def test_one_is_taken_into_the_plan(run, saved_plan, tmp_path):
    """The saved plan bears mark, moved hole and revision; loads only tried stay out of it."""
    before, path = saved_plan.read_bytes(), tmp_path / "new.holeplan"
    options = ("--take", "1", "--date", "today", "--pressure", "100 Pa", "--save", path)
    status, out, _ = run("found", saved_plan, "3", "void", *options)
    assert status == 0
    assert "revision 1" in out
    plan = plan_file.load_plan(path)
    assert plan.wall.as_found[0].what == "void"
    assert plan.holes[2].x_mm < 700.0
    assert plan.wall.revisions[0].date == "today"
    assert plan.loading == plan_file.load_plan(saved_plan).loading
    assert saved_plan.read_bytes() == before


def test_what_can_not_be_meant_is_refused(run, saved_plan, tmp_path):
    """No such hole, no such way, a taking without a file: a sentence and status 2."""
    path = tmp_path / "new.holeplan"
    for given in (["9"], ["3", "x", "--take", "9", "--save", path], ["3", "x", "--take", "1"]):
        status, _, err = run("found", saved_plan, *given)
        assert status == 2
        assert err.count("\n") == 1
    assert not path.exists()
