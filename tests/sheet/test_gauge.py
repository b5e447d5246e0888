"""Gauges."""

import pytest

from holeplacer.errors import InputError
from holeplacer.sheet import gauge


def test_number_means_another_thickness_per_metal():
    """Sixteen gauge is four thicknesses in four metals."""
    found = {metal: gauge.gauge(metal, 16).thickness_mm for metal in gauge.metals()}
    assert found == {"steel": 1.519, "galvanized": 1.613, "stainless": 1.588, "aluminium": 1.290}


def test_gauges_run_from_thick_to_thin():
    """A greater number is always a thinner sheet."""
    for metal in gauge.metals():
        rows = gauge.gauges(metal)
        assert [row.number for row in rows] == list(range(7, 27))
        thickness = [row.thickness_mm for row in rows]
        assert thickness == sorted(set(thickness), reverse=True)


def test_millimetres_are_the_printed_inches():
    """Both columns of the table agree within their rounding."""
    for metal in gauge.metals():
        for row in gauge.gauges(metal):
            assert row.thickness_mm == pytest.approx(row.thickness_in * 25.4, abs=0.0006)
            assert row.source
            assert row.status in {"P", "R"}


@pytest.mark.parametrize(("metal", "number"), [("steel", 3), ("steel", 30), ("tin", 16)])
def test_unknown_gauge_is_refused_with_the_choice(metal, number):
    """What is not in the table is an input error that says what is."""
    with pytest.raises(InputError, match="take "):
        gauge.gauge(metal, number)
