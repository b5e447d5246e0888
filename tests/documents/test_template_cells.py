"""Pages a template is divided onto."""

import itertools

import numpy as np
import pytest
import shapely
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from holeplacer.documents import template as templates
from holeplacer.documents import template_cells, template_tiles
from holeplacer.documents.template import TemplateWish
from holeplacer.errors import InputError
from holeplacer.paper import size
from holeplacer.plan.hole import Hole
from holeplacer.units import LengthUnit

PLACES = st.sets(st.tuples(st.integers(0, 8), st.integers(0, 8)), min_size=1, max_size=12)


def parts_of(places):
    """Number of parts that hang together edge to edge, by another way than the module's."""
    area = shapely.union_all([box(x, y, x + 1, y + 1).buffer(0) for x, y in places])
    corners = shapely.buffer(area, -1e-3)  # parts that only touch at a corner come apart
    return len(shapely.get_parts(corners))


@settings(max_examples=40)
@given(
    st.floats(30.0, 5000.0),
    st.floats(20.0, 2000.0),
    st.floats(-1000.0, 1000.0),
    st.sampled_from([paper.name for paper in size.paper_sizes()]),
    st.floats(6.0, 40.0),
    st.sampled_from(LengthUnit),
)
def test_pages_cover_the_sign_whatever_its_size_and_the_paper(
    sign_of, wave, wide, high, left, paper, overlap, unit
):
    """Union of printed cells holds all metal and symbols; neighbours share the whole overlap."""
    area = shapely.affinity.translate(wave(wide, high, min(25.0, high)), left, -left / 3)
    x, y = area.representative_point().coords[0]
    wish = TemplateWish(unit=unit, paper=paper, overlap_mm=overlap)
    shown = templates.template(sign_of(area, Hole(1, x, y)), wish)
    _, pages = template_tiles.best_cells(shown, wish)
    covered = shapely.union_all([box(*cell.box_mm) for cell in pages.printed])
    symbol = shapely.Point(x, y).buffer(shown.holes[0].reach_mm)
    assert shapely.area(shapely.difference(shown.metal, covered)) == pytest.approx(0.0, abs=1e-6)
    assert shapely.area(shapely.difference(symbol, covered)) == pytest.approx(0.0, abs=1e-6)
    for cell in pages.printed:
        right, below = pages.beside(cell, 1, 0), pages.beside(cell, 0, 1)
        if right is not None:
            assert cell.window_mm[2] - right.window_mm[0] == pytest.approx(overlap)
        if below is not None:
            assert below.window_mm[3] - cell.window_mm[1] == pytest.approx(overlap)
    assert parts_of({cell.place for cell in pages.printed}) == 1


@settings(max_examples=60)
@given(PLACES)
def test_joined_places_hang_together_and_keep_those_needed(places):
    """One part; nothing is added where there was one before."""
    joined = template_cells.joined(places)
    assert joined >= places
    assert parts_of(joined) == 1
    if parts_of(places) == 1:
        assert joined == places


def test_two_places_are_joined_by_the_fewest():
    """As many as lie between them."""
    assert len(template_cells.joined({(0, 0), (3, 2)})) == 6
    assert template_cells.joined(set()) == set()


def test_pages_without_anything_are_left_out_and_named_by_row_and_column(sign_of):
    """An L leaves its open corner free; A is the top row, 1 the left column."""
    area = shapely.union(box(0, 0, 1000, 40), box(0, 0, 40, 1000))
    shown = templates.template(sign_of(area))
    pages = template_cells.cells(shown, (262.0, 262.0), 12.0)
    names = [cell.name for cell in pages.printed]
    assert (pages.columns, pages.rows) == (5, 5)
    assert names == ["A1", "B1", "C1", "D1", "E1", "E2", "E3", "E4", "E5"]
    assert pages.joining == 0


def test_parts_far_apart_are_joined_by_pages_that_are_counted(sign_of):
    """Two squares in opposite corners."""
    shown = templates.template(sign_of(shapely.union(box(0, 0, 40, 40), box(900, 900, 940, 940))))
    pages = template_cells.cells(shown, (262.0, 262.0), 12.0)
    assert pages.joining == len(pages.printed) - 2 > 3


@pytest.mark.parametrize(("unit", "round_mm"), [(LengthUnit.MM, 5.0), (LengthUnit.INCH, 6.35)])
def test_borders_lie_at_round_distances(sign_of, unit, round_mm):
    """Figures at the marks are whole fives of millimetres, or quarters of an inch."""
    shown = templates.template(sign_of(box(3.3, 7.7, 903.3, 207.7)), TemplateWish(unit=unit))
    pages = template_cells.cells(shown, (200.0, 150.0), 12.0)
    for cell in pages.printed:
        x, y = np.array(cell.box_mm[::2]) - shown.datum_mm[0], np.array(cell.box_mm[1::2])
        for value in (*x, *(y - shown.level_mm)):
            assert value / round_mm == pytest.approx(round(value / round_mm), abs=1e-9)


def test_paper_too_small_and_pages_too_many_are_refused(sign_of):
    """One sentence each."""
    shown = templates.template(sign_of(box(0, 0, 4000, 4000)))
    with pytest.raises(InputError, match="nothing beyond its overlap"):
        template_cells.cells(shown, (15.0, 200.0), 12.0)
    with pytest.raises(InputError, match="pages"):
        template_cells.cells(shown, (50.0, 50.0), 12.0)


def test_letters_go_on_after_z():
    """Every row has a name of its own."""
    names = [template_cells.letters(index) for index in range(800)]
    assert len(set(names)) == 800
    assert names[25:28] == ["Z", "AA", "AB"]
    assert all(len(a) <= len(b) for a, b in itertools.pairwise(names))
