"""Notes that go with a template."""

import itertools

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely.geometry import box

from holeplacer.documents import caution, template_cells, template_notes
from holeplacer.documents import template as templates
from holeplacer.documents.template import TemplateWish
from holeplacer.documents.template_notes import Block
from holeplacer.errors import InputError
from holeplacer.paper import font
from holeplacer.paper.display_list import Text
from holeplacer.plan.hole import Hole
from holeplacer.wall.layer import Layer
from holeplacer.wall.wall import Elevation, Wall


def noted(layout, wish=None, *, most=(300.0, 300.0), tiled=True):
    shown = templates.template(layout, wish)
    pages = template_cells.cells(shown, most, 12.0)
    return template_notes.blocks(shown, pages, tiled=tiled)


def texts(blocks):
    return [i for block in blocks for i in block.draw(0.0, 0.0) if isinstance(i, Text)]


def said(blocks):
    return " ".join(item.text for item in texts(blocks))


def test_notes_say_what_whose_and_how(sign_of):
    """Name, revision, date, mass, size, side, scale, steps and every caution."""
    wall = Wall(Elevation(5000.0, 4000.0), layers=(Layer("structure", 90.0),))
    layout = sign_of(box(0, 0, 900, 60), Hole(1, 100.0, 30.0), wall=wall)
    text = said(noted(layout, TemplateWish(revision="B", date="1 May 2027")))
    for part in ("Heron & Lantern", "Revision B", "1 May 2027", "kg", "900 mm × 60 mm", "1 hole",
                 "THIS SIDE OUT", "seen from the front", "both diagonals 141.4 mm", "Page map",
                 "above the ground", "Drill the wall", "1. Join", "Grid 50 mm"):  # fmt: skip
        assert part in text
    for sentence in caution.FULL:
        assert font.printable(sentence) in text


def test_a_single_length_needs_no_map_and_no_joining(sign_of):
    """Steps begin with hanging."""
    text = said(noted(sign_of(box(0, 0, 900, 60)), most=(2000.0, 300.0), tiled=False))
    assert "Page map" not in text
    assert "1. Hang" in text


def test_every_hole_is_listed_from_the_datum_in_both_units(sign_of):
    """Tenths of a millimetre and 32nds of an inch, ninety holes in tables side by side."""
    holes = [Hole(n, 10.0 + 9.9 * n, 30.0) for n in range(1, 91)]
    shown = texts(noted(sign_of(box(0, 0, 950, 60), *holes)))
    words = [item.text for item in shown]
    assert words.count("No.") == 4
    for hole in holes:
        assert f"{hole.x_mm:.1f}" in words
    assert "19.9" in words
    assert "25/32" in words


def test_all_stands_within_its_column_and_height(sign_of):
    """Nothing runs out to the right, nor below what a block says it takes."""
    name = "A very long name of a sign that never ends and would run off any paper there is"
    layout = sign_of(box(0, 0, 2900, 800), *(Hole(n, 30.0 * n, 30.0) for n in range(1, 60)))
    shown = templates.template(layout)
    object.__setattr__(shown, "name", name)
    pages = template_cells.cells(shown, (200.0, 200.0), 12.0)
    for block in template_notes.blocks(shown, pages, tiled=True):
        for item in block.draw(0.0, 0.0):
            if not isinstance(item, Text) or item.angle_rad:
                continue
            wide = font.width_mm(item.text, item.size_mm, item.bold)
            back = {"start": 0.0, "middle": 0.5, "end": 1.0}[item.anchor] * wide
            assert item.x_mm - back >= -0.01
            assert item.x_mm - back + wide <= template_notes.COLUMN_MM + 0.5
            assert -block.height_mm - 0.3 <= item.y_mm <= 0.0


@settings(max_examples=40)
@given(st.lists(st.floats(1.0, 90.0), min_size=1, max_size=12), st.floats(90.0, 400.0))
def test_columns_keep_order_and_room(heights, room):
    """Blocks follow each other, don't overlap, and end within the column."""
    blocks = [Block(height, lambda x, y: ()) for height in heights]
    columns = template_notes.columns(blocks, room)
    assert [b for column in columns for _, b in column.blocks] == blocks
    for column in columns:
        ends = [(below, below + block.height_mm) for below, block in column.blocks]
        assert ends[-1][1] <= room + 1e-6
        assert all(one[1] <= two[0] for one, two in itertools.pairwise(ends))
    high = template_notes.highest(blocks, len(columns))
    assert len(template_notes.columns(blocks, high)) <= len(columns)


def test_a_column_too_low_for_a_block_is_refused():
    """One sentence, instead of text beyond the paper."""
    with pytest.raises(InputError, match="too narrow"):
        template_notes.columns([Block(100.0, lambda x, y: ())], 50.0)


def test_the_map_names_every_printed_page(sign_of):
    """And only those."""
    layout = sign_of(box(0, 0, 1500, 60).union(box(0, 0, 60, 900)))
    shown = templates.template(layout)
    pages = template_cells.cells(shown, (300.0, 300.0), 12.0)
    named = [i.text for i in template_notes.page_map(shown, pages).draw(0, 0) if hasattr(i, "text")]
    assert named[1:] == [cell.name for cell in pages.printed]
