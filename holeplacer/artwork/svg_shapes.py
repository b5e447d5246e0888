"""SVG basic shapes: rect, circle, ellipse, line, polyline, polygon and path to curves.

Source: SVG 2 (W3C Candidate Recommendation, 4 October 2018), chapter 10. Status R. Coordinates
are the element's own, y down.
"""

import math
import re
from collections.abc import Callable

import numpy as np
from lxml import etree

from holeplacer.artwork.svg_document import local_name
from holeplacer.artwork.svg_length import NUMBER, Viewport, length
from holeplacer.artwork.svg_path import Path, Subpath, read_path
from holeplacer.geometry.curve import CircularArc, Curve, EllipticArc, Polyline
from holeplacer.geometry.transform import IDENTITY, Matrix, moved, transformed

_NUMBERS = re.compile(NUMBER)
_NOTHING = Path((), "")


def read_shape(
    element: etree._Element, viewport: Viewport, by: Matrix = IDENTITY, d: str | None = None
) -> Path:
    """Curves of a shape; none if it has no extent.

    Args:
        element: One of `SHAPES`.
        viewport: What its percentages are shares of.
        by: Map from the element's coordinates to those wanted; not singular.
        d: Path data that a style sheet sets instead of the attribute.
    """
    if d is not None:
        return read_path(d, by)
    return SHAPES[local_name(element)](element, viewport, by)


def _path(element: etree._Element, viewport: Viewport, by: Matrix) -> Path:  # noqa: ARG001 (one signature)
    return read_path(element.get("d") or "", by)


def _rect(element: etree._Element, viewport: Viewport, by: Matrix) -> Path:
    x, width = _along(element, "x", viewport.width), _along(element, "width", viewport.width)
    y, height = _along(element, "y", viewport.height), _along(element, "height", viewport.height)
    if width < 0 or height < 0:
        return Path((), "a negative size")
    if width == 0 or height == 0:
        return _NOTHING
    rx, ry = _corner_radii(element, viewport, width, height)
    if rx == 0 or ry == 0:
        corners = [(x, y), (x + width, y), (x + width, y + height), (x, y + height)]
        return _closed(Polyline(np.array(corners), None, closed=True), by)
    text = (
        f"M{x + rx!r} {y!r}H{x + width - rx!r}A{rx!r} {ry!r} 0 0 1 {x + width!r} {y + ry!r}"
        f"V{y + height - ry!r}A{rx!r} {ry!r} 0 0 1 {x + width - rx!r} {y + height!r}"
        f"H{x + rx!r}A{rx!r} {ry!r} 0 0 1 {x!r} {y + height - ry!r}"
        f"V{y + ry!r}A{rx!r} {ry!r} 0 0 1 {x + rx!r} {y!r}Z"
    )
    return read_path(text, by)


def _corner_radii(
    element: etree._Element, viewport: Viewport, width: float, height: float
) -> tuple[float, float]:
    """Radii of a rect's corners: each stands in for the other, none beyond half a side."""
    rx, ry = length(element.get("rx")), length(element.get("ry"))
    across = rx.user_units(viewport.width) if rx and rx.value >= 0 else None
    down = ry.user_units(viewport.height) if ry and ry.value >= 0 else None
    across = down if across is None else across
    down = across if down is None else down
    return min(across or 0.0, width / 2), min(down or 0.0, height / 2)


def _circle(element: etree._Element, viewport: Viewport, by: Matrix) -> Path:
    radius = _along(element, "r", viewport.diagonal)
    return _round(element, viewport, radius, radius, by)


def _ellipse(element: etree._Element, viewport: Viewport, by: Matrix) -> Path:
    rx, ry = length(element.get("rx")), length(element.get("ry"))
    across = rx.user_units(viewport.width) if rx else None
    down = ry.user_units(viewport.height) if ry else None
    across = down if across is None else across
    down = across if down is None else down
    return _round(element, viewport, across or 0.0, down or 0.0, by)


def _round(element: etree._Element, viewport: Viewport, rx: float, ry: float, by: Matrix) -> Path:
    if rx < 0 or ry < 0:
        return Path((), "a negative radius")
    if rx == 0 or ry == 0:
        return _NOTHING
    centre = (_along(element, "cx", viewport.width), _along(element, "cy", viewport.height))
    if rx == ry:
        return _closed(CircularArc(centre, rx, 0.0, math.tau), by)
    major = (rx, 0.0) if rx > ry else (0.0, ry)
    return _closed(EllipticArc(centre, major, min(rx, ry) / max(rx, ry), 0.0, math.tau), by)


def _line(element: etree._Element, viewport: Viewport, by: Matrix) -> Path:
    ends = [
        (_along(element, f"x{end}", viewport.width), _along(element, f"y{end}", viewport.height))
        for end in (1, 2)
    ]
    if ends[0] == ends[1]:
        return _NOTHING
    return Path((Subpath((Polyline(moved(ends, by)),), False),), "")


def _polyline(element: etree._Element, viewport: Viewport, by: Matrix) -> Path:  # noqa: ARG001 (one signature)
    return _through(element, by, close="")


def _polygon(element: etree._Element, viewport: Viewport, by: Matrix) -> Path:  # noqa: ARG001 (one signature)
    return _through(element, by, close="Z")


def _through(element: etree._Element, by: Matrix, close: str) -> Path:
    """A list of points is read as the path that joins them: same grammar, same errors."""
    points = element.get("points") or ""
    letters = re.search(r"[A-DF-Za-df-z]", points)
    if letters:
        path = read_path(f"M{points[: letters.start()]}{close}", by)
        return Path(path.subpaths, points[letters.start() :][:40])
    return read_path(f"M{points}{close}", by) if _NUMBERS.search(points) else _NOTHING


def _along(element: etree._Element, name: str, whole: float) -> float:
    value = length(element.get(name))
    return 0.0 if value is None else value.user_units(whole)


def _closed(curve: Curve, by: Matrix) -> Path:
    return Path((Subpath((transformed(curve, by),), True),), "")


SHAPES: dict[str, Callable[[etree._Element, Viewport, Matrix], Path]] = {
    "path": _path,
    "rect": _rect,
    "circle": _circle,
    "ellipse": _ellipse,
    "line": _line,
    "polyline": _polyline,
    "polygon": _polygon,
}
"""Reader of each basic shape by element name."""
