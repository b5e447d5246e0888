"""The coupon."""

import itertools
from dataclasses import replace

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import Point, Polygon, box

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cutting import coupon
from holeplacer.errors import InputError
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan, StandoffChoice
from holeplacer.plan.sections import CouponChoice

PLAN = Plan(ArtworkFile("bar.svg", b""))


def areas(made):
    return [
        coupon.slot_area(t) if t.is_slot else Point(t.x_mm, t.y_mm).buffer(t.diameter_mm / 2)
        for t in made.trials
    ]


@settings(max_examples=40, deadline=None)
@given(st.floats(4.0, 20.0), st.floats(0.5, 40.0), st.integers(1, 4), st.floats(0.05, 0.5))
def test_nothing_on_the_plate_is_nearer_than_the_web(hole, ligament, steps, step):
    """All openings lie inside, apart by the allowed ligament; only the last is as near as asked."""
    plan = replace(PLAN, standoff=replace(PLAN.standoff, hole_mm=hole))
    made = coupon.coupon(plan, ligament, steps=steps, step_mm=step)
    plate = box(0, 0, made.width_mm, made.height_mm)
    openings = areas(made)
    for one, two in itertools.combinations(openings, 2):
        assert one.distance(two) >= plan.limits.ligament_mm - 1e-6
    for opening in openings[:-1]:
        assert plate.contains(opening)
        assert opening.distance(plate.boundary) >= plan.limits.ligament_mm - 1e-6
    right = shapely.LineString([(made.width_mm, 0), (made.width_mm, made.height_mm)])
    assert openings[-1].distance(right) == pytest.approx(ligament, abs=1e-6)


def test_diameters_rise_in_steps_around_the_planned_one():
    """Five holes by default, the planned one in the middle with the cap's ring round it."""
    made = coupon.coupon(PLAN, 5.0)
    diameters = [trial.diameter_mm for trial in made.holes]
    assert np.allclose(np.diff(diameters), coupon.STEP_MM)
    assert diameters[2] == PLAN.standoff.hole_mm
    assert [trial.bearing_mm for trial in made.holes] == [0, 0, PLAN.standoff.pressed_mm, 0, 0]
    assert [trial.label for trial in made.trials[-2:]] == ["SLOT", "EDGE"]


def test_labels_lie_below_their_hole_and_within_the_plate():
    """No label runs into an opening or off the plate."""
    made = coupon.coupon(PLAN, 5.0)
    for trial in made.trials:
        half = 1.7 * coupon.LABEL_MM
        text = box(
            trial.x_mm - half,
            trial.label_y_mm,
            trial.x_mm + half,
            trial.label_y_mm + coupon.LABEL_MM,
        )
        assert trial.label_y_mm >= 0
        assert not any(text.intersects(area) for area in areas(made))


def test_an_entered_size_is_kept_or_refused():
    """As wide as entered, the ligament at its edge kept; too small says how large it must be."""
    free = coupon.coupon(PLAN, 5.0)
    made = coupon.coupon(PLAN, 5.0, width_mm=300.0, height_mm=120.0)
    assert (made.width_mm, made.height_mm) == (300.0, 120.0)
    assert made.width_mm - made.trials[-1].x_mm - PLAN.standoff.hole_mm / 2 == pytest.approx(5.0)
    narrow = coupon.coupon(PLAN, 5.0, width_mm=free.width_mm / 3)
    assert narrow.height_mm > free.height_mm
    with pytest.raises(InputError, match=r"make it .* or larger"):
        coupon.coupon(PLAN, 5.0, width_mm=30.0, height_mm=30.0)


def test_steps_that_leave_no_hole_are_refused():
    """A hole of nothing can't be cut."""
    with pytest.raises(InputError, match="don't fit below a hole"):
        coupon.coupon(PLAN, 5.0, step_mm=4.0)


def test_steps_too_fine_for_their_labels_are_refused():
    """Two holes with one label could not be told apart on the slip."""
    with pytest.raises(InputError, match="can't be told apart"):
        coupon.coupon(PLAN, 5.0, step_mm=0.004)


def test_the_part_is_the_plate_with_all_its_openings():
    """The slot is a counter, the others are holes in the same order."""
    part = coupon.coupon(PLAN, 5.0).part()
    assert len(part.polygon.interiors) == 1
    assert len(part.holes) == 6
    assert part.polygon.is_valid


def test_it_fits_a_counter_with_room_all_round():
    """It lies in the largest counter that takes it, clear of its edge; else there is none."""
    counter = Polygon([(60, 60), (460, 60), (400, 240), (80, 200)])
    small = box(520, 60, 560, 100)
    outline = Outline.from_geometry(
        Polygon(box(0, 0, 600, 300).exterior, [counter.exterior.coords, small.exterior.coords])
    )
    found = coupon.in_drop(PLAN, outline, 5.0, 6.0)
    plate = box(
        found.x_mm,
        found.y_mm,
        found.x_mm + found.coupon.width_mm,
        found.y_mm + found.coupon.height_mm,
    )
    assert counter.contains(plate)
    assert plate.distance(counter.exterior) >= 6.0 - 1e-6
    assert coupon.in_drop(PLAN, Outline.from_geometry(box(0, 0, 90, 90)), 5.0, 6.0) is None


def test_the_least_ligament_planned_is_found():
    """Of two holes the nearer counts; one that breaks out does not; none takes the limit."""
    outline = Outline.from_geometry(box(0, 0, 200, 60))
    plan = replace(PLAN, holes=(Hole(1, 50, 30), Hole(2, 100, 10), Hole(3, 150, 1)))
    assert coupon.least_ligament(plan, outline) == pytest.approx(10 - PLAN.standoff.hole_mm / 2)
    assert coupon.least_ligament(PLAN, outline) == PLAN.limits.ligament_mm


def test_the_diameter_that_fitted_goes_into_the_plan():
    """By its label; the hardware stays; an unknown label is named."""
    made = coupon.coupon(PLAN, 5.0)
    after = coupon.chosen(PLAN, made, " 7.34 ")
    assert after.standoff.hole_mm == pytest.approx(PLAN.standoff.hole_mm + 0.2)
    assert replace(after.standoff, hole_mm=PLAN.standoff.hole_mm) == StandoffChoice()
    with pytest.raises(InputError, match=r"'SLOT'; take one of 6.74"):
        coupon.chosen(PLAN, made, "SLOT")


def test_the_slip_asks_for_everything_tried():
    """Every diameter, the cap, the slot, the ligament, and how it was cut."""
    made = coupon.coupon(PLAN, 4.25)
    text = "\n".join(coupon.slip(PLAN, made))
    assert all(trial.label in text for trial in made.holes)
    assert all(word in text for word in ("cap", "slot", "4.25 mm", "plasma", "1.519 mm"))


def test_the_coupon_is_as_the_plan_wants_it():
    """Steps, and a size at hand, come from the plan; the ligament from its holes."""
    choice = replace(PLAN.sections, coupon=CouponChoice(0.3, 1, width_mm=150.0))
    plan = replace(PLAN, sections=choice, holes=(Hole(1, 50.0, 15.0),))
    made = coupon.planned(plan, Outline.from_geometry(box(0, 0, 100, 30)))
    assert [trial.label for trial in made.holes] == ["6.84", "7.14", "7.44"]
    assert made.width_mm == 150.0
    assert made.ligament_mm == pytest.approx(15.0 - plan.standoff.hole_mm / 2)
