"""What is a grillage of strokes, and what is not."""

import numpy as np
import pytest
import shapely
from shapely.geometry import LineString, box

from holeplacer.medial_axis.medial_axis import medial_axis
from holeplacer.outline.outline import Outline
from holeplacer.structure.slenderness import UNLIKE, slender, unlike_share
from holeplacer.structure.stations import stations


def judged(region):
    axis = medial_axis(Outline.from_geometry(region))
    strip = stations(axis, 0)
    return slender(axis, strip), unlike_share(axis, strip)


def hairpin(radius, width):
    turn = np.linspace(0, np.pi, 30)
    bend = np.column_stack([300 + radius * np.sin(turn), radius - radius * np.cos(turn)])
    line = np.concatenate([[[0, 0], [290, 0]], bend, [[290, 2 * radius], [0, 2 * radius]]])
    return LineString(line).buffer(width / 2)


def test_bars_and_rings_are_slender(bar, ring):
    """Strips with two free edges are strokes."""
    for sign in (bar, ring):
        assert slender(sign.axis, sign.strip)
        assert unlike_share(sign.axis, sign.strip) == 0.0


def test_a_dot_is_not(disc):
    """A disc is no stroke at all."""
    assert unlike_share(disc.axis, disc.strip) == 1.0
    assert not slender(disc.axis, disc.strip)


@pytest.mark.parametrize(("width", "lean"), [(10, True), (40, False), (80, False)])
def test_junctions_count_by_the_size_of_their_discs(width, lean):
    """A frame of thin bars is a grillage, one of wide bars a plate."""
    lines = [LineString([(0, 0), (600, 0)]), LineString([(300, 0), (300, -300)])]
    frame = shapely.union_all([line.buffer(width / 2, cap_style="square") for line in lines])
    found, share = judged(frame)
    assert found == lean
    assert (share <= UNLIKE) == lean


@pytest.mark.parametrize(("radius", "lean"), [(15, False), (30, False), (60, True)])
def test_sharp_bends_are_no_strips(radius, lean):
    """A hairpin as tight as the stroke is wide is not reckoned as a beam."""
    assert judged(hairpin(radius, 20))[0] == lean


def test_a_short_wide_bar_is_a_plate():
    """Where the width is not small against the length, it is a plate."""
    assert not judged(box(0, 0, 200, 100))[0]
