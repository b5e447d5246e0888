"""Studs: material and thread."""

import math

import pytest

from holeplacer.errors import InputError
from holeplacer.standoffs import clearance_hole, stud


def test_every_tabled_stud_has_its_thread():
    """The same studs that have clearance holes have threads, by name and diameter."""
    holes = [(row.stud, row.stud_mm) for row in clearance_hole.clearance_holes()]
    assert [(row.stud, row.stud_mm) for row in stud.threads()] == holes
    for name, diameter in holes:
        assert stud.thread(diameter).stud == name


@pytest.mark.parametrize(
    ("diameter", "area"), [(6.0, 20.1), (8.0, 36.6), (10.0, 58.0), (12.0, 84.3)]
)
def test_stress_areas_of_metric_threads(diameter, area):
    """Stress areas as standards print them (ISO 898-1, from memory)."""
    assert stud.thread(diameter).stress_area_mm2 == pytest.approx(area, abs=0.05)


def test_the_root_of_a_quarter_inch_stud():
    """0.1887 in, the figure that hand calculations use."""
    assert stud.thread(6.35).root_mm / 25.4 == pytest.approx(0.1887, abs=5e-5)


@pytest.mark.parametrize("diameter", [1.0, 5.5, 7.0, 30.0])
def test_an_untabled_stud_takes_the_least_share(diameter):
    """Between and beyond the rows no more is taken to be left than any thread leaves."""
    found = stud.thread(diameter)
    assert found.stud == ""
    for row in stud.threads():
        assert found.root_mm / diameter <= row.root_mm / row.stud_mm + 1e-12
        assert found.stress_area_mm2 / diameter**2 <= row.stress_area_mm2 / row.stud_mm**2 + 1e-12


def test_a_thread_is_less_than_its_stud():
    """Root below nominal diameter; the stress area lies between root's and nominal's."""
    for row in stud.threads():
        assert 0.7 < row.root_mm / row.stud_mm < 0.9
        assert math.pi / 4 * row.root_mm**2 < row.stress_area_mm2 < math.pi / 4 * row.stud_mm**2


@pytest.mark.parametrize("item", stud.stud_materials(), ids=lambda item: item.name)
def test_every_material_is_sound(item):
    """It yields before it breaks, and says where its figures come from."""
    assert 200 <= item.yield_mpa < item.ultimate_mpa <= 800
    assert 60_000 < item.elastic_mpa < 220_000
    assert stud.stud_material(item.name) is item
    assert item.title
    assert item.source


def test_unknown_material_is_refused():
    """The refusal lists what there is."""
    with pytest.raises(InputError, match="stainless"):
        stud.stud_material("oak")
