"""Layers: hidden ones, chosen ones, counts."""

import pytest
from dxf_drafts import block, circle, curves_of, drafted, entries, insert, layer, line, read

from holeplacer.errors import ArtworkError

LAYERS = layer("Cut") + layer("Frozen", flags=1) + layer("Off", colour=-3)
DRAWN = "".join(circle(i, 0, 1, on=name) for i, name in enumerate(["CUT", "Frozen", "Off", "New"]))


def centres(drawing):
    return sorted(curve.centre[0] for curve in curves_of(drawing))


def test_hidden_layers_are_left_out_and_said_so():
    """Frozen and switched-off layers are not read; the account names them."""
    drawing = read(drafted(DRAWN, layers=LAYERS))
    assert centres(drawing) == [0, 3]
    assert entries(drawing.account.ignored) == {
        ("CIRCLE on a frozen layer", "layer Frozen"): 1,
        ("CIRCLE on a layer that is off", "layer Off"): 1,
    }
    assert entries(drawing.account.read) == {
        ("CIRCLE", "layer Cut"): 1,
        ("CIRCLE", "layer New"): 1,
    }


def test_every_layer_is_listed_with_its_entities():
    """Names, counts and visibility of all layers, named in the table or only by an entity."""
    drawing = read(drafted(DRAWN, layers=LAYERS))
    assert drawing.layers == (
        ("0", 0, True),
        ("Cut", 1, True),
        ("Frozen", 1, False),
        ("Off", 1, False),
        ("New", 1, True),
    )


def test_chosen_layers_are_read_whatever_their_state():
    """A layer asked for by name, in any case, is read even if it is frozen; no other is."""
    drawing = read(drafted(DRAWN, layers=LAYERS), layers=("frozen",))
    assert centres(drawing) == [1]
    assert ("CIRCLE on a layer that was not chosen", "layer Cut") in entries(
        drawing.account.ignored
    )


def test_unknown_layer_is_an_error_that_lists_the_others():
    """Asking for a layer that is not there names those that are."""
    with pytest.raises(ArtworkError, match="no layer 'Cutt'; its layers are 0, Cut"):
        read(drafted(DRAWN, layers=LAYERS), layers=("Cutt",))


@pytest.mark.parametrize(
    ("inner", "outer", "read_on"),
    [
        ("0", "Cut", "Cut"),
        ("New", "Cut", "New"),
        ("0", "Off", None),
        ("New", "Off", "New"),
        ("New", "Frozen", None),
        ("Frozen", "Cut", None),
    ],
)
def test_layer_zero_of_a_block_is_its_insertion_s(inner, outer, read_on):
    """Layer 0 inherits; freezing an insertion hides all of it, switching it off what inherits."""
    data = drafted(
        insert("B", on=outer) + line(5, 5, 6, 6),
        blocks=block("B", circle(on=inner)),
        layers=LAYERS,
    )
    drawing = read(data)
    found = [segment.layer for contour in drawing.contours for segment in contour.segments]
    assert found == ([read_on] if read_on else [])


def test_nested_layer_zero_takes_the_outermost_named_layer():
    """Through insertions on layer 0 the name comes from further out."""
    blocks = block("A", circle()) + block("B", insert("A")) + block("C", insert("B", on="Cut"))
    drawing = read(drafted(insert("C", on="New"), blocks=blocks, layers=LAYERS))
    assert drawing.contours[0].segments[0].layer == "Cut"


def test_a_flood_of_layers_is_refused():
    """Ten thousand layers are no sign."""
    data = drafted("".join(line(0, 0, 1, 1, on=f"L{i}") for i in range(10_100)))
    with pytest.raises(ArtworkError, match="more than 10000 layers"):
        read(data)
