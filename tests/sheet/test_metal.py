"""Metals and mass."""

import dataclasses

import pytest

from holeplacer.errors import InputError
from holeplacer.sheet import gauge, metal


def test_mass_of_a_square_metre():
    """One square metre of 2 mm steel is 15.7 kg."""
    assert metal.metal("steel").mass_kg(1e6, 2.0) == pytest.approx(15.7)


def test_every_series_of_gauges_belongs_to_a_metal_of_its_name():
    """The four names that had gauges first still mean metals; no metal's series is unknown."""
    assert set(gauge.all_series()) <= {item.name for item in metal.metals()}
    for item in metal.metals():
        assert item.gauge_series in {"", *gauge.all_series()}
    assert metal.metal("s235").gauge_series == ""


def test_mass_is_not_the_gauges_nominal_weight():
    """By density 16 gauge steel is 2.442 lb/ft2, by its gauge 2.500."""
    lb_ft2 = metal.metal("steel").mass_kg(1e6, gauge.gauge("steel", 16).thickness_mm) * 0.204816
    assert lb_ft2 == pytest.approx(2.442, abs=5e-4)
    assert gauge.gauge("steel", 16).nominal_lb_ft2 == 2.5


@pytest.mark.parametrize("item", metal.metals(), ids=lambda item: item.name)
def test_figures_of_a_row_agree(item):
    """G is E / 2(1 + nu) as near as tables round; strengths rise; each figure is a metal's."""
    assert item.shear_mpa == pytest.approx(item.elastic_mpa / (2 * (1 + item.poisson)), rel=0.01)
    assert 50 < item.yield_mpa < item.ultimate_mpa < 600
    assert 10e-6 < item.expansion_per_k < 25e-6
    assert 2600 < item.density_kg_m3 < 9000
    assert item.source


@pytest.mark.parametrize("item", metal.metals(), ids=lambda item: item.name)
def test_what_is_from_memory_is_named(item):
    """A status with an M names the figures it is about; one without names none."""
    assert set(item.from_memory) <= set(metal.FIGURES)
    assert bool(item.from_memory) == ("M" in item.status)
    if item.status == "M":  # then nothing but the zinc, of which there is none, was read
        assert set(item.from_memory) == set(metal.FIGURES) - {"coating_mm"}


def test_zinc_carries_nothing():
    """Galvanized 16 gauge is 1.613 mm, of which 1.518 mm is steel: the plain gauge's thickness."""
    bearing = metal.metal("galvanized").bearing_thickness_mm(1.613)
    assert bearing == pytest.approx(gauge.gauge("steel", 16).thickness_mm, abs=0.002)
    assert metal.metal("steel").bearing_thickness_mm(1.519) == 1.519
    assert metal.metal("galvanized").bearing_thickness_mm(0.05) == 0.0


@pytest.mark.parametrize(
    ("called", "name"),
    [
        ("aluminum", "aluminium"),
        ("Steel", "steel"),
        ("304", "stainless"),
        ("6061", "aluminium-6061"),
    ],
)
def test_a_metal_goes_by_other_names(called, name):
    """American spelling, alloy numbers and capitals lead to the same row."""
    assert metal.metal(called).name == name


def test_no_name_means_two_metals():
    """Every name leads to one row only."""
    names = [item.name for item in metal.metals()]
    for item in names:
        assert metal.metal(item).name == item
    assert len(set(names)) == len(names)


def test_an_own_metal_is_a_value():
    """With only its figures given, a metal says that they were entered."""
    figures = {figure: getattr(metal.metal("steel"), figure) for figure in metal.FIGURES}
    own = metal.Metal("scrap", "from the yard", "steel", "", **figures)
    assert (own.source, own.status, own.from_memory) == ("entered", "E", ())
    assert dataclasses.replace(own) == own


def test_a_changed_figure_is_entered_and_no_longer_from_memory():
    """The others keep where they come from; G follows E and Poisson's ratio."""
    own = metal.metal("steel").as_own().with_figure("yield_mpa", 310.0)
    assert (own.name, own.yield_mpa, own.status) == ("own steel", 310.0, "M; E (entered)")
    assert "yield_mpa" not in own.from_memory
    assert "elastic_mpa" in own.from_memory
    stiff = own.with_figure("elastic_mpa", 210_000.0)
    assert stiff.shear_mpa == pytest.approx(80_769, abs=1)
    assert not {"elastic_mpa", "shear_mpa"} & set(stiff.from_memory)
    for figure in metal.FIGURES:
        stiff = stiff.with_figure(figure, getattr(stiff, figure))
    assert (stiff.from_memory, stiff.status) == ((), "E")


def test_an_own_metal_keeps_its_name():
    """Only a name of the table has to give way."""
    own = metal.metal("brass").as_own()
    assert own.as_own() is own
    assert own.source.endswith("changed by you")


def test_unknown_metal_is_refused():
    """The refusal lists what there is."""
    with pytest.raises(InputError, match="steel"):
        metal.metal("unobtainium")
