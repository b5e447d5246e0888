"""Lengths, view boxes and transforms against figures worked by hand."""

import math

import numpy as np
import pytest

from holeplacer.artwork.svg_length import Length, Viewport, length, transform, view_box


@pytest.mark.parametrize(
    ("text", "mm"),
    [("1in", 25.4), ("2.54CM", 25.4), ("72pt", 25.4), ("6 pc", 25.4), ("4Q", 1.0), ("1e1mm", 10.0)],
)
def test_physical_lengths_in_millimetres(text: str, mm: float) -> None:
    """Every physical unit, in any case, with or without a blank."""
    found = length(text)
    assert found is not None
    assert found.mm == pytest.approx(mm, rel=1e-15)


@pytest.mark.parametrize(
    ("text", "user_units"),
    [("5", 5), ("5px", 5), ("50%", 100), ("1in", 96), ("100mm", 377.952756), ("2em", 32)],
)
def test_lengths_in_user_units(text: str, user_units: float) -> None:
    """1 in = 96 px; percentages are shares of what they are asked of."""
    found = length(text)
    assert found is not None
    assert found.user_units(200.0) == pytest.approx(user_units, rel=1e-8)


@pytest.mark.parametrize("text", [None, "", "auto", "NaN", "1e999", "calc(1px + 2px)", "5 5"])
def test_what_is_no_length_is_none(text: str | None) -> None:
    """Nonsense is not guessed at."""
    assert length(text) is None


def test_a_bare_number_has_no_physical_size() -> None:
    """Neither has a percentage."""
    assert Length(5.0, "").mm is None
    assert Length(5.0, "%").mm is None


@pytest.mark.parametrize(
    ("aspect", "corner", "scale"),
    [
        (None, (0, 50), (2, 2)),
        ("xMinYMin", (0, 0), (2, 2)),
        ("xMaxYMax meet", (0, 100), (2, 2)),
        ("xMidYMid slice", (-100, 0), (4, 4)),
        ("xMinYMax slice", (0, 0), (4, 4)),
        ("none", (0, 0), (2, 4)),
        ("defer xMidYMid meet", (0, 50), (2, 2)),
    ],
)
def test_view_boxes_fit_into_viewports(
    aspect: str | None, corner: tuple[float, float], scale: tuple[float, float]
) -> None:
    """A view box of 100 x 50 at (10, 20) in a viewport of 200 x 200."""
    box = view_box("10, 20 100 50")
    assert box is not None
    by = box.fitted(Viewport(200, 200), aspect)
    np.testing.assert_allclose(by @ [10, 20, 1], corner)
    np.testing.assert_allclose(by[:, :2], np.diag(scale))


@pytest.mark.parametrize("text", [None, "", "0 0 10", "0 0 0 10", "0 0 -1 5", "0 0 1e999 5"])
def test_what_is_no_view_box_is_none(text: str | None) -> None:
    """No area, no view box."""
    assert view_box(text) is None


@pytest.mark.parametrize(
    ("text", "image"),
    [
        ("translate(3)", (4, 2)),
        ("translate(3, 4)", (4, 6)),
        ("scale(2)", (2, 4)),
        ("scale(2 -1)", (2, -2)),
        ("rotate(90)", (-2, 1)),
        ("rotate(90 1 0)", (-1, 0)),
        ("skewX(45)", (3, 2)),
        ("skewY(45)", (1, 3)),
        ("matrix(1 2 3 4 5 6)", (12, 16)),
        ("translate(10),scale(2)", (12, 4)),
        ("scale(2) translate(10)", (22, 4)),
        ("translate(1in, 0)", (97, 2)),
        ("rotate(0.25turn)", (-2, 1)),
        ("none", (1, 2)),
        (None, (1, 2)),
    ],
)
def test_transforms_move_a_point(text: str | None, image: tuple[float, float]) -> None:
    """Where (1, 2) goes; the rightmost function of a list applies first."""
    by = transform(text)
    assert by is not None
    np.testing.assert_allclose(by @ [1, 2, 1], image, atol=1e-12)


def test_quarter_turns_are_exact() -> None:
    """Square corners stay square to the last bit."""
    for quarter in range(-5, 6):
        by = transform(f"rotate({90 * quarter})")
        assert by is not None
        assert set(np.abs(by[:, :2]).ravel().tolist()) == {0.0, 1.0}
        np.testing.assert_allclose(by @ [1, 0, 1], np.round(
            [math.cos(quarter * math.pi / 2), math.sin(quarter * math.pi / 2)]
        ))  # fmt: skip


@pytest.mark.parametrize(
    "text",
    ["rotate", "rotate(", "rotate(1 2)", "twist(3)", "scale(2) ?", "scale(1e300)scale(1e300)"],
)
def test_broken_transforms_are_none(text: str) -> None:
    """What can't be read is not half applied."""
    assert transform(text) is None
