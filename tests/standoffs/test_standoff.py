"""Generic standoffs."""

import pytest

from holeplacer.errors import InputError
from holeplacer.plan.plan import StandoffChoice
from holeplacer.standoffs import clearance_hole, standoff


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
    assert vars(row) == vars(default)


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
