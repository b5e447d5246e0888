"""Page: what a drawing shows, as values in mm; a writer only puts them into its format."""

from dataclasses import dataclass
from enum import Enum

from holeplacer.geometry.curve import Curve

MEETS_MM = 1e-6
"""Ends of a contour's strokes no further apart than this meet; holes are as exact as this."""


class Role(Enum):
    """What a layer holds, and so what the torch does with it."""

    CONTOUR = "contour"
    HOLE = "hole"
    MARK = "mark"


@dataclass(frozen=True)
class Layer:
    """A layer of the drawing.

    Attributes:
        name: As the artwork has it, or by what it holds.
        role: What the torch does with it.
        colour: AutoCAD Color Index, 1 red to 7 white or black.
    """

    name: str
    role: Role
    colour: int


@dataclass(frozen=True, eq=False)
class Stroke:
    """One curve of a contour, in the direction it was drawn.

    Attributes:
        curve: In sign coordinates, mm.
        layer: Name of its layer.
        backwards: Whether the contour runs through it from its end to its start.
    """

    curve: Curve
    layer: str
    backwards: bool = False


@dataclass(frozen=True, eq=False)
class Contour:
    """A closed line the torch follows.

    Attributes:
        strokes: In the order they are met; each ends where the next starts, within a millionth
            of a millimetre, the last where the first starts.
        outer: Whether metal lies inside it; False for a counter.
    """

    strokes: tuple[Stroke, ...]
    outer: bool


@dataclass(frozen=True)
class Circle:
    """A hole to cut.

    Attributes:
        number: The hole's number.
        x_mm, y_mm: Centre.
        diameter_mm: Its diameter.
    """

    number: int
    x_mm: float
    y_mm: float
    diameter_mm: float


@dataclass(frozen=True)
class CentreMark:
    """A cross that shows where a hole's centre is.

    Attributes:
        number: The hole's number.
        x_mm, y_mm: Centre.
        size_mm: Length of each of its two lines.
    """

    number: int
    x_mm: float
    y_mm: float
    size_mm: float


@dataclass(frozen=True)
class Label:
    """A line of text on the mark layer.

    Attributes:
        text: What it says.
        x_mm, y_mm: Left end of its base line.
        height_mm: Height of its capitals.
    """

    text: str
    x_mm: float
    y_mm: float
    height_mm: float


@dataclass(frozen=True, eq=False)
class Page:
    """All that a drawing shows.

    Attributes:
        layers: Every layer that something lies on.
        contours: The sign's cut edges.
        circles: Holes to cut.
        marks: Centres to mark, of holes to drill and, if wanted, of holes to cut.
        labels: Texts.
        bounds_mm: Left, bottom, right, top of the sign.
        drawn_within_mm: Furthest that a line of the page may stray from the artwork's own curve.
        scribed: Lines that are marked on the metal, each on a layer for marks.
    """

    layers: tuple[Layer, ...]
    contours: tuple[Contour, ...]
    circles: tuple[Circle, ...]
    marks: tuple[CentreMark, ...]
    labels: tuple[Label, ...]
    bounds_mm: tuple[float, float, float, float]
    drawn_within_mm: float
    scribed: tuple[Stroke, ...] = ()

    def layer_of(self, role: Role) -> Layer:
        """The first layer of a role."""
        return next(layer for layer in self.layers if layer.role is role)
