"""Path data against a general library's reading of it, and against closed forms."""

import math

import numpy as np
import pytest
import shapely
import svgelements
from hypothesis import given, settings
from hypothesis import strategies as st

from holeplacer.artwork import svg_path
from holeplacer.artwork.svg_path import Path, read_path
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import CircularArc, EllipticArc, Points, Polyline, Spline
from holeplacer.geometry.flatten import flatten
from holeplacer.geometry.transform import matrix


def points_of(path: Path, tolerance: float = 1e-4) -> list[Points]:
    """Flattened subpaths."""
    return [
        np.concatenate([flatten(curve, tolerance)[1] for curve in subpath.curves])
        for subpath in path.subpaths
    ]


def kinds_of(path: Path) -> list[list[str]]:
    return [[type(curve).__name__ for curve in subpath.curves] for subpath in path.subpaths]


def judged(text: str, steps: int = 150) -> list[Points]:
    """The same path by svgelements, each segment sampled evenly."""
    found = []
    for subpath in svgelements.Path(text).as_subpaths():
        points = [
            np.array([[p.x, p.y] for p in (part.point(t) for t in np.linspace(0, 1, steps))])
            for part in subpath
            if not isinstance(part, svgelements.Move) and part.length() > 0
        ]
        if points:
            found.append(np.concatenate(points))
    return found


def apart(one: Points, other: Points) -> float:
    """Furthest that points of one lie from the line through the other."""
    return float(shapely.distance(shapely.LineString(other), shapely.points(one)).max())


@pytest.mark.parametrize(
    "text",
    [
        "M10 10L20 10 20 20z",
        "M10,10 20,10 20,20 z m5 5 5 0 0 5z",
        "m10 10h10v10H5V-5z",
        "M0 0h1 2 3v1 2z",
        "M0 0C0 10 10 10 10 0S20-10 20 0s5 5 10 0z",
        "M0 0S5 5 10 0",
        "M0 0Q5 10 10 0T20 0t10 0 5-5z",
        "M0 0T10 5",
        "M0 0A5 5 0 0 1 10 0A 5 3 30 1 0 20 5a2 2 0 1,1 3,3z",
        "M0 0a25,10 0 1 0 20 4zM50 50a5,5 0 0150,50",
        "M0 0a1 1 0 1110 0",
        "M.5.5.6.6-1-1e1L1e-1+3",
        "M0 0L10 0 10 10zL5 5",
        "M0 0L10 0 10 10zl5 5 0 9",
    ],
)
def test_every_command_agrees_with_a_second_reader(text: str) -> None:
    """Lines, curves and arcs, absolute and relative, written short and long."""
    path = read_path(text)
    assert path.error == ""
    ours, theirs = points_of(path), judged(text)
    assert len(ours) == len(theirs)
    for one, other in zip(ours, theirs, strict=True):
        assert apart(one, other) < 0.02
        assert apart(other, one) < 0.002
        np.testing.assert_allclose(one[[0, -1]], other[[0, -1]], atol=1e-9)


def test_kinds_are_kept() -> None:
    """Straight steps, Beziers and arcs come out as what they were drawn as."""
    path = read_path("M0 0L5 0 5 5Q8 8 9 8C10 10 12 10 14 12A5 5 0 0 1 20 20A5 2 0 0 1 0 0z")
    assert kinds_of(path) == [["Polyline", "Spline", "Spline", "CircularArc", "EllipticArc"]]


def test_smooth_beziers_are_one_spline_and_corners_part_them() -> None:
    """Two quarter rounds that continue each other, then a corner."""
    path = read_path("M0 0C0 5 5 10 10 10S20 5 20 0C20 5 30 5 30 0")
    first, second = path.subpaths[0].curves
    assert isinstance(first, Spline)
    assert isinstance(second, Spline)
    assert (len(first.control), len(second.control)) == (7, 4)
    np.testing.assert_array_equal(first.knots, [0, 0, 0, 0, 1, 1, 1, 2, 2, 2, 2])


def test_raising_a_quadratic_is_exact() -> None:
    """Points of the cubic are those of the quadratic."""
    (subpath,) = read_path("M1 2Q7 11 13 -3").subpaths
    (curve,) = subpath.curves
    assert isinstance(curve, Spline)
    t, xy = flatten(curve, 1e-3)
    quadratic = (
        np.outer((1 - t) ** 2, [1, 2])
        + np.outer(2 * t * (1 - t), [7, 11])
        + np.outer(t**2, [13, -3])
    )
    np.testing.assert_allclose(xy, quadratic, atol=1e-13)


def test_a_closed_run_of_lines_is_one_closed_polyline() -> None:
    """Whether by `z` alone or drawn back to the start before it, to within rounding."""
    for text in ("M0 0h3v3h-3z", "M0 0h3v3h-3v-3z", "M0 0h.1h.1h.1v.3h-.3v-.3z"):
        (subpath,) = read_path(text).subpaths
        (curve,) = subpath.curves
        assert isinstance(curve, Polyline)
        assert curve.closed
        assert subpath.closed


def test_arcs_have_the_centre_and_sweep_of_the_standard() -> None:
    """Half circles either way, a three-quarter one, and radii too small made to fit."""
    for text, centre, sweep in [
        ("M0 0A5 5 0 0 1 10 0", (5, 0), math.pi),
        ("M0 0A5 5 0 0 0 10 0", (5, 0), -math.pi),
        ("M0 0A1 1 0 0 1 10 0", (5, 0), math.pi),
        ("M5 0A5 5 0 1 1 0 -5", (0, 0), 1.5 * math.pi),
    ]:
        (subpath,) = read_path(text).subpaths
        (arc,) = subpath.curves
        assert isinstance(arc, CircularArc)
        assert arc.centre == pytest.approx(centre, abs=1e-12)
        assert arc.sweep == pytest.approx(sweep)


def test_an_elliptic_arc_lies_along_its_longer_axis() -> None:
    """The half axes come out as major and ratio whichever is longer."""
    for text in ("M0 0A6 3 20 0 1 5 5", "M0 0A3 6 -70 0 1 5 5"):
        (subpath,) = read_path(text).subpaths
        (arc,) = subpath.curves
        assert isinstance(arc, EllipticArc)
        assert math.hypot(*arc.major) == pytest.approx(6)
        assert arc.ratio == pytest.approx(0.5)
        np.testing.assert_allclose(flatten(arc, 0.1)[1][[0, -1]], [[0, 0], [5, 5]], atol=1e-12)


def test_a_reflection_takes_only_handles_of_its_own_kind() -> None:
    """After a cubic, `T` starts from the current point itself; so does `S` after a quadratic."""
    for text, same in (
        ("M0 0C1 1 2 2 3 0T9 0", "M0 0C1 1 2 2 3 0L9 0"),
        ("M0 0Q1 1 3 0S8 5 9 0", "M0 0Q1 1 3 0C3 0 8 5 9 0"),
    ):
        (ours,), (expected,) = points_of(read_path(text)), points_of(read_path(same))
        assert apart(ours, expected) < 1e-3
        assert apart(expected, ours) < 1e-3


def test_arcs_without_size_are_lines_or_nothing() -> None:
    """A radius of zero, the same two ends, a radius beyond all measure."""
    assert kinds_of(read_path("M0 0A0 5 0 0 1 5 5")) == [["Polyline"]]
    assert kinds_of(read_path("M0 0A1e13 1e13 0 0 1 5 5")) == [["Polyline"]]
    assert read_path("M0 0A5 5 0 0 1 0 0").subpaths == ()


@pytest.mark.parametrize(
    ("text", "error", "points"),
    [
        ("M0 0L5 5 6", "6", 2),
        ("M0 0L5 5L", "a command without numbers", 2),
        ("M0 0L5 5 X9 9", "X9 9", 2),
        ("M0 0L5 5M", "a command without numbers", 2),
        ("M0 0L5 5C1 1 2 2 3", "1 1 2 2 3", 2),
        ("M0 0L5 5A1 1 0 2 0 3 3", "1 1 0 2 0 3 3", 2),
        ("M0 0L5 5L1e999 3", "L with a number out of range", 2),
        ("M0 0L5 5z 7", "7", 3),
        ("L5 5", "L", 0),
        ("5 5", "5 5", 0),
        ("", "", 0),
        ("M5 5", "", 0),
        ("M5 5zM6 6", "", 0),
    ],
)
def test_a_broken_path_is_drawn_up_to_the_error(text: str, error: str, points: int) -> None:
    """And the error says where."""
    path = read_path(text)
    assert path.error == error
    assert sum(len(part) for part in points_of(path)) == points


def test_a_map_is_applied_to_every_kind() -> None:
    """The curves of a mapped path are the mapped curves of the path."""
    text = "M0 0L5 0 5 5C10 10 12 10 14 12A5 5 0 0 1 20 20A5 2 0 0 1 0 0z"
    by = matrix(2, 0.5, -0.3, -1, 7, 9)
    (plain,), (mapped,) = points_of(read_path(text)), points_of(read_path(text, by))
    moved = plain @ by[:, :2].T + by[:, 2]
    assert apart(moved, mapped) < 1e-3
    assert apart(mapped, moved) < 1e-3


numbers = st.floats(-1000, 1000).map(lambda value: round(value, 3))

commands_of_lines_and_beziers = st.tuples(
    st.sampled_from("LlCcQqSsTtHhVvM"), st.lists(numbers, min_size=6, max_size=6)
)


@settings(max_examples=60, deadline=None)
@given(st.lists(commands_of_lines_and_beziers, min_size=1, max_size=8))
def test_any_sequence_of_commands_ends_where_a_second_reader_ends(
    commands: list[tuple[str, list[float]]],
) -> None:
    """The current point is carried rightly through all of them."""
    sizes = {"L": 2, "C": 6, "Q": 4, "S": 4, "T": 2, "H": 1, "V": 1, "M": 2}
    text = "M1 2" + "".join(
        letter + " ".join(map(repr, values[: sizes[letter.upper()]])) for letter, values in commands
    )
    ours, theirs = points_of(read_path(text), 0.1), judged(text, 2)
    assert len(ours) == len(theirs)
    for one, other in zip(ours, theirs, strict=True):
        np.testing.assert_allclose(one[[0, -1]], other[[0, -1]], atol=1e-6)


@pytest.mark.parametrize(
    ("limit", "text"),
    [
        ("MOST_STEPS", "M0 0" + "L1 2" * 11),
        ("MOST_STEPS", "M0 0L" + "1 2 " * 11),
        ("MOST_BENT_STEPS", "M0 0" + "a1 1 0 0 1 1 0" * 11),
        ("MOST_BENT_STEPS", "M0 0c" + "1 1 2 2 3 1 " * 11),
        ("MOST_CURVES", "M0 0" + "q1 1 2 0" * 11),
    ],
)
def test_a_path_longer_than_any_lettering_has_is_refused(
    monkeypatch: pytest.MonkeyPatch, limit: str, text: str
) -> None:
    """Whether its steps are written singly or behind one letter."""
    monkeypatch.setattr(svg_path, limit, 10)
    with pytest.raises(ArtworkError, match="the drawing holds more than"):
        read_path(text)
