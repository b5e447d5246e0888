"""Layers as values."""

from holeplacer.wall.layer import BEARING_KINDS, LAYER_KINDS, SOFT_KINDS


def test_what_bears_is_not_soft():
    """Kinds that hold a fastener and kinds that hold nothing are apart, and all are kinds."""
    assert not set(BEARING_KINDS) & set(SOFT_KINDS)
    assert set(BEARING_KINDS) | set(SOFT_KINDS) < set(LAYER_KINDS)
