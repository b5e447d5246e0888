"""The Strength stage in the window."""

import pytest

from holeplacer.gui.stages.loading_rows import changed


def stage_of(bench):
    (stage,) = [stage for stage in bench.stages if stage.NAME == "Strength"]
    return stage


def state(bench):
    return stage_of(bench).state()


def test_it_follows_the_holes(bench):
    """In the order of the job."""
    assert [stage.NAME for stage in bench.stages][:5] == [
        "Outline", "Sheet", "Standoffs", "Holes", "Strength",
    ]  # fmt: skip


def test_the_rail_shows_the_worst_utilisation(blown):
    """With its check; before a wind is chosen, that none is."""
    found = blown.session.evaluation.strength
    known = [one.utilisation for one in found.states if one.utilisation.utilisation is not None]
    worst = max(known, key=lambda item: item.utilisation)
    assert state(blown).figure.startswith(f"{worst.check} {worst.utilisation:.2f}")
    assert state(blown).figure.endswith("not known") == (len(known) < len(found.states))
    assert state(blown).ready
    blown.session.push(changed(blown.session.committed, "method", "none"), "Calm")
    assert state(blown).figure == "no wind chosen"
    assert not state(blown).ready


def test_a_missing_figure_is_open(blown):
    """Not an answer of naught: a finding, and the rail says so."""
    plan = changed(blown.session.committed, "method", "asce7-22")
    blown.session.push(plan, "Standard")
    assert state(blown).figure == "a figure is missing"
    assert state(blown).open_count == 1


def test_findings_of_strength_stand_below(blown, qtbot):
    """The stage's rule is the core's."""
    assert stage_of(blown).RULES == ("strength",)
    plan = changed(blown.session.committed, "pressure_out_pa", 90_000.0)
    blown.session.push(plan, "Gale")
    assert state(blown).open_count > 0
    rules = {finding.rule for finding in blown.findings._model.rows}
    assert rules == {"strength"}


@pytest.mark.parametrize("method", ["none", "entered", "asce7-16", "en1991-1-4"])
def test_every_row_fits_the_form(blown, qtbot, method):
    """Nothing is cut off at 1280 x 800."""
    blown.window.resize(1280, 800)
    plan = changed(blown.session.committed, "method", method)
    plan = changed(plan, "asce7.basic_speed_m_s", 51.4)
    plan = changed(plan, "asce7.roof_height_mm", 6000.0)
    plan = changed(plan, "en1991.basic_speed_m_s", 25.0)
    blown.session.push(changed(plan, "en1991.reference_height_mm", 6000.0), "Method")
    stage = stage_of(blown)
    qtbot.waitUntil(lambda: not stage._timer.isActive())
    assert stage.form.minimumSizeHint().width() <= stage.viewport().width()


def test_propose_goes_to_the_holes_stage(blown):
    """Wherever one is."""
    blown.propose()
    assert blown.stages[blown.rail.currentRow()].NAME == "Holes"
    blown.proposer.stop()
