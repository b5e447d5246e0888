"""The report's strength."""

from dataclasses import replace

import pytest

from holeplacer.documents import strength_report
from holeplacer.evaluation import evaluate
from holeplacer.loads.loading import Loading
from holeplacer.plan.hole import Hole

HOLES = (Hole(1, 20.0, -50.0), Hole(2, 55.0, -20.0), Hole(3, 90.0, -50.0))


@pytest.fixture
def windy(laid_out):
    layout = laid_out(*HOLES)
    plan = replace(layout.plan, loading=Loading("entered", pressure_out_pa=1000.0))
    return plan, evaluate.evaluate(plan, layout.outline, layout.axis).strength


def test_loads_without_wind(laid_out):
    """Without a wind no pressure is named."""
    told = strength_report.loads_report(laid_out().plan, None)
    assert (told.method, told.pressure_out_pa, told.steps) == ("none", None, ())


def test_loads_with_wind(windy):
    """The pressure, both ways, with every step to it and what must hold."""
    told = strength_report.loads_report(*windy)
    assert (told.pressure_out_pa, told.pressure_in_pa) == (1000.0, 1000.0)
    assert [step.symbol for step in told.steps] == ["w out", "w in"]
    assert told.conditions


def test_cases_balance(windy):
    """`pressure out` is the plain pressure: one reaction per hole, together the load."""
    told = strength_report.response_report(windy[1])
    case = told.cases[0]
    assert case.name == "pressure out"
    assert len(case.reactions_n) == len(HOLES)
    assert sum(case.reactions_n) == pytest.approx(case.total_load_n, rel=1e-9)
    assert told.max_deflection_mm == max(each.max_deflection_mm for each in told.cases)


def test_utilisation_names_its_source(windy):
    """Every limit state has its check, hole, share and source; memory is said."""
    told = strength_report.response_report(windy[1]).utilisation
    assert {item.hole for item in told} >= {None, 1, 2, 3}
    assert all(item.source and item.check for item in told)
    assert {item.status for item in told} <= {"", "from memory, verify"}
    for item in told:
        if item.resistance:
            assert item.value == pytest.approx(item.demand / item.resistance)
