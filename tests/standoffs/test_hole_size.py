"""The hole a stud needs."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.standoffs import clearance_hole, hole_size
from holeplacer.standoffs.hole_size import needed_hole


@pytest.mark.parametrize(
    ("stud", "fit", "hole"),
    [
        (6.0, "close", 6.4),
        (6.0, "normal", 6.6),
        (6.0, "loose", 7.0),
        (6.35, "close", 0.266 * 25.4),
        (6.35, "normal", 0.281 * 25.4),
        (9.525, "loose", 0.422 * 25.4),
    ],
)
def test_the_fit_alone(stud, fit, hole):
    """Bare and still, the hole is the standard's for the stud and class."""
    found = needed_hole(stud, fit=fit)
    assert found.round_mm == pytest.approx(hole, abs=6e-4)
    assert found.slot_width_mm == found.round_mm


def test_all_three_parts_add_up():
    """Fit, twice the finish per side, twice the movement."""
    found = needed_hole(6.0, finish_mm=0.08, movement_mm=0.7)
    assert (found.fit_mm, found.finish_mm, found.movement_mm) == (6.6, 0.16, 1.4)
    assert found.round_mm == pytest.approx(8.16)
    assert found.slot_width_mm == pytest.approx(6.76)


def test_an_entered_clearance_takes_the_classs_place():
    """The person's own figure over the stud, and it says so."""
    found = needed_hole(6.35, fit="entered", clearance_mm=0.5)
    assert (found.fit_mm, found.status) == (pytest.approx(6.85), "E")


def test_enough_and_binding_are_two_things():
    """A hole may fall short of the fit and yet let the stud move, or bind."""
    found = needed_hole(6.0, movement_mm=0.4)
    assert found.is_met_by(7.4)
    assert not found.is_met_by(7.3)
    assert not found.binds(6.9)
    assert found.binds(6.7)


def test_a_trade_drill_meets_its_own_table():
    """9/32 in is 7.144 mm and the table's 0.281 in 7.137; the other way round counts as well."""
    assert needed_hole(6.35).is_met_by(9 / 32 * 25.4)
    assert needed_hole(4.826).is_met_by(0.221 * 25.4)


def test_the_source_tells_where_the_figure_stands():
    """Standard and class; a stud between the rows takes the next one's and says which."""
    assert needed_hole(6.0, fit="close").source == "ISO 273, close fit"
    assert needed_hole(6.35, fit="close").status == "M"
    assert needed_hole(6.35).status == "P"
    assert "next thicker stud M6" in needed_hole(5.5).source
    assert needed_hole(40.0).status == "R"


@pytest.mark.parametrize("inch", [False, True])
@pytest.mark.parametrize("hole", [5.613, 6.6, 7.137, 9.5249999, 11.0])
def test_the_next_drill_is_no_smaller(hole, inch):
    """And never more than one step larger."""
    drill = hole_size.drill_mm(hole, inch=inch)
    step = 25.4 / 64 if inch else 0.1
    assert hole - 1e-6 <= drill < hole + step


@settings(max_examples=80, deadline=None)
@given(
    st.floats(2.5, 30),
    st.sampled_from(["close", "normal", "loose"]),
    st.floats(0, 1),
    st.floats(0, 3),
)
def test_more_of_anything_never_needs_less(stud, fit, finish, movement):
    """Finish and movement only enlarge the hole; what it needs always lets the stud through."""
    bare, whole = needed_hole(stud, fit=fit), needed_hole(
        stud, fit=fit, finish_mm=finish, movement_mm=movement
    )  # fmt: skip
    assert stud < bare.round_mm <= whole.slot_width_mm <= whole.round_mm
    assert not whole.binds(whole.round_mm)
    close, loose = (clearance_hole.hole_for_stud(stud, name) for name in ("close", "loose"))
    assert close <= bare.fit_mm <= loose
