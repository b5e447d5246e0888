"""Generic standoffs."""

from dataclasses import replace

import pytest

from holeplacer.errors import InputError
from holeplacer.plan.plan import StandoffChoice
from holeplacer.standoffs import clearance_hole, head, standoff, stud


def test_every_size_is_sound():
    """The stud passes its hole closely, and barrel and cap cover the hole."""
    for item in standoff.standoffs():
        assert item.stud_mm < item.hole_mm < item.barrel_mm
        assert item.hole_mm < item.cap_mm
        assert item.stud_mm <= clearance_hole.stud_for_hole(item.hole_mm) <= item.stud_mm * 1.07


def test_the_plans_default_is_a_row():
    """A new plan starts with a size of the table, figure by figure."""
    default = StandoffChoice()
    row = standoff.standoff(default.name)
    assert StandoffChoice.of(row) == default


def test_hardware_follows_a_hole():
    """Of a hole alone the stud is the one it passes; cap and barrel keep their proportion."""
    found = standoff.standoff_for_hole(5.5, 30.0)
    assert (found.name, found.stud_mm, found.hole_mm) == ("own", 5.0, 5.5)
    assert found.cap_mm == pytest.approx(10.0)
    assert found.projection_mm == 30.0


def test_unknown_standoff_is_refused():
    """The refusal lists what there is."""
    with pytest.raises(InputError, match="1 in, 1/4 stud"):
        standoff.standoff("a nail")


def test_what_presses_on_the_sheet():
    """In front the entered diameter, else washer or cap; behind, washer or barrel."""
    bare = standoff.standoff("25 mm, M6 stud")
    assert (bare.pressed_mm, bare.backed_mm) == (bare.cap_mm, bare.barrel_mm)
    washers = replace(bare, washer_mm=18.0, washer_behind_mm=20.0)
    assert (washers.pressed_mm, washers.backed_mm) == (18.0, 20.0)
    assert replace(washers, bearing_mm=11.0).pressed_mm == 11.0


def test_every_row_names_a_head_and_a_material_there_are():
    """The table's hardware refers to other tables' rows."""
    for item in standoff.standoffs():
        assert head.head(item.head)
        assert stud.stud_material(item.stud_material)
