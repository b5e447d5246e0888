"""What is usual of each kind of fastener."""

import pytest

from holeplacer.wall import fastener_table
from holeplacer.wall.fastener import FASTENER_KINDS


@pytest.mark.parametrize("kind", FASTENER_KINDS)
def test_every_kind_has_its_row(kind):
    """Embedments are in order, drills can be made, sources are named."""
    row = fastener_table.fastener_row(kind)
    assert row.kind == kind
    assert row.embedment_d >= row.least_d >= 0
    assert 0 < row.drill_factor <= 1
    assert row.source


def test_screws_are_for_wood_and_anchors_for_masonry():
    """A bolt through everything is for any wall."""
    assert fastener_table.fastener_row("lag screw").suits("structure")
    assert not fastener_table.fastener_row("lag screw").suits("masonry")
    assert not fastener_table.fastener_row("adhesive anchor").suits("structure")
    assert fastener_table.fastener_row("through bolt").suits("masonry")


def test_handbook_figures():
    """Full lateral value at 8 and 10 diameters, least 4 and 6 (NDS 12.1; from memory)."""
    lag, wood = (fastener_table.fastener_row(kind) for kind in ("lag screw", "wood screw"))
    assert (lag.embedment_d, lag.least_d) == (8, 4)
    assert (wood.embedment_d, wood.least_d) == (10, 6)
    assert 0.4 <= lag.drill_factor <= 0.7
