"""The hole a stud needs, beside the hole it has."""

from dataclasses import replace

import pytest

from holeplacer.evaluation import hole_fit
from holeplacer.units import LengthUnit


@pytest.fixture
def group(standoffs_stage):
    return standoffs_stage.fit


def fits(session):
    return hole_fit.hole_fits(session.plan, session.layout.outline)


def test_the_parts_add_up_before_ones_eyes(group, session, refresh, standoffs_stage):
    """Fit, finish and movement of the worst hole, each with where it comes from."""
    sheet = replace(session.committed.sheet, finish="powder", finish_mm=0.075)
    session.push(replace(session.committed, sheet=sheet), "Finish")
    refresh(standoffs_stage)
    worst, said = hole_fit.worst(fits(session)), group.needs.text()
    assert f"Hole {worst.number} needs {worst.needed.round_mm:.2f} mm" in said
    assert "7.14 mm for the fit" in said
    assert "+ 0.15 mm for the finish, twice 75 µm a side" in said
    assert f"+ {worst.needed.movement_mm:.2f} mm for heat and cold" in said
    assert group._fit_row.note.text() == "ASME B18.2.8, normal fit"
    assert "close 6.76 mm, normal 7.14 mm, loose 7.54 mm" in group.hole.note.text()


def test_another_fit_needs_another_hole(group, session, refresh, standoffs_stage):
    """A close fit is from memory and says so; the hole stays as it is."""
    group.fit.chosen.emit("close")
    refresh(standoffs_stage)
    assert session.plan.standoff.hole_mm == 7.144
    assert "6.76 mm for the fit" in group.needs.text()
    assert "from memory, verify" in group._fit_row.note.text()


def test_an_entered_clearance(group, session, refresh, standoffs_stage):
    """Its field shows only where it counts."""
    assert not group.clearance.entry.isVisible()
    group.fit.chosen.emit("entered")
    refresh(standoffs_stage)
    assert group.clearance.entry.isVisible()
    group.clearance.entry.stepBy(2)
    refresh(standoffs_stage)
    assert "7.35 mm for the fit" in group.needs.text()


def test_the_needed_hole_is_taken(group, session, refresh, standoffs_stage):
    """One act gives the plan the next drill; then nothing is left to do."""
    assert group.take.isVisible()
    said = group.take.text()
    group.take.click()
    assert all(fit.enough for fit in fits(session))
    assert session.plan.standoff.stud_mm == 6.35
    assert said.removeprefix("Make the hole ") == f"{session.plan.standoff.hole_mm:g} mm"
    refresh(standoffs_stage)
    assert not group.take.isVisible()
    assert not group.enlarge.isVisible()
    assert "Every hole is large enough." in group.needs.text()


def test_each_hole_alone_is_enlarged(group, session):
    """Only those that lack room; the plan's hole stays. In inches the drills are 64ths."""
    short = {fit.number for fit in fits(session) if not fit.enough}
    assert f"Enlarge {len(short)} of 5 holes" in group.enlarge.text()
    session.set_unit(LengthUnit.INCH)
    group.enlarge.click()
    assert {hole.number for hole in session.plan.holes if hole.diameter_mm} == short
    assert all(fit.enough for fit in fits(session))
    for hole in session.plan.holes:
        if hole.diameter_mm:
            sixtyfourths = hole.diameter_mm / 25.4 * 64
            assert sixtyfourths == pytest.approx(round(sixtyfourths), abs=1e-4)
    assert session.plan.standoff.hole_mm == 7.144


def test_without_holes_the_fit_alone_is_told(group, session, refresh, standoffs_stage):
    """Movement follows once there are holes."""
    session.push(replace(session.committed, holes=()), "Delete all")
    refresh(standoffs_stage)
    assert "The stud needs 7.14 mm" in group.needs.text()
    assert "once there are holes" in group.needs.text()
