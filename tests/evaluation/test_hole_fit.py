"""Holes of a plan against the holes their studs need."""

from dataclasses import replace

import pytest
import shapely

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.evaluation import hole_fit
from holeplacer.loads.loading import Loading, Temperature
from holeplacer.outline.outline import Outline
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan, SheetChoice, StandoffChoice

OUTLINE = Outline.from_geometry(
    shapely.MultiPolygon([shapely.box(0, 0, 3000, 40), shapely.box(0, 100, 200, 140)])
)
PLAN = Plan(
    ArtworkFile("a.svg", b""),
    sheet=SheetChoice("aluminium-6061", 11, 2.305),
    holes=(
        Hole(1, 100.0, 20.0), Hole(3, 1450.0, 20.0), Hole(4, 2900.0, 20.0),
        Hole(5, 60.0, 120.0), Hole(6, 9000.0, 9000.0),
    ),
    loading=Loading(temperature=Temperature(-10.0, 50.0, 20.0)),
)  # fmt: skip


def test_holes_move_about_the_one_nearest_the_middle():
    """Each piece about its own; a hole in no metal about none."""
    found = hole_fit.hole_fits(PLAN, OUTLINE)
    assert [item.about for item in found] == [3, 3, 3, 5, None]
    assert found[0].movement.out_mm == pytest.approx(1350 * 23.6e-6 * 30)
    assert found[1].needed.round_mm == pytest.approx(7.137)


def test_a_far_hole_needs_more_room_and_binds():
    """0.96 mm either way is more than a 9/32 in hole leaves a 1/4 in stud."""
    far = hole_fit.hole_fits(PLAN, OUTLINE)[0]
    assert not far.enough
    assert far.binds
    assert far.needed.round_mm == pytest.approx(7.137 + 2 * 0.9558, abs=1e-3)
    assert hole_fit.worst(hole_fit.hole_fits(PLAN, OUTLINE)).number == 4


def test_finish_fit_and_fixed_point_come_from_the_plan():
    """Powder, a loose fit and another fixed point each change what is needed."""
    plan = replace(
        PLAN,
        sheet=replace(PLAN.sheet, finish="powder", finish_mm=0.075),
        standoff=StandoffChoice(fit="loose"),
        holes=(replace(PLAN.holes[0], fixed_point=True), *PLAN.holes[1:]),
    )
    found = hole_fit.hole_fits(plan, OUTLINE)
    assert [item.about for item in found] == [1, 1, 1, 5, None]
    assert found[0].needed.round_mm == pytest.approx(7.544 + 0.15)
    assert found[2].movement.distance_mm == pytest.approx(2800)


def test_a_hole_of_its_own_diameter_is_held_to_the_stud_it_takes():
    """A smaller hole takes a thinner stud and needs less."""
    plan = replace(PLAN, holes=(Hole(1, 1500.0, 20.0, 5.5),))
    (found,) = hole_fit.hole_fits(plan, OUTLINE)
    assert (found.needed.stud_mm, found.given_mm) == (5.0, 5.5)
    assert found.enough


def test_enlarged_holes_are_enough():
    """Each hole that was short gets the next drill of its own, the others stay the plan's."""
    for inch in (False, True):
        plan = hole_fit.enlarged(PLAN, hole_fit.hole_fits(PLAN, OUTLINE), inch=inch)
        assert all(item.enough for item in hole_fit.hole_fits(plan, OUTLINE))
        assert [hole.diameter_mm is None for hole in plan.holes] == [False, True, False, True, True]
    one_less = replace(PLAN, holes=PLAN.holes[1:])
    assert hole_fit.enlarged(one_less, hole_fit.hole_fits(PLAN, OUTLINE)).holes[0].number == 3


def test_no_holes_have_no_worst():
    """Nothing to fit yet."""
    assert hole_fit.hole_fits(replace(PLAN, holes=()), OUTLINE) == ()
    assert hole_fit.worst(()) is None
