"""The template as a DXF file."""

import pytest

from holeplacer.documents import template as templates
from holeplacer.documents import template_dxf
from holeplacer.documents.dxf_wish import Wish
from holeplacer.documents.page import Role
from holeplacer.plan.hole import Hole

HOLES = (Hole(1, 55.0, -50.0, 7.0), Hole(2, 255.0, -50.0, 7.0))


@pytest.fixture
def drawn(laid_out):
    layout = laid_out(*HOLES)
    return layout, templates.template(layout)


def test_every_line_lies_on_a_layer_of_its_name(drawn):
    """Grid, level, plumb, datum, scale; none of them is to be cut."""
    layout, shown = drawn
    page = template_dxf.template_page(layout, shown, Wish())
    roles = {layer.name: layer.role for layer in page.layers}
    assert {"GRID", "LEVEL", "PLUMB", "DATUM", "SCALE"} <= {s.layer for s in page.scribed}
    assert all(roles[stroke.layer] is Role.MARK for stroke in page.scribed)


def test_holes_are_circles_with_crosses_and_their_numbers(drawn):
    """Each hole at the plan's place; its number among the labels."""
    layout, shown = drawn
    page = template_dxf.template_page(layout, shown, Wish())
    places = [(h.number, h.x_mm, h.y_mm) for h in layout.plan.holes]
    assert sorted((c.number, c.x_mm, c.y_mm) for c in page.circles) == sorted(places)
    assert sorted((m.number, m.x_mm, m.y_mm) for m in page.marks) == sorted(places)
    assert {str(h.number) for h in layout.plan.holes} <= {label.text for label in page.labels}


@pytest.mark.parametrize("wish", [Wish(), Wish(version="R12", units="in")])
def test_the_file_is_proven_by_reading_it_back(drawn, wish):
    """Both versions, both units; a file that says less is refused."""
    data = template_dxf.template_dxf(*drawn, wish)
    assert b"LEVEL" in data
