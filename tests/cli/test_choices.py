"""Sheet, hardware and limits from the command line."""

from dataclasses import replace

import click
import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.cli import choices
from holeplacer.cli.quantities import NameOrLength
from holeplacer.errors import InputError
from holeplacer.plan.plan import Plan, SheetChoice
from holeplacer.sheet import metal

PLAN = Plan(ArtworkFile("a.svg", b"<svg/>"))


def test_nothing_given_changes_nothing(given_nothing):
    """A plan's own decisions stay where the command line says nothing."""
    assert choices.chosen(PLAN, given_nothing) == PLAN


def test_limits_reach_the_plan(given_nothing):
    """Each limit given stands in the plan."""
    given = given_nothing | {
        "ligament": 4.0, "edge_distance": 9.0, "spacing": 250.0, "overhang": 80.0,
        "neighbours": 30.0, "cap_overhang": 2.0, "rule_set": "en-1993-1-8", "offset": 1.5,
    }  # fmt: skip
    plan = choices.chosen(PLAN, given)
    limits = plan.limits
    assert (limits.ligament_mm, limits.edge_distance_mm, limits.spacing_mm) == (4.0, 9.0, 250.0)
    assert (limits.overhang_mm, limits.neighbour_mm, limits.cap_overhang_mm) == (80.0, 30.0, 2.0)
    assert (limits.rule_set, plan.offset_mm) == ("en-1993-1-8", 1.5)


def test_a_gauge_is_a_thickness_of_its_metal(given_nothing):
    """The same gauge is another thickness in another metal; an entered thickness has no gauge."""
    aluminium = choices.chosen(PLAN, given_nothing | {"metal": "aluminium"}).sheet
    assert (aluminium.gauge, aluminium.thickness_mm) == (16, pytest.approx(1.29, abs=0.01))
    steel = choices.chosen(PLAN, given_nothing | {"gauge": 14}).sheet
    assert (steel.gauge, steel.thickness_mm) == (14, pytest.approx(1.897))
    entered = choices.chosen(PLAN, given_nothing | {"thickness": 3.0, "process": "laser"}).sheet
    assert (entered.gauge, entered.thickness_mm, entered.process) == (None, 3.0, "laser")


def test_a_metal_without_gauges_asks_for_a_thickness(given_nothing):
    """The default gauge means nothing there; with a thickness all is said."""
    with pytest.raises(InputError, match="s235 has no gauges"):
        choices.chosen(PLAN, given_nothing | {"metal": "s235"})
    sheet = choices.chosen(PLAN, given_nothing | {"metal": "s235", "thickness": 2.0}).sheet
    assert (sheet.metal, sheet.gauge, sheet.thickness_mm) == ("s235", None, 2.0)


def test_a_named_metal_takes_the_place_of_an_own_one(given_nothing):
    """What the plan brought with it goes when the table's is asked for."""
    own = replace(metal.metal("steel"), name="scrap")
    plan = replace(PLAN, sheet=SheetChoice("scrap", None, 1.6, own_metal=own))
    assert choices.chosen(plan, given_nothing).sheet.material is own
    brass = choices.chosen(plan, given_nothing | {"metal": "brass", "gauge": 16}).sheet
    assert (brass.own_metal, brass.thickness_mm) == (None, 1.29)


def test_a_finish_is_a_name_or_a_thickness(given_nothing):
    """A named finish brings its thickness; an entered one is what it is."""
    named = choices.chosen(PLAN, given_nothing | {"finish": NameOrLength("powder", None)}).sheet
    assert (named.finish, named.finish_mm) == ("powder", 0.075)
    entered = choices.chosen(PLAN, given_nothing | {"finish": NameOrLength(None, 0.11)}).sheet
    assert (entered.finish, entered.finish_mm) == ("entered", 0.11)


def test_a_gauge_alone_is_no_thickness(given_nothing):
    """For artwork without a metal it is refused in one sentence with all four meanings."""
    with pytest.raises(InputError) as caught:
        choices.refuse_gauge_alone(given_nothing | {"gauge": 16})
    for meaning in ("1.52 mm in steel", "1.61 mm in galv", "1.59 mm in stain", "1.29 mm in alum"):
        assert meaning in str(caught.value)
    choices.refuse_gauge_alone(given_nothing | {"gauge": 16, "metal": "steel"})
    choices.refuse_gauge_alone(given_nothing)


def test_a_hole_brings_hardware_that_fits_it(given_nothing):
    """With only a hole given, stud and cap follow; given too, they are taken as they are."""
    follows = choices.chosen(PLAN, given_nothing | {"hole": 4.5}).standoff
    assert follows.hole_mm == 4.5
    assert follows.stud_mm < 4.5
    assert follows.cap_mm < PLAN.standoff.cap_mm
    own = choices.chosen(PLAN, given_nothing | {"hole": 4.5, "cap": 20.0, "stud": 4.0}).standoff
    assert (own.name, own.hole_mm, own.cap_mm, own.stud_mm) == ("own", 4.5, 20.0, 4.0)


def test_hardware_by_name(given_nothing):
    """A named standoff brings all its sizes."""
    hardware = choices.chosen(PLAN, given_nothing | {"standoff": "2 in, 3/8 stud"}).standoff
    assert (hardware.stud_mm, hardware.projection_mm) == (9.525, 50.8)


@pytest.mark.parametrize(
    ("given", "kind", "says"),
    [
        ({"gauge": 16, "thickness": 2.0}, click.UsageError, "--gauge and --thickness"),
        ({"gauge": 59}, InputError, "gauge"),
        ({"stud": 12.0}, click.UsageError, "does not pass"),
    ],
)
def test_contradictions_are_refused(given_nothing, given, kind, says):
    """Two thicknesses, a gauge that is not made, a stud too thick for its hole."""
    with pytest.raises(kind, match=says):
        choices.chosen(PLAN, given_nothing | given)
