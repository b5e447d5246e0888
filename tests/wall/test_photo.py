"""Photographs as values."""

from holeplacer.wall.photo import LARGEST_BYTES, Photo, PhotoPoint


def test_a_photograph_is_kept_with_its_points():
    """Two that say the same are equal, bytes and all."""
    point = PhotoPoint(1.0, 2.0, 300.0, 400.0)
    assert Photo("a.jpg", b"x", (point,)) == Photo("a.jpg", b"x", (point,))
    assert Photo("a.jpg", b"x") != Photo("a.jpg", b"y")


def test_its_bytes_fit_into_a_plan():
    """Base64 of the largest is well below what a plan file may hold."""
    assert LARGEST_BYTES * 4 / 3 < 100_000_000
