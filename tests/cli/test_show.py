"""`show`."""

import json


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
