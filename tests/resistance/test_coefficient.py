"""Figures of strength formulas."""

import pytest

from holeplacer import resources
from holeplacer.resistance import coefficient


def test_inch_figures_come_in_mm():
    """3/4 in is 19.05 mm; a figure per inch is divided by 25.4."""
    assert coefficient.value("aisi pull-over", "largest washer") == pytest.approx(19.05)
    slope = coefficient.coefficients("aisi bearing deformation")["slope"]
    assert slope.value == pytest.approx(4.64 / 25.4)
    assert slope.printed == "4.64 1/in"


def test_statuses_are_those_of_the_figures_named():
    """All of a formula, or only those used."""
    assert coefficient.statuses("aisi pull-over", "factor") == ("P",)
    assert set(coefficient.statuses("aisi pull-over")) == {"P", "M"}


def test_every_row_is_one_figure():
    """No formula has two figures of a name, and each is a number with a known unit."""
    rows = resources.table("strength_coefficients")
    formulas = {row["formula"] for row in rows}
    assert sum(len(coefficient.coefficients(formula)) for formula in formulas) == len(rows)


def test_a_figure_that_is_not_there_is_a_fault_of_the_program():
    """A misspelt name does not pass as nought."""
    with pytest.raises(KeyError):
        coefficient.value("aisi pull-over", "nothing")
