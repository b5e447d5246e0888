"""The report's parts on sheet and standoffs."""

from dataclasses import replace

import msgspec
import pytest

from holeplacer.documents import hardware_report
from holeplacer.evaluation import hole_fit, sign_mass
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import SheetChoice


@pytest.fixture
def layout(laid_out):
    found = laid_out(Hole(1, 55.0, -50.0), Hole(2, 255.0, -50.0), Hole(3, -55.0, -50.0))
    sheet = SheetChoice("galvanized", 14, 1.994, finish="powder", finish_mm=0.075)
    return replace(found, plan=replace(found.plan, sheet=sheet))


def told(value):
    return msgspec.json.decode(msgspec.json.encode(value))


def test_the_sheets_form_is_fixed(layout):
    """The keys are what other programs rely on."""
    value = told(hardware_report.sheet_report(layout.plan, layout.outline))
    assert set(value) == {
        "metal", "gauge", "thickness_mm", "finish", "finish_mm", "area_mm2", "mass_kg",
        "finish_kg", "nominal_kg", "centre_of_gravity_mm", "pieces",
    }  # fmt: skip
    assert set(value["metal"]) == {
        "name", "alloy", "density_kg_m3", "elastic_mpa", "shear_mpa", "poisson",
        "expansion_per_k", "yield_mpa", "ultimate_mpa", "source", "status", "from_memory",
    }  # fmt: skip
    assert "yield_mpa" in value["metal"]["from_memory"]


def test_its_masses_are_the_signs(layout):
    """Whole, finish, gauge's own, pieces: as reckoned; holes are out of the area."""
    value = told(hardware_report.sheet_report(layout.plan, layout.outline))
    mass = sign_mass.sign_mass(layout.plan, layout.outline)
    assert value["mass_kg"] == pytest.approx(mass.mass_kg)
    assert value["finish_kg"] == pytest.approx(mass.finish_kg)
    assert value["nominal_kg"] == pytest.approx(mass.nominal_kg)
    assert value["area_mm2"] < layout.outline.area_mm2
    assert sum(piece["mass_kg"] for piece in value["pieces"]) == pytest.approx(value["mass_kg"])


def test_the_standoffs_form_is_fixed(layout):
    """The keys are what other programs rely on."""
    value = told(hardware_report.standoff_report(layout.plan, layout.outline))
    assert set(value) == {
        "name", "stud_mm", "hole_mm", "barrel_mm", "cap_mm", "washer_mm", "washer_behind_mm",
        "bearing_mm", "projection_mm", "head", "stud_material", "fit", "temperatures_c", "needed",
        "holes",
    }  # fmt: skip
    assert set(value["holes"][0]) == {
        "number", "given_mm", "needed", "enough", "binds", "about", "out_mm", "in_mm",
        "slot_width_mm", "slot_length_mm", "slot_direction_deg",
    }  # fmt: skip
    assert set(value["needed"]) == {
        "diameter_mm", "fit_mm", "finish_mm", "movement_mm", "source", "status",
    }  # fmt: skip
    assert value["temperatures_c"] == [-20.0, 20.0, 60.0]


def test_its_holes_are_the_plans(layout):
    """What each needs is what the fit says; parts add up; directions are degrees."""
    value = told(hardware_report.standoff_report(layout.plan, layout.outline))
    fits = hole_fit.hole_fits(layout.plan, layout.outline)
    assert [hole["number"] for hole in value["holes"]] == [1, 2, 3]
    for hole, fit in zip(value["holes"], fits, strict=True):
        needed = hole["needed"]
        parts = needed["fit_mm"] + needed["finish_mm"] + needed["movement_mm"]
        assert needed["diameter_mm"] == pytest.approx(parts)
        assert needed["diameter_mm"] == pytest.approx(fit.needed.round_mm)
        assert (hole["enough"], hole["about"]) == (fit.enough, fit.about)
    far = value["holes"][2]
    assert far["slot_direction_deg"] == pytest.approx(180.0)
    assert far["slot_length_mm"] - far["slot_width_mm"] == pytest.approx(2 * 110 * 11.7e-6 * 40)
