"""The Sections stage as a whole."""

from dataclasses import replace

from holeplacer.plan import edit
from holeplacer.plan.seam import Seam


def test_the_rail_says_seams_and_weld(sections_stage, session):
    """Its main figure, and what is open."""
    state = sections_stage.state()
    assert state.figure == "1 seam, weld 40 mm"
    assert state.word == "nothing open"
    near = (*session.committed.seams, Seam(1195.0, 93.0, 1195.0, 107.0))
    session.push(edit.with_seams(session.committed, near), "Too near a tip")
    assert sections_stage.state().word == "1 finding"


def test_without_a_sheet_the_rail_says_so(sections_stage, session):
    """Nothing is claimed."""
    plan = session.committed
    session.push(
        edit.with_seams(edit.with_sections(plan, replace(plan.sections, stock=())), ()), "None"
    )
    assert sections_stage.state().figure == "no sheet at hand yet"


def test_the_process_is_shown_where_it_matters(sections_stage):
    """Chosen on the Sheet stage, its kerf beside it."""
    words = sections_stage._process.text()
    assert words.startswith("Cut by ")
    assert "kerf 1.5 mm" in words


def test_it_fits_the_form(sections_stage):
    """At the width of the form nothing is cut off."""
    assert sections_stage.form.minimumSizeHint().width() <= 306
