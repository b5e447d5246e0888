"""Display list: what stands on paper, as primitives in mm; every printer only replays it.

Coordinates are millimetres from a leaf's lower left corner, y up. Lines end square at their
ends (butt caps) and are rounded where they turn; a path is filled by the even-odd rule, then
stroked. Items are drawn in order, later ones over earlier ones.
"""

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Points = NDArray[np.float64]
"""Array of shape (n, 2), mm."""

Box = tuple[float, float, float, float]
"""Left, bottom, right, top, mm."""

Colour = tuple[float, float, float]
"""Red, green, blue, each 0 to 1."""

BLACK: Colour = (0.0, 0.0, 0.0)
WHITE: Colour = (1.0, 1.0, 1.0)


def grey(lightness: float) -> Colour:
    """A grey: 0 black, 1 white."""
    return lightness, lightness, lightness


@dataclass(frozen=True)
class Pen:
    """What draws a line.

    Attributes:
        width_mm: Width of the line.
        colour: Its colour.
        dash_mm: Lengths drawn and left out in turn; none: unbroken.
    """

    width_mm: float = 0.25
    colour: Colour = BLACK
    dash_mm: tuple[float, ...] = ()


@dataclass(frozen=True)
class Line:
    """A straight line from one point to another."""

    x1_mm: float
    y1_mm: float
    x2_mm: float
    y2_mm: float
    pen: Pen = Pen()


@dataclass(frozen=True, eq=False)
class Subpath:
    """One run of a path.

    Attributes:
        xy: (n, 2) vertices; if cubic, (3 k + 1, 2): each vertex but the last is followed by the
            two control points of the Bezier curve that leads to the next vertex.
        closed: Whether a straight line leads back to the first vertex.
        cubic: Whether the steps are cubic Bezier curves.
    """

    xy: Points
    closed: bool = False
    cubic: bool = False

    def __post_init__(self) -> None:
        """Keep the points from being written to."""
        self.xy.setflags(write=False)


@dataclass(frozen=True, eq=False)
class Path:
    """Polylines, polygons and curves drawn with one pen, filled with one colour, or both.

    Attributes:
        subpaths: Its runs.
        pen: What draws their lines; None: no line.
        fill: What fills them, by the even-odd rule; None: nothing.
    """

    subpaths: tuple[Subpath, ...]
    pen: Pen | None = Pen()
    fill: Colour | None = None


@dataclass(frozen=True)
class Circle:
    """A whole circle."""

    x_mm: float
    y_mm: float
    radius_mm: float
    pen: Pen | None = Pen()
    fill: Colour | None = None


@dataclass(frozen=True)
class Text:
    """One line of text.

    Attributes:
        text: What it says; `font.printable` must leave it as it is.
        x_mm, y_mm: Its anchor on the base line.
        size_mm: Size of the type (its em); capitals are 0.729 of it high.
        bold: Whether it is set in the bold face.
        anchor: Which end of it, or whether its middle, lies at (x, y).
        angle_rad: Turned anticlockwise by this about (x, y).
        colour: Its colour.
    """

    text: str
    x_mm: float
    y_mm: float
    size_mm: float = 3.0
    bold: bool = False
    anchor: Literal["start", "middle", "end"] = "start"
    angle_rad: float = 0.0
    colour: Colour = BLACK


@dataclass(frozen=True, eq=False)
class Group:
    """Items that belong together.

    Attributes:
        items: In the order they are drawn.
        name: What they are, such as `grid`; a layer where the file's format has layers.
        clip_mm: Nothing is drawn outside this box; None: no such limit.
    """

    items: tuple["Item", ...]
    name: str = ""
    clip_mm: Box | None = None


Item = Line | Path | Circle | Text | Group


@dataclass(frozen=True, eq=False)
class Leaf:
    """One page of paper.

    Attributes:
        width_mm, height_mm: Its size.
        items: What stands on it.
        name: What a person calls it, such as `B3`.
    """

    width_mm: float
    height_mm: float
    items: tuple[Item, ...]
    name: str = ""


@dataclass(frozen=True, eq=False)
class Papers:
    """Leaves that belong together.

    Attributes:
        title: What they are.
        leaves: In the order they are printed; not all need be of one size.
        subject: A line about them, such as a caution.
    """

    title: str
    leaves: tuple[Leaf, ...]
    subject: str = ""


def polyline(xy: Points, pen: Pen, *, closed: bool = False) -> Path:
    """A path of straight steps through some points."""
    return Path((Subpath(xy, closed),), pen)


def rectangle(box: Box, pen: Pen | None = None, fill: Colour | None = None) -> Path:
    """A rectangle."""
    left, bottom, right, top = box
    corners = np.array([(left, bottom), (right, bottom), (right, top), (left, top)], float)
    return Path((Subpath(corners, closed=True),), pen, fill)


def cross(x_mm: float, y_mm: float, reach_mm: float, pen: Pen) -> tuple[Line, Line]:
    """Two lines, level and upright, that meet in their middles."""
    return (
        Line(x_mm - reach_mm, y_mm, x_mm + reach_mm, y_mm, pen),
        Line(x_mm, y_mm - reach_mm, x_mm, y_mm + reach_mm, pen),
    )


def arrow(x_mm: float, y_mm: float, angle_rad: float, size_mm: float) -> Path:
    """A filled arrow head whose point is at (x, y) and that points along the angle."""
    spread = math.pi - 0.35
    turns = np.array([angle_rad + spread, angle_rad - spread])
    back = np.column_stack([np.cos(turns), np.sin(turns)]) * size_mm
    point = np.array([[x_mm, y_mm]])
    xy = np.vstack([point, point + back])
    return Path((Subpath(xy, closed=True),), None, BLACK)
