"""Combinations of self-weight and wind."""

import pytest

from holeplacer.loads import combination, loading
from holeplacer.loads.combination import combinations, wind_factor
from holeplacer.loads.loading import Loading


@pytest.mark.parametrize(
    ("method", "design_method", "strength", "deflection"),
    [
        ("asce7-16", "asd", 0.6, 0.6),
        ("asce7-22", "lrfd", 1.0, 0.6),
        ("asce7-22", "en", 1.0, 0.6),
        ("en1991-1-4", "en", 1.5, 1.0),
        ("en1991-1-4", "asd", 1.0, 1.0),
        ("en1991-1-4", "lrfd", 1.6, 1.0),
        ("entered", "asd", 1.0, 1.0),
        ("entered", "en", 1.0, 1.0),
    ],
)
def test_wind_factors(method, design_method, strength, deflection):
    """Each standard's wind comes to the level of each design method; an entered one is there."""
    chosen = Loading(method=method, design_method=design_method)
    assert wind_factor(chosen).value == strength
    assert wind_factor(chosen, "deflection").value == deflection


def test_an_entered_factor():
    """It holds for strength, and for deflection where it is less; never for an entered pressure."""
    higher = Loading(method="asce7-16", wind_factor=0.9)
    assert (wind_factor(higher).value, wind_factor(higher).entered) == (0.9, True)
    assert wind_factor(higher, "deflection").value == 0.6
    lower = Loading(method="asce7-16", wind_factor=0.4)
    assert wind_factor(lower, "deflection").value == 0.4
    assert wind_factor(Loading(method="entered", wind_factor=0.9)).value == 1.0
    assert combinations(higher)[1].name == "D + 0.9W"


def test_every_pair_of_methods_combines():
    """No choice of methods is without its combinations; each has source and status."""
    for method in loading.METHODS:
        for design_method in loading.DESIGN_METHODS:
            rows = combinations(Loading(method=method, design_method=design_method))
            assert {row.purpose for row in rows} == {"strength", "deflection"}
            assert all(row.source and row.status for row in rows)
            assert any(row.wind > 0 for row in rows) == (method != "none")


def test_deflection_is_under_the_sheets_own_weight():
    """No factor is on the weight where deflection is compared."""
    for design_method in loading.DESIGN_METHODS:
        rows = combinations(Loading(method="entered", design_method=design_method))
        assert {row.dead for row in rows if row.purpose == "deflection"} == {1.0}


def test_without_wind_only_weight():
    """Nothing is blown where no wind was entered."""
    assert [row.name for row in combinations(Loading())] == ["D", "D"]
    assert [row.name for row in combinations(Loading(design_method="lrfd"))] == ["1.4D", "1.0D"]


def test_an_entered_pressure_combines_as_it_is():
    """Its factor is in it: the names show none."""
    rows = combinations(Loading(method="entered"))
    assert [row.name for row in rows] == ["D", "D + W", "0.6D + W", "D", "D + W"]
    assert "in the entered pressure" in rows[1].source


def test_status_tells_combination_and_wind_apart():
    """0.6W was read, D from memory: both are said."""
    row = combination.combinations(Loading(method="asce7-16"))[1]
    assert row.status == "M (combination); P (wind)"
    assert row.source == "ASCE 7 2.4.1"
