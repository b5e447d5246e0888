"""What cutting costs."""

import math

import pytest
from shapely.geometry import Polygon, box

from holeplacer.cutting import cut_figures
from holeplacer.cutting.contours import Part, RoundHole, SeamEdge
from holeplacer.plan.sections import Feeds
from holeplacer.sheet import metal
from holeplacer.sheet.stock import Stock

FRAME = Polygon(box(0, 0, 100, 80).exterior, [box(20, 20, 80, 60).exterior.coords])
PART = Part(
    "1",
    FRAME,
    (RoundHole(10.0, 10.0, 8.0, 1), RoundHole(90.0, 10.0, 3.0, 2)),
    (SeamEdge(1, (100.0, 0.0), (100.0, 80.0)),),
)
METAL = cut_figures.SheetMetal(metal.metal("steel"), 1.5, 4.76)
STOCK = Stock(200.0, 100.0, True)


def test_lengths_pierces_and_holes_are_those_of_the_drawing():
    """Outer 360, counter 200, one hole cut, one drilled, so three pierces."""
    found = cut_figures.of_sheet([PART], STOCK, METAL, Feeds())
    assert found.cut_mm == pytest.approx(360 + 200 + math.pi * 8)
    assert (found.pierces, found.holes_cut, found.holes_drilled) == (3, 1, 1)
    (part,) = found.parts
    assert (part.width_mm, part.height_mm, part.contours, part.weld_mm) == (100, 80, 3, 80)


def test_mass_and_scrap_leave_the_holes_out():
    """The drops of holes weigh nothing in the section."""
    found = cut_figures.of_sheet([PART], STOCK, METAL, Feeds())
    area = 8000 - 2400 - math.pi / 4 * (64 + 9)
    assert found.mass_kg == pytest.approx(area * 1.5e-9 * METAL.metal.density_kg_m3)
    assert found.scrap_share == pytest.approx(1 - area / 20000)


@pytest.mark.parametrize("feeds", [Feeds(), Feeds(cut_mm_min=3000.0), Feeds(pierce_s=0.5)])
def test_no_time_is_stated_until_its_figures_are_entered(feeds):
    """No speed is guessed."""
    assert cut_figures.of_sheet([PART], STOCK, METAL, feeds).minutes is None


def test_time_is_cutting_pierces_and_travel():
    """Each by the figure that was entered for it; travel only if it has one."""
    assert cut_figures.minutes(6000.0, 900.0, 4, Feeds(3000.0, None, 15.0)) == pytest.approx(3.0)
    assert cut_figures.minutes(6000.0, 900.0, 4, Feeds(3000.0, 9000.0, 15.0)) == pytest.approx(3.1)


def test_travel_is_at_least_the_way_between_two_parts():
    """Two plates 500 apart, each one contour, cost that way once."""
    parts = [Part(str(i), box(x, 0, x + 10, 10)) for i, x in enumerate((0, 500))]
    found = cut_figures.of_sheet(parts, STOCK, METAL, Feeds())
    assert found.travel_mm == pytest.approx(500.0)


def test_all_sheets_together_add_up():
    """Lengths, pierces, masses and times are sums; scrap is of the whole area."""
    feeds = Feeds(cut_mm_min=3000.0, pierce_s=0.5)
    one = cut_figures.of_sheet([PART], STOCK, METAL, feeds)
    both = cut_figures.together([one, one])
    assert both.cut_mm == pytest.approx(2 * one.cut_mm)
    assert (both.pierces, both.holes_cut) == (6, 2)
    assert both.minutes == pytest.approx(2 * one.minutes)
    assert both.scrap_share == pytest.approx(one.scrap_share)
    assert (
        cut_figures.together([one, cut_figures.of_sheet([PART], STOCK, METAL, Feeds())]).minutes
        is None
    )
