"""Steps of a reckoning."""

import pytest

from holeplacer.errors import InputError
from holeplacer.loads import step
from holeplacer.loads.step import Step
from holeplacer.units import LengthUnit

BY_TABLE = Step("Kd", 0.85, "", "directionality", "ASCE 7 Table 26.6-1", "P")


def test_the_table_holds_where_nothing_is_entered():
    """The step comes back itself."""
    assert step.chosen(BY_TABLE, None) is BY_TABLE


def test_an_entered_figure_says_so():
    """Value, source and status are the person's; symbol and meaning stay."""
    own = step.chosen(BY_TABLE, 0.9)
    assert (own.value, own.source, own.status, own.entered) == (0.9, "entered", "E", True)
    assert (own.symbol, own.meaning) == ("Kd", "directionality")


def test_an_entered_nought_is_entered():
    """Nothing is taken for not given."""
    assert step.chosen(BY_TABLE, 0.0).entered


def test_what_is_missing_is_asked_for():
    """The sentence names the field and where its figure is found."""
    assert step.asked(3.0, "height", "measure it") == 3.0
    with pytest.raises(InputError, match=r"^height: it is not entered; measure it\.$"):
        step.asked(None, "height", "measure it")


@pytest.mark.parametrize(
    ("value", "unit", "metric", "inch"),
    [
        (1377.9, "Pa", "1.38 kPa", "28.8 psf"),
        (51.4096, "m/s", "51.4 m/s", "115 mph"),
        (4572.0, "mm", "4.57 m", "15.0 ft"),
        (92_903.04, "mm2", "0.093 m²", "1.00 sq ft"),
        (1.25, "kg/m3", "1.25 kg/m³", "0.078 lb/cu ft"),
        (0.669544, "", "0.67", "0.67"),
    ],
)
def test_every_unit_reads_in_both_systems(value, unit, metric, inch):
    """A figure bears its unit in either system."""
    of_unit = Step("x", value, unit, "", "", "P")
    assert step.shown(of_unit) == metric
    assert step.shown(of_unit, LengthUnit.INCH) == inch
