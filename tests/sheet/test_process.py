"""Cutting processes."""

import itertools

import pytest

from holeplacer.errors import InputError
from holeplacer.sheet import process


def test_plasma_on_thin_sheet_is_ruled_by_the_smallest_hole():
    """Three sixteenths of an inch is more than 1.5 t and three kerfs on 16 gauge."""
    assert process.process("plasma").least_hole_mm(1.519) == pytest.approx(4.76)


def test_plasma_on_thick_sheet_is_ruled_by_thickness():
    """On 6 mm sheet 1.5 t is more than three kerfs."""
    assert process.process("plasma").least_hole_mm(6.0) == pytest.approx(9.0)


def test_plasma_ligament():
    """Two millimetres on thin sheet, 1.5 t on thick."""
    plasma = process.process("plasma")
    assert plasma.least_ligament_mm(0.9) == 2.0
    assert plasma.least_ligament_mm(3.0) == 4.5


def test_kerf_lies_between_its_points_and_stays_beyond_them():
    """Linear between the table's points, constant outside."""
    plasma = process.process("plasma")
    assert plasma.kerf_mm(1.5) == pytest.approx(1.5)
    assert plasma.kerf_mm(2.25) == pytest.approx(1.65)
    assert plasma.kerf_mm(0.1) == plasma.kerf_mm(0.6)
    assert plasma.kerf_mm(20.0) == plasma.kerf_mm(6.0)


def test_by_hand_all_holes_are_drilled():
    """No diameter is cut by hand."""
    assert process.process("hand").least_hole_mm(1.5) is None


def test_every_process_grows_with_thickness():
    """Thicker sheet never allows a smaller hole, ligament or kerf; each row has its source."""
    for item in process.processes():
        for thin, thick in itertools.pairwise((0.5, 1.0, 2.0, 4.0, 8.0)):
            assert (item.least_hole_mm(thin) or 0) <= (item.least_hole_mm(thick) or 0)
            assert item.least_ligament_mm(thin) <= item.least_ligament_mm(thick)
            assert item.kerf_mm(thin) <= item.kerf_mm(thick)
        assert item.source
        assert item.status
        assert item.title


def test_unknown_process_is_refused():
    """The refusal lists what there is."""
    with pytest.raises(InputError, match="plasma"):
        process.process("wishing")


def test_a_pierce_keeps_clear_of_what_stays():
    """One and a half kerfs, at least 2 mm by plasma; more than half the kerf by any process."""
    assert process.process("plasma").pierce_clearance_mm(0.6) == pytest.approx(2.0)
    assert process.process("plasma").pierce_clearance_mm(6.0) == pytest.approx(3.3)
    for item in process.processes():
        assert item.pierce_clearance_mm(3.0) >= item.kerf_mm(3.0) / 2


def test_tolerance_class_is_that_of_thermal_cutting():
    """Plasma class 2, laser class 1; other processes are outside that standard."""
    classes = {item.name: item.tolerance_class for item in process.processes()}
    assert classes == {"plasma": 2, "laser": 1, "waterjet": None, "router": None, "hand": None}
