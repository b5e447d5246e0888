"""Defaults of how artwork is read."""

from holeplacer.artwork.options import ReadOptions


def test_defaults_read_the_file_as_it_is() -> None:
    """No unit assumed, no scale, no turn, no mirror; flattened within 0.02 mm."""
    options = ReadOptions()
    assert options.units is None
    assert (options.scale, options.rotation_rad, options.mirror) == (1.0, 0.0, False)
    assert options.tolerance_mm == 0.02
    assert hash(options) == hash(ReadOptions())
