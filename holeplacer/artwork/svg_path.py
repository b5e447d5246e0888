"""SVG paths: the `d` attribute to curves, every command, exactly.

Straight steps become polylines, cubic and quadratic Beziers splines of degree 3 (raising a
quadratic's degree is exact), elliptic arcs arcs. Beziers that continue each other smoothly are one
spline: what the artist drew as one stroke side stays one curve. Coordinates are the path's own, y
down.

Source: SVG 2 (W3C Candidate Recommendation, 4 October 2018), sections 9.3 and 9.5, appendix B.2
for arcs. Status R. As the standard asks, a path with an error is drawn up to the error.
"""

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork.svg_length import NUMBER
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import CircularArc, Curve, EllipticArc, Points, Polyline, Spline
from holeplacer.geometry.transform import IDENTITY, Matrix, transformed

Point = tuple[float, float]

SMOOTH_RAD = math.radians(2)
"""Beziers whose tangents turn by less than this where they meet are one spline."""

MOST_STEPS = 250_000
MOST_BENT_STEPS = 60_000
"""Steps of one path, and Beziers and arcs among them: gathered singly, 10 to 25 us each."""

MOST_CURVES = 20_000
"""Curves of one path; lettering has hundreds. Each takes about 0.1 ms until the outline stands."""

_LINE, _BEZIER, _ARC_KIND = 0, 1, 2
_MANY = 32
_LARGEST = 1e30
_STRAIGHT = 1e-9
_BENT = "CcSsQqTtAa"
_LETTERS = "MmZzLlHhVvCcSsQqTtAa"
_PAIRS = rf"(?:[\s,]*+{NUMBER}[\s,]*+{NUMBER})++[\s,]*+"
_COMMAND = re.compile(rf"((?:L{_PAIRS})++|(?:l{_PAIRS})++)|[{_LETTERS}][^{_LETTERS}]*+")
"""One command; lines that follow each other count as one with many points."""
_NUMBERS = re.compile(NUMBER)
_BLANKS = " \t\r\n\f,"
_ARGUMENTS = re.compile(rf"(?:[\s,]*+{NUMBER})*+[\s,]*+")
_SIZES = {"M": 2, "Z": 0, "L": 2, "H": 1, "V": 1, "C": 6, "S": 4, "Q": 4, "T": 2, "A": 7}
_GAP = r"[\s,]*"
_ARC = re.compile(
    rf"{_GAP}({NUMBER}){_GAP}({NUMBER}){_GAP}({NUMBER}){_GAP}([01]){_GAP}([01])"
    rf"{_GAP}({NUMBER}){_GAP}({NUMBER})"
)


@dataclass(frozen=True, eq=False, slots=True)
class Subpath:
    """Curves that follow each other end to start.

    Attributes:
        curves: At least one.
        closed: Whether the path closes it; a fill closes it anyway, by a straight step.
    """

    curves: tuple[Curve, ...]
    closed: bool


@dataclass(frozen=True, eq=False, slots=True)
class Path:
    """All subpaths of one `d`, those of no extent left out.

    Attributes:
        subpaths: In order.
        error: The text at which reading stopped, "" if all was read.
    """

    subpaths: tuple[Subpath, ...]
    error: str


def read_path(text: str, by: Matrix = IDENTITY) -> Path:
    """Curves of a `d` attribute under a map.

    Raises:
        ArtworkError: There are more than `MOST_STEPS` steps, `MOST_BENT_STEPS` bent ones, or
            `MOST_CURVES` curves.
    """
    pen = _Pen()
    error, bent = "", 0
    for letter, numbers, rest in _commands(text):
        if letter == "!" or not (pen.started or letter in "Mm"):
            error = rest or letter
            break
        if numbers and not max(map(abs, numbers)) < _LARGEST:
            good = next(i for i, number in enumerate(numbers) if not abs(number) < _LARGEST)
            numbers = numbers[: good - good % _SIZES[letter.upper()]]
            rest = f"{letter} with a number out of range"
        count = len(numbers) // max(_SIZES[letter.upper()], 1)
        bent += count if letter in _BENT else 0
        if bent > MOST_BENT_STEPS or len(pen.kinds) + count > MOST_STEPS:
            raise _too_much(f"{MOST_STEPS} steps, {MOST_BENT_STEPS} of them bent, in one path")
        pen.draw(letter, numbers)
        if rest:
            error = rest
            break
    return Path(_subpaths(pen, by), error[:40])


def _commands(text: str) -> Iterator[tuple[str, list[float], str]]:
    """Commands in order: letter, the numbers of whole commands, and text that is no number."""
    position = len(text) - len(text.lstrip(_BLANKS))
    while match := _COMMAND.match(text, position):
        letter, arguments = text[position], match[0][1:]
        position = match.end()
        if letter in "Zz":
            yield letter, [], arguments.strip(_BLANKS)
        elif letter in "Aa":
            yield letter, *_arc_numbers(arguments)
        elif match[1]:
            yield letter, [float(number) for number in _NUMBERS.findall(arguments)], ""
        else:
            yield letter, *_numbers(arguments, _SIZES[letter.upper()])
    if position < len(text):
        yield "!", [], text[position : position + 40]


def _numbers(arguments: str, size: int) -> tuple[list[float], str]:
    match = _ARGUMENTS.match(arguments)
    end = match.end() if match else 0
    found = _NUMBERS.findall(arguments, 0, end)
    surplus = len(found) % size
    rest = arguments[end:] or " ".join(found[len(found) - surplus :] if surplus else ())
    if not found:
        rest = rest or "a command without numbers"
    return [float(number) for number in found[: len(found) - surplus]], rest


def _arc_numbers(arguments: str) -> tuple[list[float], str]:
    """Arcs apart: their two flags are single digits that need no gap before the next number."""
    found: list[float] = []
    position = 0
    while match := _ARC.match(arguments, position):
        found += [float(number) for number in match.groups()]
        position = match.end()
    rest = arguments[position:].strip(_BLANKS)
    return found, rest or ("" if found else "a command without numbers")


class _Pen:
    """The current point, and every segment drawn so far.

    Plain floats, one segment at a time: most commands of lettering draw a single segment, and an
    array for each would cost ten times as much.
    """

    def __init__(self) -> None:
        self.started = False
        self.at = self.start = self.handle = (0.0, 0.0)
        self.handle_of = ""
        self.subpath = 0
        self.closed: set[int] = set()
        self.kinds: list[int] = []
        self.subpaths: list[int] = []
        self.points: list[float] = []
        self.arcs: dict[int, Curve] = {}

    def draw(self, letter: str, numbers: list[float]) -> None:
        """Carry out one command letter with all its numbers."""
        kind, relative = letter.upper(), letter.islower()
        size = _SIZES[kind]
        if kind == "Z":
            self._close()
        elif kind == "L" and len(numbers) > _MANY:
            self._lines(numbers, relative=relative)
            return
        for first in range(0, len(numbers), size or 1):
            values = numbers[first : first + size]
            dx, dy = self.at if relative else (0.0, 0.0)
            if kind == "M" and first == 0:
                self.at = self.start = (values[0] + dx, values[1] + dy)
                self.subpath += 1
                self.started = True
            elif kind in "ML":
                self._line((values[0] + dx, values[1] + dy))
            elif kind == "H":
                self._line((values[0] + dx, self.at[1]))
            elif kind == "V":
                self._line((self.at[0], values[0] + dy))
            elif kind == "A":
                self._arc(values, (values[5] + dx, values[6] + dy))
            else:
                pairs = iter(values)
                self._bezier(kind, [(x + dx, y + dy) for x, y in zip(pairs, pairs, strict=True)])
        if kind not in "CSQT":
            self.handle_of = ""

    def _close(self) -> None:
        if not _same(self.at, self.start):
            self._line(self.start)
        self.closed.add(self.subpath)
        self.at = self.start
        self.subpath += 1

    def _line(self, end: Point) -> None:
        self._segment(_LINE, (*self.at, *self.at, *end, *end))

    def _lines(self, numbers: list[float], *, relative: bool) -> None:
        """Many lines at once."""
        ends = np.array([*self.at, *numbers]).reshape(-1, 2)
        ends = np.cumsum(ends, axis=0) if relative else ends
        count = len(ends) - 1
        self.kinds += [_LINE] * count
        self.subpaths += [self.subpath] * count
        self.points += np.hstack([ends[:-1], ends[:-1], ends[1:], ends[1:]]).ravel().tolist()
        self.at, self.handle_of = (float(ends[-1, 0]), float(ends[-1, 1])), ""

    def _bezier(self, kind: str, points: list[Point]) -> None:
        """One C, S, Q or T; what S and T leave out is the last handle, reflected."""
        of = "C" if kind in "CS" else "Q"
        if kind in "ST":
            (x, y), (hx, hy) = self.at, self.handle if self.handle_of == of else self.at
            points = [(2 * x - hx, 2 * y - hy), *points]
        first, second, end = points[0], points[-2], points[-1]
        self.handle, self.handle_of = second, of
        if of == "Q":
            first, second = _two_thirds(self.at, second), _two_thirds(end, second)
        self._segment(_BEZIER, (*self.at, *first, *second, *end))

    def _arc(self, row: list[float], end: Point) -> None:
        if end == self.at:
            return
        if min(abs(row[0]), abs(row[1])) == 0 or _is_straight(self.at, end, row):
            self._line(end)
            return
        self.arcs[len(self.kinds)] = _arc_between(self.at, end, row)
        self._segment(_ARC_KIND, (*self.at, *self.at, *end, *end))

    def _segment(self, kind: int, points: tuple[float, ...]) -> None:
        self.kinds.append(kind)
        self.subpaths.append(self.subpath)
        self.points += points
        self.at = (points[6], points[7])


def _two_thirds(start: Point, to: Point) -> Point:
    return start[0] + (to[0] - start[0]) * 2 / 3, start[1] + (to[1] - start[1]) * 2 / 3


def _same(a: Point, b: Point) -> bool:
    """Whether two points differ by no more than the rounding of relative steps."""
    size = 1.0 + max(abs(a[0]), abs(a[1]))
    return max(abs(a[0] - b[0]), abs(a[1] - b[1])) <= 1e-10 * size


def _is_straight(start: Point, end: Point, row: list[float]) -> bool:
    """Whether an arc is so flat that its centre is lost in rounding, its rise less than that."""
    chord = math.dist(start, end)
    return row[3] == 0 and chord < _STRAIGHT * min(abs(row[0]), abs(row[1]))


def _arc_between(start: Point, end: Point, row: list[float]) -> Curve:
    """Arc through two points: centre and angles by appendix B.2.4, radii corrected by B.2.5."""
    rx, ry = abs(row[0]), abs(row[1])
    turn = math.radians(row[2])
    cos, sin = math.cos(turn), math.sin(turn)
    half_x, half_y = (start[0] - end[0]) / 2, (start[1] - end[1]) / 2
    x, y = cos * half_x + sin * half_y, -sin * half_x + cos * half_y
    reach = math.hypot(x / rx, y / ry)
    if reach > 1:
        rx, ry = rx * reach, ry * reach
    share = math.sqrt(max(0.0, 1 / max(reach, 1e-300) ** 2 - 1)) if reach < 1 else 0.0
    share = -share if row[3] == row[4] else share
    cx, cy = share * rx * y / ry, -share * ry * x / rx
    centre = (
        cos * cx - sin * cy + (start[0] + end[0]) / 2,
        sin * cx + cos * cy + (start[1] + end[1]) / 2,
    )
    first = math.atan2((y - cy) / ry, (x - cx) / rx)
    last = math.atan2((-y - cy) / ry, (-x - cx) / rx)
    sweep = (last - first) % math.tau
    if row[4] == 0:
        sweep -= math.tau
    if math.isclose(rx, ry, rel_tol=1e-12):
        return CircularArc(centre, rx, first + turn, sweep)
    if rx > ry:
        return EllipticArc(centre, (rx * cos, rx * sin), ry / rx, first, sweep)
    major = (-ry * sin, ry * cos)
    return EllipticArc(centre, major, rx / ry, first - math.pi / 2, sweep)


def _subpaths(pen: _Pen, by: Matrix) -> tuple[Subpath, ...]:
    """Segments gathered to curves: straight steps together, smooth Beziers together."""
    points = np.array(pen.points).reshape(-1, 4, 2)
    extended = np.flatnonzero(np.any(points != points[:, :1], axis=(1, 2)))
    if len(extended) == 0:
        return ()
    points = points[extended] @ by[:, :2].T + by[:, 2]
    kind, subpath = np.array(pen.kinds)[extended], np.array(pen.subpaths)[extended]
    breaks = _breaks(points, kind, subpath)
    bounds = [0, *(breaks + 1).tolist(), len(points)]
    if len(bounds) - 1 > MOST_CURVES:
        raise _too_much(f"{MOST_CURVES} curves in one path")
    curves: dict[int, list[Curve]] = {}
    for begin, end in pairwise(bounds):
        arc = pen.arcs.get(int(extended[begin]))
        curve = transformed(arc, by) if arc else _curve(points[begin:end], int(kind[begin]))
        curves.setdefault(int(subpath[begin]), []).append(curve)
    return tuple(
        Subpath(tuple(_closed_up(parts)), number in pen.closed) for number, parts in curves.items()
    )


def _too_much(what: str) -> ArtworkError:
    return ArtworkError(f"the drawing holds more than {what}", remedy="keep only the outline")


def _breaks(points: Points, kind: NDArray[np.int_], subpath: NDArray[np.int_]) -> NDArray[np.intp]:
    """After which segments a curve ends."""
    other = (subpath[1:] != subpath[:-1]) | (kind[1:] != kind[:-1]) | (kind[1:] == _ARC_KIND)
    beziers = np.flatnonzero(~other & (kind[1:] == _BEZIER))
    if len(beziers):
        leaving, arriving = -_tangents(points[beziers, ::-1]), _tangents(points[beziers + 1])
        cross = leaving[:, 0] * arriving[:, 1] - leaving[:, 1] * arriving[:, 0]
        turn = np.abs(np.arctan2(cross, (leaving * arriving).sum(axis=1)))
        other[beziers] = turn > SMOOTH_RAD
    return np.flatnonzero(other)


def _tangents(points: Points) -> Points:
    """Direction from the first point of each segment to the next that differs from it, (n, 2)."""
    steps = points[:, 1:] - points[:, :1]
    first = np.argmax(np.any(steps != 0, axis=2), axis=1)
    return np.asarray(steps[np.arange(len(points)), first])


def _curve(points: Points, kind: int) -> Curve:
    if kind == _LINE:
        return Polyline(np.concatenate([points[:1, 0], points[:, 3]]))
    control = np.concatenate([points[:1, 0], points[:, 1:].reshape(-1, 2)])
    return Spline(3, control, _knots(len(points)))


@lru_cache(maxsize=256)
def _knots(count: int) -> NDArray[np.float64]:
    """Knots of so many Beziers end to end."""
    inner = np.repeat(np.arange(1.0, count), 3)
    knots = np.concatenate([np.zeros(4), inner, np.full(4, float(count))])
    knots.setflags(write=False)
    return knots


def _closed_up(curves: list[Curve]) -> list[Curve]:
    """A lone polyline that ends where it starts is a closed one."""
    if len(curves) != 1 or not isinstance(curves[0], Polyline) or len(curves[0].xy) < 4:
        return curves
    xy = curves[0].xy
    first, last = (float(xy[0, 0]), float(xy[0, 1])), (float(xy[-1, 0]), float(xy[-1, 1]))
    return [Polyline(xy[:-1], None, closed=True)] if _same(last, first) else curves
