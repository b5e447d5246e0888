"""Points are carried from the artwork as drawn to the sign and back."""

import math

import numpy as np
import pytest

from holeplacer.artwork import placing, read
from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.options import KnownDistance, ReadOptions

BAR = ArtworkFile(
    "bar.svg",
    b'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 200 100">'
    b'<path d="M20 30 H120 V70 H20 Z"/></svg>',
)
CORNER = np.array([[20.0, 30.0], [120.0, 30.0]])
"""Two corners in drawing units, y up."""

READINGS = [
    ReadOptions(units="mm"),
    ReadOptions(units="in"),
    ReadOptions(units="mm", scale=2.5),
    ReadOptions(units="cm", width_mm=400.0),
    ReadOptions(units="mm", rotation_rad=0.3),
    ReadOptions(units="mm", mirror=True),
    ReadOptions(units="mm", mirror=True, rotation_rad=-1.1, height_mm=77.0),
    ReadOptions(units="mm", known=KnownDistance(20.0, 30.0, 120.0, 30.0, 250.0)),
]


def corners_of(artwork):
    (piece,) = artwork.outline.pieces
    return np.array(piece.polygon.exterior.coords)


@pytest.mark.parametrize("options", READINGS)
def test_a_corner_is_found_on_the_sign(options):
    """A corner as drawn lands on a corner of the outline that was read."""
    artwork = read.read_artwork(BAR, options)
    unit = {"mm": 1.0, "cm": 10.0, "in": 25.4}[options.units]
    for place in placing.on_sign(artwork, options, CORNER * unit):
        assert np.hypot(*(corners_of(artwork) - place).T).min() < 1e-9 * artwork.scale * 1e3


@pytest.mark.parametrize("options", READINGS)
def test_back_again(options):
    """What is drawn comes back from the sign."""
    artwork = read.read_artwork(BAR, options)
    there = placing.on_sign(artwork, options, CORNER)
    assert placing.as_drawn(artwork, options, there) == pytest.approx(CORNER)


@pytest.mark.parametrize("new", READINGS)
def test_carried_between_two_readings(new):
    """A place on the lettering is the same place however it is read."""
    old = ReadOptions(units="mm", rotation_rad=0.2, scale=1.7)
    before, after = read.read_artwork(BAR, old), read.read_artwork(BAR, new)
    by = placing.between(before, old, after, new)
    moved = corners_of(before) @ by[:, :2].T + by[:, 2]
    for place in moved:
        assert np.hypot(*(corners_of(after) - place).T).min() < 1e-6


def test_a_known_distance_is_the_distance_on_the_sign():
    """Points picked on the sign and given back as drawn scale it to what was entered."""
    first = ReadOptions(units="mm", rotation_rad=0.4, scale=3.0)
    artwork = read.read_artwork(BAR, first)
    picked = corners_of(artwork)[:2]
    (x1, y1), (x2, y2) = placing.as_drawn(artwork, first, picked)
    known = KnownDistance(x1, y1, x2, y2, 500.0)
    again = read.read_artwork(BAR, ReadOptions(units="mm", rotation_rad=0.4, known=known))
    assert math.dist(*corners_of(again)[:2]) == pytest.approx(500.0)
