"""Seams as values."""

from holeplacer.plan.seam import Seam


def test_length_and_middle():
    """Both follow from the ends."""
    seam = Seam(1.0, 2.0, 4.0, 6.0)
    assert seam.length_mm == 5.0
    assert seam.middle_mm == (2.5, 4.0)
