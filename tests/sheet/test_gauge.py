"""Gauges."""

import pytest

from holeplacer.errors import InputError
from holeplacer.sheet import gauge


def test_number_means_another_thickness_per_series():
    """Sixteen gauge is four thicknesses in four series."""
    found = {series: gauge.gauge(series, 16).thickness_mm for series in gauge.all_series()}
    assert found == {"steel": 1.519, "galvanized": 1.613, "stainless": 1.588, "aluminium": 1.290}


def test_gauges_run_from_thick_to_thin():
    """A greater number is always a thinner sheet."""
    for series in gauge.all_series():
        rows = gauge.gauges(series)
        assert [row.number for row in rows] == list(range(7, 27))
        thickness = [row.thickness_mm for row in rows]
        assert thickness == sorted(set(thickness), reverse=True)


def test_millimetres_are_the_printed_inches():
    """Both columns of the table agree within their rounding."""
    for series in gauge.all_series():
        for row in gauge.gauges(series):
            assert row.thickness_mm == pytest.approx(row.thickness_in * 25.4, abs=0.0006)
            assert row.source
            assert row.status in {"P", "R"}


@pytest.mark.parametrize(("series", "number"), [("steel", 3), ("steel", 30), ("tin", 16)])
def test_unknown_gauge_is_refused_with_the_choice(series, number):
    """What is not in the table is an input error that says what is."""
    with pytest.raises(InputError, match="take "):
        gauge.gauge(series, number)


def test_a_refused_gauge_names_the_metal():
    """Brass goes by aluminium's series, but the sentence speaks of brass."""
    with pytest.raises(InputError, match="no 59 gauge for brass; take 7 to 26"):
        gauge.gauge("aluminium", 59, metal="brass")


def test_a_metal_without_gauges_has_none():
    """Sold by thickness alone: an empty list, and a gauge is refused with what to do."""
    assert gauge.gauges("") == ()
    with pytest.raises(InputError, match="s235 has no gauges; enter its thickness"):
        gauge.gauge("", 16, metal="s235")
