"""Changes of a plan."""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import ReadOptions
from holeplacer.errors import InputError
from holeplacer.loads.loading import Loading
from holeplacer.plan import edit
from holeplacer.plan.hole import Boss, Hole
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, SheetChoice, StandoffChoice
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.wall.as_found import AsFound
from holeplacer.wall.wall import Placing, Wall
from holeplacer.wall.zone import Zone


def numbers(plan):
    return [hole.number for hole in plan.holes]


def test_a_new_hole_gets_the_next_number(plan):
    """One more than the greatest; a gap is not filled, for paper may name it."""
    found = edit.with_hole_added(plan, 1, 2, diameter_mm=5.0, fixed=True)
    assert found.holes[-1] == Hole(5, 1.0, 2.0, 5.0, True)
    assert found.holes[:-1] == plan.holes


def test_moving_changes_only_the_place(plan):
    """Number, diameter and pin stay; the other holes are the very same."""
    found = edit.with_hole_moved(plan, 4, 151, 7)
    assert found.holes[2] == Hole(4, 151.0, 7.0, None, True)
    assert found.holes[0] is plan.holes[0]


def test_moving_nowhere_is_no_change(plan):
    """The plan itself comes back, so that undo gets no empty step."""
    assert edit.with_hole_moved(plan, 1, 10, 5) is plan
    assert edit.with_hole_fixed(plan, 4) is plan


def test_deleting_keeps_the_other_numbers(plan):
    """Holes 1 and 4 stay 1 and 4."""
    assert numbers(edit.without_hole(plan, 2)) == [1, 4]


def test_fixing_and_freeing(plan):
    """A pin goes on and off."""
    assert edit.hole_numbered(edit.with_hole_fixed(plan, 1), 1).fixed
    assert not edit.hole_numbered(edit.with_hole_fixed(plan, 4, False), 4).fixed


def test_a_fixed_point_and_none(plan):
    """A hole becomes the one the sheet grows about, keeps that when moved, and loses it."""
    chosen = edit.with_fixed_point(plan, 1)
    assert edit.hole_numbered(edit.with_hole_moved(chosen, 1, 3, 4), 1).fixed_point
    assert edit.hole_numbered(edit.with_hole_numbered(chosen, 1, 9), 9).fixed_point
    assert edit.with_fixed_point(chosen, 1, False) == plan


def test_own_diameter_and_back(plan):
    """A hole can have its own diameter, and lose it."""
    assert edit.hole_numbered(edit.with_hole_diameter(plan, 1, 9.0), 1).diameter_mm == 9.0
    assert edit.hole_numbered(edit.with_hole_diameter(plan, 2, None), 2).diameter_mm is None


def test_renumbering_one_swaps(plan):
    """A number in use is exchanged; a free one is taken."""
    swapped = edit.with_hole_numbered(plan, 1, 2)
    assert edit.hole_numbered(swapped, 2).x_mm == 10.0
    assert edit.hole_numbered(swapped, 1).x_mm == 310.0
    assert numbers(edit.with_hole_numbered(plan, 1, 9)) == [2, 4, 9]


def test_numbers_from_left_to_right(plan):
    """Without an order holes are numbered as one reads."""
    assert [hole.x_mm for hole in edit.renumbered(plan).holes] == [10.0, 150.0, 310.0]
    assert numbers(edit.renumbered(plan)) == [1, 2, 3]


def test_numbers_in_a_given_order(plan):
    """An order names each hole once."""
    assert [hole.x_mm for hole in edit.renumbered(plan, [4, 2, 1]).holes] == [150.0, 310.0, 10.0]
    with pytest.raises(InputError, match="every hole once"):
        edit.renumbered(plan, [4, 2, 2])


def test_a_boss_replaces_one_at_the_same_place(plan):
    """Two bosses never share a centre."""
    larger = Boss(310.0, 6.0, 12.0, 9.0)
    assert edit.with_boss(plan, larger).bosses == (larger,)
    assert len(edit.with_boss(plan, Boss(1.0, 1.0, 9.0, 9.0)).bosses) == 2
    assert edit.without_boss(plan, plan.bosses[0]).bosses == ()


def test_choices_take_their_place(plan):
    """Offset, limits, sheet, standoff, loading and reading are each put in whole."""
    assert edit.with_offset(plan, 1.5).offset_mm == 1.5
    assert edit.with_limits(plan, Limits(spacing_mm=400.0)).limits.spacing_mm == 400.0
    assert edit.with_sheet(plan, SheetChoice(process="laser")).sheet.process == "laser"
    assert edit.with_standoff(plan, StandoffChoice(stud_mm=5.0)).standoff.stud_mm == 5.0
    assert edit.with_loading(plan, Loading(gravity=False)).loading == Loading(gravity=False)
    assert edit.with_reading(plan, ReadOptions(units="in")).reading.units == "in"


def test_holes_ride_along_with_the_lettering(plan):
    """A map of the plane carries holes and bosses; hardware keeps its size."""
    turned = edit.carried(plan, np.array([[0.0, -2.0, 5.0], [2.0, 0.0, 7.0]]))
    assert turned.holes[0] == Hole(1, -5.0, 27.0)
    assert turned.holes[1].diameter_mm == 5.5
    assert turned.bosses == (Boss(-7.0, 627.0, 9.6, 9.6),)


def test_what_the_wall_knows_of_the_sign_rides_along(plan):
    """Level line, datum and places found blocked stay on the lettering; the wall stays."""
    wall = Wall(
        placing=Placing(level_mm=40.0, datum_mm=(10.0, 40.0)),
        zones=(Zone("blocked", "beam", "rectangle", ((0.0, 0.0), (9.0, 9.0))),),
        as_found=(AsFound(1, "steel", 10.0, 5.0),),
    )
    doubled = np.array([[2.0, 0.0, 3.0], [0.0, 2.0, 7.0]])
    found = edit.carried(edit.with_wall(plan, wall), doubled).wall
    assert (found.placing.level_mm, found.placing.datum_mm) == (87.0, (23.0, 87.0))
    assert found.as_found == (AsFound(1, "steel", 23.0, 17.0),)
    assert found.zones == wall.zones


def test_a_hole_is_glued_only_or_fastened(plan):
    """The standoff of one hole loses its fastener and gets it back."""
    glued = edit.with_hole_fastened(plan, 2, False)
    assert [hole.fastened for hole in glued.holes] == [True, False, True]
    assert edit.with_hole_fastened(glued, 2) == plan


@pytest.mark.parametrize(
    "change",
    [
        lambda plan: edit.with_hole_moved(plan, 3, 0, 0),
        lambda plan: edit.without_hole(plan, 3),
        lambda plan: edit.with_hole_numbered(plan, 1, 0),
        lambda plan: edit.with_hole_added(plan, math.nan, 0),
        lambda plan: edit.with_hole_moved(plan, 1, math.inf, 0),
        lambda plan: edit.with_offset(plan, math.nan),
        lambda plan: edit.with_holes(plan, (Hole(1, 0, 0), Hole(1, 5, 5))),
    ],
)
def test_what_makes_no_plan_is_refused(plan, change):
    """A hole that is not there, a number twice, no number: input errors, and no plan."""
    with pytest.raises(InputError):
        change(plan)


@settings(max_examples=40, deadline=None)
@given(st.lists(st.tuples(st.floats(-1e5, 1e5), st.floats(-1e5, 1e5)), max_size=12), st.data())
def test_numbers_stay_unique_through_any_edits(places, data):
    """Whatever is added, deleted and renumbered, numbers are unique and rise."""
    plan = Plan(ArtworkFile("a.svg", b""))
    for x, y in places:
        plan = edit.with_hole_added(plan, x, y)
        if plan.holes and data.draw(st.booleans()):
            one = data.draw(st.sampled_from(numbers(plan)))
            plan = edit.with_hole_numbered(plan, one, data.draw(st.integers(1, 20)))
        if plan.holes and data.draw(st.integers(0, 3)) == 0:
            plan = edit.without_hole(plan, data.draw(st.sampled_from(numbers(plan))))
        assert numbers(plan) == sorted(set(numbers(plan)))


def test_seams_are_added_moved_fixed_and_removed(plan):
    """Each act changes one seam and leaves the others as they are."""
    one, two = Seam(0.0, 0.0, 0.0, 9.0), Seam(5.0, 0.0, 5.0, 9.0)
    both = edit.with_seam_added(edit.with_seam_added(plan, one), two)
    assert both.seams == (one, two)
    other = Seam(1.0, 0.0, 1.0, 9.0)
    assert edit.with_seam_moved(both, 0, other).seams == (other, two)
    assert edit.with_seam_moved(both, 0, one) is both
    assert edit.with_seam_fixed(both, 1).seams == (one, Seam(5.0, 0.0, 5.0, 9.0, True))
    assert edit.without_seam(both, 0).seams == (two,)
    assert edit.with_seams(both, [other]).seams == (other,)


def test_a_seam_that_is_not_there_is_told(plan):
    """The sentence says how many there are."""
    with pytest.raises(InputError, match="no seam 1; the plan has 0"):
        edit.without_seam(plan, 0)


def test_a_seam_has_ends(plan):
    """What is no number is refused."""
    with pytest.raises(InputError, match="seam"):
        edit.with_seam_added(plan, Seam(math.nan, 0.0, 1.0, 1.0))


def test_seams_are_carried_along(plan):
    """They stay where they are on the lettering."""
    turned = np.array([[0.0, -1.0, 10.0], [1.0, 0.0, 0.0]])
    cut = edit.with_seam_added(plan, Seam(1.0, 2.0, 3.0, 4.0, True))
    assert edit.carried(cut, turned).seams == (Seam(8.0, 1.0, 6.0, 3.0, True),)


def test_other_sheets_at_hand(plan):
    """The choice is replaced whole."""
    choice = SectionsChoice(margin_mm=12.0)
    assert edit.with_sections(plan, choice).sections is choice
