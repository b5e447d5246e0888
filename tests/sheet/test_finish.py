"""Finishes."""

import pytest

from holeplacer.errors import InputError
from holeplacer.sheet import finish


def test_bare_metal_grows_by_nothing():
    """No finish, no thickness, no mass."""
    bare = finish.finish("bare")
    assert (bare.per_side_mm, bare.density_kg_m3) == (0.0, 0.0)


def test_more_coats_are_thicker():
    """Each further coat adds to what is under it."""
    thick = [finish.finish(name).per_side_mm for name in ("primer", "paint", "paint-2", "enamel")]
    assert thick == sorted(set(thick))


@pytest.mark.parametrize("item", finish.finishes(), ids=lambda item: item.name)
def test_every_finish_is_a_thin_coat(item):
    """Fractions of a millimetre, with a density if there is anything, and a source."""
    assert 0 <= item.per_side_mm < 0.5
    assert (item.density_kg_m3 > 0) == (item.per_side_mm > 0)
    assert finish.density_kg_m3(item.name) == item.density_kg_m3
    assert item.title
    assert item.source


def test_an_entered_finish_weighs_like_paint():
    """Of one whose thickness alone is known the density is ordinary paint's."""
    assert finish.density_kg_m3(finish.ENTERED) == finish.finish("paint").density_kg_m3


def test_unknown_finish_is_refused():
    """The refusal lists what there is."""
    with pytest.raises(InputError, match="powder"):
        finish.finish("jam")
