"""Sections on sheets."""

from dataclasses import replace

import pytest
from shapely.geometry import LineString, Polygon, box

from holeplacer.cutting import hand_layout, sheet_layout
from holeplacer.errors import Cancelled, InputError
from holeplacer.plan.sections import SectionsChoice
from holeplacer.seams.sections import Section
from holeplacer.sheet.stock import Stock

SQUARE = Stock(300.0, 300.0, True)
CHOICE = SectionsChoice(stock=(SQUARE,), margin_mm=10.0, apart_mm=8.0)


def section(number, polygon):
    return Section(number, polygon, 0, (), (), polygon.area)


def sections(*polygons):
    return [section(number, polygon) for number, polygon in enumerate(polygons, start=1)]


def curl(x, size):
    way = [(x, 0), (x + size, size / 3), (x + size / 4, size), (x + size / 2, size / 2)]
    return LineString(way).buffer(9)


def test_every_section_lies_on_a_sheet_and_collides_with_nothing():
    """Curls of several sizes are laid within the margins, no nearer than asked for."""
    made = sections(*(curl(200 * index, 60 + 25 * index) for index in range(7)))
    layout = sheet_layout.sheet_layout(made, CHOICE)
    assert [placed.section for placed in layout.placed] == list(range(1, 8))
    assert hand_layout.collisions(layout) == ()
    for index, sheet in enumerate(layout.sheets):
        usable = box(10, 10, 290, 290).buffer(1e-4)
        on = [p.of(layout.section(p.section).polygon) for p in layout.on_sheet(index)]
        assert all(usable.covers(area) for area in on)
        assert sheet.scrap_share == pytest.approx(1 - sum(a.area for a in on) / 90000)


def test_fewest_sheets_are_used():
    """Eight squares of which four fill a sheet take two sheets, not three."""
    layout = sheet_layout.sheet_layout(sections(*[box(0, 0, 130, 130)] * 8), CHOICE)
    assert len(layout.sheets) == 2
    assert layout.scrap_share == pytest.approx(1 - 8 * 130**2 / (2 * 300**2))


@pytest.mark.parametrize(("size", "sheets", "last"), [(130, 1, False), (180, 2, True)])
def test_parts_are_laid_straight_where_a_sheet_less_may_do(monkeypatch, size, sheets, last):
    """The last way costs nothing where area says that there are no fewer sheets."""
    tried, bed = set(), sheet_layout.packing.Bed
    monkeypatch.setattr(
        sheet_layout.packing, "Bed", lambda *given: (tried.add(given[-1]), bed(*given))[1]
    )
    layout = sheet_layout.sheet_layout(sections(*[box(0, 0, size, size)] * 2), CHOICE)
    assert len(layout.sheets) == sheets
    assert ("straight" in tried) == last


@pytest.mark.parametrize(("count", "size", "most"), [(8, 130, 1), (5, 180, 6)])
def test_a_brief_layout_tries_no_more_than_it_must(monkeypatch, count, size, most):
    """One order where area proves that fewer sheets can't do, else two orders each way."""
    tried, orders = [], sheet_layout._filled
    monkeypatch.setattr(
        sheet_layout, "_filled", lambda *given: (tried.append(given), orders(*given))[1]
    )
    shapes = [box(0, 0, size, size + index) for index in range(count)]
    layout = sheet_layout.sheet_layout(sections(*shapes), CHOICE, brief=True)
    assert 0 < len(tried) <= most
    assert hand_layout.collisions(layout) == ()


def test_a_smaller_sheet_is_taken_where_it_is_enough():
    """The second sheet is the small one; of the large one as many as needed."""
    small = Stock(160.0, 160.0, True)
    choice = replace(CHOICE, stock=(small, SQUARE))
    layout = sheet_layout.sheet_layout(sections(*[box(0, 0, 130, 130)] * 5), choice)
    assert sorted(sheet.stock.width_mm for sheet in layout.sheets) == [160.0, 300.0]


def test_the_count_of_sheets_at_hand_is_kept():
    """With one large sheet only, the rest goes on small ones."""
    choice = replace(CHOICE, stock=(replace(SQUARE, count=1), Stock(160.0, 160.0, True, count=2)))
    layout = sheet_layout.sheet_layout(sections(*[box(0, 0, 130, 130)] * 6), choice)
    assert sorted(sheet.stock.width_mm for sheet in layout.sheets) == [160.0, 160.0, 300.0]
    with pytest.raises(InputError, match="take 6 of 7 sections"):
        sheet_layout.sheet_layout(sections(*[box(0, 0, 130, 130)] * 7), choice)


def test_a_section_too_large_is_named():
    """One sentence says which section, how large, and what to do."""
    with pytest.raises(InputError, match=r"section 2 of 400 mm x 50 mm fits on none"):
        sheet_layout.sheet_layout(sections(box(0, 0, 9, 9), box(0, 0, 400, 50)), CHOICE)


def test_a_bar_longer_than_the_sheet_lies_across_its_corners():
    """Turned freely it fits, turned by quarters it doesn't."""
    bar = sections(box(0, 0, 370, 20))
    assert hand_layout.collisions(sheet_layout.sheet_layout(bar, CHOICE)) == ()
    with pytest.raises(InputError):
        sheet_layout.sheet_layout(bar, replace(CHOICE, turning="quarter"))


def test_a_section_is_not_turned_where_that_is_forbidden():
    """The grain of a brushed sheet runs the same way in every section."""
    choice = replace(CHOICE, turning="none")
    layout = sheet_layout.sheet_layout(sections(curl(0, 120), curl(300, 120)), choice)
    assert all(placed.angle_rad == 0.0 for placed in layout.placed)


def test_no_section_lies_in_a_counter():
    """The torch pierces there."""
    ring = Polygon(box(0, 0, 270, 270).exterior, [box(20, 20, 250, 250).exterior.coords])
    layout = sheet_layout.sheet_layout(sections(ring, box(0, 0, 50, 50)), CHOICE)
    assert len(layout.sheets) == 2


def test_the_tables_travel_limits_the_sheet():
    """A long sheet on a short table takes only what the torch reaches, either way round."""
    choice = replace(
        CHOICE, stock=(Stock(1000.0, 300.0, True),), travel_width_mm=280.0, travel_height_mm=500.0
    )
    layout = sheet_layout.sheet_layout(sections(box(0, 0, 450, 250)), choice)
    assert layout.sheets[0].usable_width_mm == 500.0
    with pytest.raises(InputError):
        sheet_layout.sheet_layout(sections(box(0, 0, 510, 250)), choice)


def test_the_same_sections_give_the_same_layout():
    """Nothing depends on the clock or on chance."""
    made = sections(*(curl(200 * index, 70 + 20 * index) for index in range(6)))
    one, two = (sheet_layout.sheet_layout(made, CHOICE) for _ in range(2))
    assert one.placed == two.placed


def test_progress_is_told_and_cancel_is_heard():
    """Shares rise from 0 and stay below 1; a cancel stops between two angles."""
    told = []
    made = sections(*(curl(200 * index, 100) for index in range(4)))
    sheet_layout.sheet_layout(made, CHOICE, progress=lambda share, _: told.append(share))
    assert told[0] == 0.0
    assert told == sorted(told)
    assert told[-1] < 1.0
    asked = []
    with pytest.raises(Cancelled):
        sheet_layout.sheet_layout(
            made, CHOICE, cancelled=lambda: (asked.append(1), len(asked) > 5)[1]
        )
    assert len(asked) == 6


def test_without_a_sheet_nothing_can_be_laid():
    """It is said what to enter."""
    with pytest.raises(InputError, match="no sheet is at hand"):
        sheet_layout.sheet_layout(sections(box(0, 0, 1, 1)), SectionsChoice())
