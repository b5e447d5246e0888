"""Design pressure."""

import math
from dataclasses import replace

import pytest

from holeplacer.errors import InputError
from holeplacer.loads.combination import combinations
from holeplacer.loads.loading import DESIGN_METHODS, Asce7Site, En1991Site, Loading
from holeplacer.loads.wind import design_pressure

AREA = 1e5
LOADING = Loading(
    asce7=Asce7Site(basic_speed_m_s=50.0, roof_height_mm=5000.0),
    en1991=En1991Site(basic_speed_m_s=25.0, reference_height_mm=5000.0),
)


def test_none_is_none():
    """Without a method there is no wind, and nothing to show."""
    found = design_pressure(LOADING, effective_area_mm2=AREA)
    assert (found.out_pa, found.in_pa, found.steps, found.conditions) == (0.0, 0.0, (), ())


def test_an_entered_pressure_is_taken_as_it_is():
    """No factor is put on it; on to the wall it is the same unless entered."""
    entered = Loading(method="entered", pressure_out_pa=957.6, wind_factor=0.6)
    for design_method in DESIGN_METHODS:
        found = design_pressure(
            replace(entered, design_method=design_method), effective_area_mm2=AREA
        )
        assert (found.out_pa, found.in_pa, found.factor) == (957.6, 957.6, 1.0)
        assert (found.nominal_out_pa, found.nominal_in_pa) == (957.6, 957.6)
        assert all(s.entered for s in found.steps)
    both = design_pressure(replace(entered, pressure_in_pa=500.0), effective_area_mm2=AREA)
    assert (both.out_pa, both.in_pa) == (957.6, 500.0)
    assert design_pressure(replace(entered, pressure_in_pa=0.0), effective_area_mm2=AREA).in_pa == 0


@pytest.mark.parametrize("method", ["asce7-16", "asce7-22", "en1991-1-4"])
@pytest.mark.parametrize("design_method", DESIGN_METHODS)
def test_design_pressure_is_the_combinations_wind(method, design_method):
    """The factor in `out_pa` is that of every windy strength combination: counted once."""
    loading = replace(LOADING, method=method, design_method=design_method)
    found = design_pressure(loading, effective_area_mm2=AREA)
    for row in combinations(loading):
        if row.purpose == "strength" and row.wind:
            assert found.out_pa == pytest.approx(row.wind * found.nominal_out_pa)
            assert found.in_pa == pytest.approx(row.wind * found.nominal_in_pa)
            assert found.factor == row.wind
    value = {s.symbol: s.value for s in found.steps}
    assert (value["k"], value["w out"], value["w in"]) == (
        found.factor,
        found.out_pa,
        found.in_pa,
    )


def test_an_entered_area_goes_before_the_parts_own():
    """One area for all, if the person says so."""
    large = replace(LOADING, method="asce7-16", effective_area_mm2=5e6)
    own = design_pressure(replace(LOADING, method="asce7-16"), effective_area_mm2=5e6)
    assert design_pressure(large, effective_area_mm2=1.0).out_pa == own.out_pa
    assert own.out_pa < design_pressure(replace(large, effective_area_mm2=None),
                                        effective_area_mm2=AREA).out_pa  # fmt: skip


def test_a_part_without_area_gets_the_coefficients_of_the_smallest():
    """A standoff that carries nothing is no reason to stop."""
    for method in ("asce7-16", "en1991-1-4"):
        loading = replace(LOADING, method=method)
        assert (
            design_pressure(loading, effective_area_mm2=0.0).out_pa
            == design_pressure(loading, effective_area_mm2=AREA).out_pa
        )


@pytest.mark.parametrize(
    ("loading", "said"),
    [
        (Loading(method="entered"), "pressure off the wall: it is not entered"),
        (Loading(method="asce7-22"), "basic wind speed: it is not entered"),
        (Loading(method="en1991-1-4"), "basic wind velocity: it is not entered"),
        (Loading(method="entered", pressure_out_pa=-5.0), "-5 is not possible"),
        (Loading(method="entered", pressure_out_pa=math.nan), "nan is not possible"),
    ],
)
def test_bad_input_is_one_sentence(loading, said):
    """Missing, negative or no number: refused before anything is computed."""
    with pytest.raises(InputError, match=said):
        design_pressure(loading, effective_area_mm2=AREA)


def test_the_gap_reaches_the_conditions():
    """How far the sheet stands off decides whether the rule holds."""
    found = design_pressure(
        replace(LOADING, method="asce7-16"), effective_area_mm2=AREA, gap_mm=1000.0
    )
    assert False in [c.met for c in found.conditions]
