"""An even scale, whoever looks at it and on whatever ground."""

import itertools
import math

import pytest

from holeplacer.gui.canvas import colour_scale
from holeplacer.gui.theme import DARK, LIGHT, contrast


def test_steps_are_even():
    """Every step is the same way in CIELAB, and one class brighter than the last."""
    labs = colour_scale.labs()
    steps = [math.dist(one, two) for one, two in itertools.pairwise(labs)]
    assert steps == pytest.approx([steps[0]] * len(steps))
    rises = [two[0] - one[0] for one, two in itertools.pairwise(labs)]
    assert rises == pytest.approx([rises[0]] * len(rises))
    assert rises[0] > 5


def test_classes_stay_apart_without_red_and_green():
    """What the common kinds of colour blindness keep, lightness and blue to yellow, tells all."""
    kept = [(lightness, b) for lightness, _a, b in colour_scale.labs()]
    whole = [math.dist(one, two) for one, two in itertools.pairwise(colour_scale.labs())]
    for (one, two), step in zip(itertools.pairwise(kept), whole, strict=True):
        assert math.dist(one, two) > 0.9 * step


def test_a_screen_can_show_all_of_them():
    """Nothing is clipped, so that nothing is uneven."""
    for lab in colour_scale.labs():
        assert all(0.0 <= part <= 1.0 for part in colour_scale.srgb(lab))


def test_known_colours():
    """White, black, and the red primary (CIE values of sRGB, rounded)."""
    assert colour_scale.hex_of((100.0, 0.0, 0.0)) == "#ffffff"
    assert colour_scale.hex_of((0.0, 0.0, 0.0)) == "#000000"
    assert colour_scale.hex_of((53.24, 80.09, 67.20)) == "#ff0000"


def test_more_stands_out_more():
    """Darker on light ground, lighter on dark ground; the greatest figures contrast most."""
    for dark, ground in ((False, LIGHT.metal), (True, DARK.metal)):
        names = colour_scale.colours(dark=dark)
        assert len(names) == colour_scale.STEPS
        assert contrast(names[-1], ground) > 3
        assert contrast(names[-1], ground) > contrast(names[0], ground)
