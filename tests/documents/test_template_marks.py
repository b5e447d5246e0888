"""Marks that prove the scale and join pages."""

import math

import numpy as np
import pytest
from shapely.geometry import box

from holeplacer.documents import template as templates
from holeplacer.documents import template_cells, template_marks
from holeplacer.paper.display_list import Line, Path, Text


@pytest.mark.parametrize("upright", [False, True])
def test_bars_are_as_long_as_they_say(upright):
    """100 mm and 4 in, from end tick to end tick, with evenly spaced ticks between."""
    items = list(template_marks.bars(20.0, 30.0, upright=upright))
    lines = [item for item in items if isinstance(item, Line)]
    lengths = sorted(math.hypot(i.x2_mm - i.x1_mm, i.y2_mm - i.y1_mm) for i in lines)
    assert lengths[-2:] == pytest.approx([100.0, 101.6])
    along = [((i.y1_mm - 30.0) if upright else (i.x1_mm - 20.0)) for i in lines]
    assert {round(value, 6) for value in along} >= {0.0, 10.0, 100.0, 12.7, 101.6}
    assert [item.text for item in items if isinstance(item, Text)] == ["100 mm", "4 in"]


def test_the_square_is_square_and_its_diagonals_are_drawn():
    """Sides of 100 mm; both diagonals from corner to corner."""
    items = list(template_marks.square(5.0, 6.0))
    (frame,) = [i for i in items if isinstance(i, Path) and i.pen is not None]
    xy = frame.subpaths[0].xy
    assert np.ptp(xy, axis=0).tolist() == [100.0, 100.0]
    diagonals = [i for i in items if isinstance(i, Line)]
    assert all(
        math.hypot(i.x2_mm - i.x1_mm, i.y2_mm - i.y1_mm) == pytest.approx(141.421, abs=1e-3)
        for i in diagonals
    )
    assert any("141.4" in i.text for i in items if isinstance(i, Text))


def test_neighbours_bear_the_same_crosses_and_name_each_other(sign_of):
    """A border is cut on the right page and laid on by the left one, at the same place."""
    shown = templates.template(sign_of(box(0, 0, 700, 100)))
    pages = template_cells.cells(shown, (300.0, 300.0), 12.0)
    one, two, *_ = pages.printed
    marks = {}
    for cell in (one, two):
        items = list(template_marks.joints(shown, pages, cell, (20.0, 30.0)))
        shift = np.array(cell.window_mm[:2]) - (20.0, 30.0)
        texts = [i for i in items if isinstance(i, Text)]
        lines = [i for i in items if isinstance(i, Line)]
        centres = {
            (
                round((i.x1_mm + i.x2_mm) / 2 + shift[0], 6),
                round((i.y1_mm + i.y2_mm) / 2 + shift[1], 6),
            )
            for i in lines
            if max(abs(i.x2_mm - i.x1_mm), abs(i.y2_mm - i.y1_mm)) == pytest.approx(10.0)
        }
        marks[cell.name] = centres, {text.text for text in texts}
    shared = marks["A1"][0] & marks["A2"][0]
    assert len(shared) == 2
    assert {x for x, _ in shared} == {one.box_mm[2]}
    assert "A2 begins here" in marks["A1"][1]
    assert "cut, then lay on A1" in marks["A2"][1]
    figures = {text for text in marks["A1"][1] & marks["A2"][1] if text.startswith("x ")}
    assert len(figures) == 2


def test_a_single_page_bears_no_joints(sign_of):
    """There is nothing to join."""
    shown = templates.template(sign_of(box(0, 0, 100, 100)))
    pages = template_cells.cells(shown, (300.0, 300.0), 12.0)
    assert not list(template_marks.joints(shown, pages, pages.printed[0], (0.0, 0.0)))
