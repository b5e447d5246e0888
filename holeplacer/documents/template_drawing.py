"""Template drawing: what of a template lies in a window, as items on paper.

A window is a box in sign coordinates; it is drawn true to size with its lower left corner at a
place of the leaf. Grid, lines and cut edges end at the window. A hole whose symbol reaches into
the window is drawn whole, so that no page shows half of one.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
import shapely

from holeplacer.documents.template import SYMBOL_MM, Template, TemplateHole
from holeplacer.paper import display_list, font
from holeplacer.paper.display_list import (
    BLACK,
    WHITE,
    Box,
    Circle,
    Group,
    Item,
    Line,
    Path,
    Pen,
    Subpath,
    Text,
    grey,
)
from holeplacer.units import MM_PER_INCH, LengthUnit, format_length

EDGE = Pen(0.35)
_GRID, _STRONG = Pen(0.1, grey(0.72)), Pen(0.18, grey(0.55))
_LEVEL, _PLUMB = Pen(0.35, BLACK, (12.0, 2.0, 2.0, 2.0)), Pen(0.25, BLACK, (12.0, 2.0, 2.0, 2.0))
_SEAM = Pen(0.25, grey(0.5), (3.0, 2.0))
_PUNCH, _RING = Pen(0.13), Pen(0.25)
_NUMBER_MM, _NOTE_MM, _SMALL_MM, _PITCH_MM = 6.5, 3.0, 2.3, 3.6
_LABELS_APART_MM = 48.0
_CORNER_MM = 28.0
_LEVEL_LABELS_MM = 900.0


def drawn(
    template: Template,
    window: Box,
    at: tuple[float, float] = (0.0, 0.0),
    *,
    inset_mm: float = 0.0,
) -> tuple[Item, ...]:
    """Everything of the template in a window.

    Args:
        template: What is to be shown.
        window: In sign coordinates.
        at: Where the window's lower left corner lies on the leaf.
        inset_mm: Figures of lines stand so far inside the window, where paper is not cut off.

    Returns:
        Groups named `grid`, `level`, `seams`, `edges`, `datum`, `holes`, in the leaf's coordinates.
    """
    pen = _Window(template, window, at, inset_mm)
    frame = (*at, at[0] + window[2] - window[0], at[1] + window[3] - window[1])
    return (
        Group(tuple(pen.grid()), "grid", frame),
        Group(tuple(pen.level_and_plumb()), "level", frame),
        Group(tuple(pen.seams()), "seams", frame),
        Group((*pen.grounds(), *pen.edges()), "edges"),
        Group(tuple(pen.datum()), "datum", frame),
        Group(tuple(pen.holes()), "holes"),
    )


def length(mm: float, unit: LengthUnit) -> str:
    """A length as short as can be: a number of millimetres, or inches with their mark."""
    shown = format_length(mm, unit)
    return shown.removesuffix(" mm") if unit is LengthUnit.MM else f'{shown.removesuffix(" in")}"'


@dataclass(frozen=True)
class HoleLabel:
    """What stands beside a hole, in sign coordinates.

    Attributes:
        hole: The hole.
        lines: Text, left end and base line, size, whether bold.
    """

    hole: TemplateHole
    lines: tuple[tuple[str, float, float, float, bool], ...]


def label_of(template: Template, hole: TemplateHole, window: Box) -> HoleLabel:
    """A hole's number and notes on the side where they cross the least of cut edges.

    Args:
        template: Whose cut edges are to be kept clear of.
        hole: The hole.
        window: The label lies inside it where it can.
    """
    number = str(hole.number)
    wide = max(
        font.width_mm(number, _NUMBER_MM, bold=True),
        *(font.width_mm(line, _NOTE_MM) for line in hole.says),
    )
    above, below = _NUMBER_MM, len(hole.says) * _PITCH_MM
    aside, reach = hole.diameter_mm / 2 + 1.5, hole.reach_mm + 1.0
    places = (
        (hole.x_mm + aside, hole.y_mm + 0.6),
        (hole.x_mm - aside - wide, hole.y_mm + 0.6),
        (hole.x_mm - wide / 2, hole.y_mm + reach + below),
        (hole.x_mm - wide / 2, hole.y_mm - reach - above),
    )

    def badness(place: tuple[float, float]) -> float:
        left, base = place
        box = (left, base - below, left + wide, base + above)
        crossed = shapely.clip_by_rect(template.edges, *box).length
        return float(crossed) + 1e4 * _beyond(box, window)

    left, base = min(places, key=badness)
    notes = [
        (line, left, base - 0.4 - (index + 1) * _PITCH_MM, _NOTE_MM, False)
        for index, line in enumerate(hole.says)
    ]
    return HoleLabel(hole, ((number, left, base + 0.6, _NUMBER_MM, True), *notes))


def _beyond(box: Box, window: Box) -> float:
    """How far a box reaches out of a window."""
    out = (window[0] - box[0], window[1] - box[1], box[2] - window[2], box[3] - window[3])
    return max(0.0, *out)


class _Window:
    """Draws a template's parts, moved from sign coordinates to the leaf's."""

    def __init__(
        self, template: Template, window: Box, at: tuple[float, float], inset_mm: float
    ) -> None:
        self._template = template
        self._window = window
        self._inset = inset_mm
        self._shift = np.array([at[0] - window[0], at[1] - window[1]])
        self._labels = [
            label_of(template, hole, window) for hole in template.holes if _reaches(hole, window)
        ]

    def grid(self) -> Iterator[Item]:
        """Grid lines, every fifth (every foot of an inch grid) stronger, numbered at the edge."""
        left, bottom, right, top = self._window
        step, unit = self._template.grid_mm, self._template.unit
        strong, every = rhythm(step, unit)
        x0, y0 = self._template.datum_mm[0], self._template.level_mm
        columns = _multiples(left - x0, right - x0, step)
        rows = _multiples(bottom - y0, top - y0, step)
        for index in columns:
            pen = _GRID if index % strong else _STRONG
            yield self._line(x0 + index * step, bottom, x0 + index * step, top, pen)
        for index in rows:
            pen = _GRID if index % strong else _STRONG
            yield self._line(left, y0 + index * step, right, y0 + index * step, pen)
        low, side = bottom + self._inset + 1.2, left + self._inset + 6.5
        # Pages that are joined bear figures of their own at the corners.
        room = (_CORNER_MM, 10.0) if self._inset else (6.0, 6.0)
        for index in columns:
            if index % every == 0 and side + room[0] < x0 + index * step < right - room[0]:
                yield from self._tag(x0 + index * step, low, length(index * step, unit))
        for index in rows:
            if index % every == 0 and low + room[1] < y0 + index * step < top - room[1]:
                yield from self._tag(side, y0 + index * step - 0.8, length(index * step, unit))

    def level_and_plumb(self) -> Iterator[Item]:
        """The level line and the plumb lines, each named where it enters the window."""
        left, bottom, right, top = self._window
        at, unit = self._template.level_mm, self._template.unit
        if bottom <= at <= top:
            yield self._line(left, at, right, at, _LEVEL)
            x = left + self._inset + 34
            while x < right - 30:
                yield from self._name(x, at + 0.9, "LEVEL LINE")
                x += _LEVEL_LABELS_MM
        for x in dict.fromkeys(self._template.plumbs_mm):
            if left <= x <= right:
                yield self._line(x, bottom, x, top, _PLUMB)
                name = f"PLUMB LINE {length(x - self._template.datum_mm[0], unit)}"
                yield from self._name(x - 0.9, bottom + self._inset + 36, name, upright=True)

    def seams(self) -> Iterator[Item]:
        """Seams, faint, with their numbers."""
        for number, (x1, y1, x2, y2) in self._template.seams:
            yield self._line(x1, y1, x2, y2, _SEAM)
            x, y = self._moved((x1 + x2) / 2, (y1 + y2) / 2)
            yield Text(f"seam {number}", x + 1.2, y + 0.6, _SMALL_MM, colour=grey(0.45))

    def edges(self) -> Iterator[Item]:
        """The cut edges, cut off at the window."""
        inside = shapely.clip_by_rect(self._template.edges, *self._window)
        runs = []
        for part in shapely.get_parts(inside):
            xy = shapely.get_coordinates(part)
            closed = len(xy) > 3 and bool((xy[0] == xy[-1]).all())
            runs.append(Subpath((xy[:-1] if closed else xy) + self._shift, closed))
        if runs:
            yield Path(tuple(runs), EDGE)

    def datum(self) -> Iterator[Item]:
        """The origin of listed dimensions: a ring with two filled quarters."""
        x, y = self._moved(*self._template.datum_mm)
        radius = SYMBOL_MM / 2
        for start in (0.0, math.pi):
            turn = np.linspace(start, start + math.pi / 2, 9)
            arc = radius * np.column_stack([np.cos(turn), np.sin(turn)])
            xy = np.vstack([np.zeros((1, 2)), arc]) + np.array([[x, y]])
            yield Path((Subpath(xy, closed=True),), None, BLACK)
        yield Circle(x, y, radius, _RING)
        yield from display_list.cross(x, y, SYMBOL_MM, _RING)
        yield Text("DATUM 0, 0", x + radius + 1, y - radius - 1.5, _SMALL_MM, bold=True)

    def grounds(self) -> Iterator[Item]:
        """White behind what is said beside holes, so that no grid line runs through it."""
        for label in self._labels:
            for text, x, y, size, bold in label.lines:
                at = self._moved(x, y)
                yield _backing(*at, font.width_mm(text, size, bold), size)

    def holes(self) -> Iterator[Item]:
        """Every hole whose symbol reaches into the window, whole: cross, ring, number, notes."""
        for label in self._labels:
            hole = label.hole
            x, y = self._moved(hole.x_mm, hole.y_mm)
            yield Circle(x, y, hole.diameter_mm / 2, _RING)
            yield from display_list.cross(x, y, hole.reach_mm, _PUNCH)
            for text, left, base, size, bold in label.lines:
                yield Text(text, *self._moved(left, base), size, bold)

    def _tag(self, x: float, y: float, text: str) -> Iterator[Item]:
        """A grid line's figure, centred."""
        x, y = self._moved(x, y)
        half = font.width_mm(text, _SMALL_MM) / 2
        yield _backing(x - half, y, 2 * half, _SMALL_MM)
        yield Text(text, x, y, _SMALL_MM, anchor="middle", colour=grey(0.35))

    def _name(self, x: float, y: float, text: str, *, upright: bool = False) -> Iterator[Item]:
        x, y = self._moved(x, y)
        yield Text(text, x, y, _SMALL_MM, bold=True, angle_rad=math.pi / 2 if upright else 0.0)

    def _line(self, x1: float, y1: float, x2: float, y2: float, pen: Pen) -> Line:
        return Line(*self._moved(x1, y1), *self._moved(x2, y2), pen)

    def _moved(self, x: float, y: float) -> tuple[float, float]:
        return x + float(self._shift[0]), y + float(self._shift[1])


def rhythm(step_mm: float, unit: LengthUnit) -> tuple[int, int]:
    """Every how many grid lines one is strong, and one bears its figure.

    >>> rhythm(50.0, LengthUnit.MM), rhythm(25.4, LengthUnit.INCH), rhythm(10.0, LengthUnit.MM)
    ((5, 1), (12, 2), (5, 5))
    """
    strong = 12 if unit is LengthUnit.INCH and math.isclose(step_mm, MM_PER_INCH) else 5
    least = math.ceil(_LABELS_APART_MM / step_mm)
    divisors = (n for n in range(least, strong + 1) if strong % n == 0)
    return strong, next(divisors, strong * math.ceil(least / strong))


def _backing(x: float, y: float, width: float, size: float) -> Path:
    """White behind a text, so that no grid line runs through it."""
    top = y + font.CAPITAL_SHARE * size
    return display_list.rectangle((x - 0.4, y - 0.4, x + width + 0.4, top + 0.4), None, WHITE)


def _reaches(hole: TemplateHole, window: Box) -> bool:
    left, bottom, right, top = window
    reach = hole.reach_mm
    return left - reach < hole.x_mm < right + reach and bottom - reach < hole.y_mm < top + reach


def _multiples(low: float, high: float, step: float) -> range:
    """Whole numbers whose multiples of `step` lie from `low` to `high`."""
    return range(math.ceil(low / step - 1e-9), math.floor(high / step + 1e-9) + 1)
