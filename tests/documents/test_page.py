"""Pages."""

import pytest

from holeplacer.documents.page import Layer, Page, Role


def test_a_layer_is_found_by_what_it_holds():
    """Writers ask for the hole or mark layer by its role, whatever its name is."""
    layers = (Layer("0", Role.CONTOUR, 7), Layer("HOLES-2", Role.HOLE, 1))
    page = Page(layers, (), (), (), (), (0.0, 0.0, 1.0, 1.0), 0.02)
    assert page.layer_of(Role.HOLE).name == "HOLES-2"
    with pytest.raises(StopIteration):
        page.layer_of(Role.MARK)
