"""What R12 can hold: lines, arcs, circles and polylines with bulges; plain layer names."""

import math
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from holeplacer.documents.page import Contour, Layer, Page, Stroke
from holeplacer.geometry import arc_spline, flatten
from holeplacer.geometry.curve import CircularArc, EllipticArc, Points, Polyline, Spline

FITTED_WITHIN_MM = 0.02
"""Furthest that the arcs and lines in place of a spline or an ellipse stray from it: common
practice, no source; a plasma cut's own accuracy is ten times coarser."""

_LONGEST_NAME = 31
_ALLOWED = frozenset("ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789$-_")


def simplified(page: Page) -> Page:
    """The page with nothing on it that R12 lacks.

    A contour with a spline or an ellipse becomes one closed polyline with arcs, its straight and
    circular parts kept exactly; every other contour stays as it is. Layer names become capitals,
    digits, `$`, `-` and `_`, at most 31 of them, still different from each other.
    """
    names = _plain_names(page.layers)
    contours = tuple(_simplified_contour(contour, names) for contour in page.contours)
    scribed = tuple(replace(stroke, layer=names[stroke.layer]) for stroke in page.scribed)
    layers = plain_layers(page.layers)
    return replace(page, layers=layers, contours=contours, scribed=scribed)


def plain_layers(layers: tuple[Layer, ...]) -> tuple[Layer, ...]:
    """The layers under names that R12 can hold."""
    names = _plain_names(layers)
    return tuple(replace(layer, name=names[layer.name]) for layer in layers)


def _simplified_contour(contour: Contour, names: dict[str, str]) -> Contour:
    layer = names[contour.strokes[0].layer]
    if any(isinstance(stroke.curve, Spline | EllipticArc) for stroke in contour.strokes):
        return Contour((Stroke(as_polyline(contour), layer),), contour.outer)
    strokes = (replace(stroke, layer=names[stroke.layer]) for stroke in contour.strokes)
    return Contour(tuple(strokes), contour.outer)


def as_polyline(contour: Contour, tolerance_mm: float = FITTED_WITHIN_MM) -> Polyline:
    """A contour as one closed polyline with bulges, in the contour's direction.

    Straight and circular parts are exact; splines and ellipses become arcs within the tolerance.
    """
    parts = [_steps(stroke, tolerance_mm) for stroke in contour.strokes]
    xy = np.concatenate([points[:-1] for points, _ in parts])
    bulges = np.concatenate([bulges for _, bulges in parts])
    return Polyline(xy, bulges if bulges.any() else None, closed=True)


def _steps(stroke: Stroke, tolerance_mm: float) -> tuple[Points, NDArray[np.float64]]:
    """Corners (n + 1, 2) of a stroke, both ends among them, and bulges (n,) between them."""
    curve = stroke.curve
    if isinstance(curve, Polyline):
        xy = np.vstack([curve.xy, curve.xy[:1]]) if curve.closed else curve.xy
        bulges = np.zeros(len(xy) - 1) if curve.bulges is None else curve.bulges[: len(xy) - 1]
    elif isinstance(curve, CircularArc):
        xy, bulges = _arc_steps(curve)
    else:
        chain = flatten.flatten(curve, tolerance_mm / 4)[1]
        chain = _without_repeats(chain)
        fitted = arc_spline.fitted(chain, tolerance_mm / 2, tolerance_mm / 4).polyline
        xy = fitted.xy
        bulges = np.zeros(len(xy) - 1) if fitted.bulges is None else fitted.bulges[:-1]
    return (xy[::-1], -bulges[::-1]) if stroke.backwards else (xy, bulges)


def _without_repeats(chain: Points) -> Points:
    """The chain without points equal to the one before."""
    differs: NDArray[np.bool_] = np.any(np.diff(chain, axis=0) != 0, axis=1)
    return np.ascontiguousarray(chain[np.append(True, differs)])


def _arc_steps(arc: CircularArc) -> tuple[Points, NDArray[np.float64]]:
    """An arc in steps of at most a half circle, so that no bulge exceeds 1."""
    count = max(1, math.ceil(abs(arc.sweep) / math.pi - 1e-9))
    angle = arc.start + arc.sweep * np.linspace(0.0, 1.0, count + 1)
    xy = np.array(arc.centre) + arc.radius * np.column_stack([np.cos(angle), np.sin(angle)])
    return xy, np.full(count, math.tan(arc.sweep / count / 4))


def _plain_names(layers: tuple[Layer, ...]) -> dict[str, str]:
    """An R12 name for every layer name."""
    plain: dict[str, str] = {}
    for layer in layers:
        kept = "".join(sign if sign in _ALLOWED else "_" for sign in layer.name.upper())
        name, number = kept[:_LONGEST_NAME] or "_", 1
        while name in plain.values():
            number += 1
            name = f"{kept[: _LONGEST_NAME - len(str(number)) - 1]}-{number}"
        plain[layer.name] = name
    return plain
