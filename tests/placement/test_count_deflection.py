"""What more or fewer holes give in deflection."""

from dataclasses import replace

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import Cancelled
from holeplacer.evaluation import layout
from holeplacer.loads.loading import Loading
from holeplacer.placement import count_deflection, propose
from holeplacer.plan.plan import Plan

BAR = b"""<svg xmlns="http://www.w3.org/2000/svg" width="600mm" height="40mm"
  viewBox="0 0 600 40"><path d="M0 0 H600 V40 H0 Z"/></svg>"""


@pytest.fixture(scope="module")
def bar():
    plan = Plan(ArtworkFile("bar.svg", BAR))
    plan = replace(plan, loading=Loading(method="entered", pressure_out_pa=1000.0))
    return layout.lay_out(plan)


def test_more_holes_give_way_less(bar):
    """Each figure is that of the proposal for so many holes, and falls with their number."""
    found = count_deflection.count_deflections(bar.plan, bar.outline, bar.axis, (3, 5))
    assert [one.count for one in found] == [3, 5]
    assert found[0].max_deflection_mm > found[1].max_deflection_mm > 0
    made = propose.propose(bar.plan, bar.outline, bar.axis, count=5)
    assert found[1].max_deflection_mm == pytest.approx(made.max_deflection_mm)


def test_without_wind_there_is_nothing_to_say(bar):
    """No wind is ever guessed."""
    calm = replace(bar.plan, loading=Loading())
    assert count_deflection.count_deflections(calm, bar.outline, bar.axis, (3, 4)) == ()


def test_it_can_be_stopped(bar):
    """The person's stop is heard before the next number."""
    with pytest.raises(Cancelled):
        count_deflection.count_deflections(
            bar.plan, bar.outline, bar.axis, (3, 4), cancelled=lambda: True
        )


def test_numbers_too_small_are_left_out(bar):
    """No holes at all is no proposal."""
    told = []
    found = count_deflection.count_deflections(
        bar.plan, bar.outline, bar.axis, (0, 3), progress=lambda share, text: told.append(text)
    )
    assert [one.count for one in found] == [3]
    assert told == ["deflection with 0 holes", "deflection with 3 holes"]
