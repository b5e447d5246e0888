"""Texts as strokes."""

import math
import string

import numpy as np
import pytest

from holeplacer.documents import single_line


def test_every_capital_and_digit_has_strokes_within_its_width():
    """The font covers what labels need, base line to cap height, none wider than it says."""
    for name in string.ascii_uppercase + string.digits:
        sign = single_line.signs()[name]
        points = np.concatenate(sign.strokes)
        assert points[:, 1].max() == pytest.approx(1.0)
        assert points[:, 1].min() >= -0.1
        assert points[:, 0].min() >= -1e-9
        assert points[:, 0].max() <= sign.width + 0.05


def test_no_two_signs_look_alike():
    """O and 0, I and 1, S and 5 can be told apart on metal."""
    shapes = {
        name: tuple(tuple(map(tuple, np.round(s, 6))) for s in sign.strokes)
        for name, sign in single_line.signs().items()
        if sign.strokes
    }
    assert len(set(shapes.values())) == len(shapes)


def test_text_has_the_height_and_width_it_says():
    """Height of capitals, and a width that holds every stroke."""
    strokes = np.concatenate(single_line.strokes_of("HOLE 12", 10.0, (5.0, 7.0)))
    assert strokes[:, 1].min() == pytest.approx(7.0)
    assert strokes[:, 1].max() == pytest.approx(17.0)
    assert strokes[:, 0].max() - 5.0 == pytest.approx(single_line.width_mm("HOLE 12", 10.0))


def test_text_turns_about_its_start():
    """A quarter turn runs upwards."""
    flat = np.concatenate(single_line.strokes_of("L", 6.0))
    up = np.concatenate(single_line.strokes_of("L", 6.0, (0.0, 0.0), math.pi / 2))
    assert up == pytest.approx(np.column_stack([-flat[:, 1], flat[:, 0]]))


def test_small_letters_and_unknown_signs():
    """Small letters are capitals; what the font lacks is a question mark."""
    assert len(single_line.strokes_of("a", 5)) == len(single_line.strokes_of("A", 5))
    same = zip(single_line.strokes_of("é", 5), single_line.strokes_of("?", 5), strict=True)
    assert all(np.array_equal(one, other) for one, other in same)
    assert single_line.width_mm("", 5.0) == 0.0
