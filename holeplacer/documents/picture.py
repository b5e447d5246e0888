"""Picture: the sign with its holes to look at, as an SVG image at true size."""

from collections.abc import Iterable
from xml.sax.saxutils import escape

import numpy as np
from shapely.geometry import Polygon

from holeplacer.documents import caution
from holeplacer.evaluation.evaluate import Evaluation, HoleFigures
from holeplacer.evaluation.layout import Layout
from holeplacer.units import format_length

_METAL, _EDGE, _PAPER, _BAD, _INK = "#c9ced6", "#1f2933", "#ffffff", "#c2410c", "#1f2933"
Box = tuple[float, float, float, float]
"""Left, top, width, height; y down."""

_LINE_SHARE = 0.0006
_TEXT_SHARE = 0.012
_MARGIN_SHARE = 0.04


def picture(layout: Layout, evaluation: Evaluation) -> bytes:
    """The sign in metal grey with its holes, their caps and numbers, and its overall size.

    A hole that breaks a rule wears a thick broken ring, so that it shows without colour too.

    Args:
        layout: The plan with its outline.
        evaluation: Its findings and figures.

    Returns:
        SVG, one user unit per mm, y turned down.
    """
    left, bottom, right, top = layout.outline.bounds_mm
    wide, high = right - left, top - bottom
    margin = _MARGIN_SHARE * max(wide, high)
    text = _TEXT_SHARE * max(wide, high)
    foot = 4 * text
    bad = {f.place.index for f in evaluation.findings if f.broken and f.place.kind.value == "hole"}
    cap = layout.plan.standoff.cap_mm
    box = (left - margin, -top - margin, wide + 2 * margin, high + 2 * margin + foot)
    line = _n(_LINE_SHARE * max(wide, high))
    metal = _path(piece.polygon for piece in layout.outline.pieces)
    parts = [
        '<?xml version="1.0" encoding="UTF-8"?>',
        _opening(box),
        f"<title>{escape(_plain(layout.plan.artwork.name))}</title>",
        f"<desc>{escape(caution.SHORT)}</desc>",
        f'<rect {_place(box)} fill="{_PAPER}"/>',
        f'<path fill="{_METAL}" fill-rule="evenodd" stroke="{_EDGE}" stroke-width="{line}"',
        f' d="{metal}"/>',
        f'<g font-family="sans-serif" font-size="{_n(text)}" fill="{_INK}">',
        *(_hole(hole, cap, text, hole.number in bad) for hole in evaluation.holes),
        _label(left, -bottom + margin / 2 + text, _size(wide, high, len(evaluation.holes))),
        _label(left, -bottom + margin / 2 + 2.6 * text, caution.SHORT, 0.8 * text),
        "</g>",
        "</svg>",
    ]
    return "\n".join(parts).encode("utf-8", errors="replace") + b"\n"


def _opening(box: Box) -> str:
    seen = " ".join(_n(value) for value in box)
    size = f'width="{_n(box[2])}mm" height="{_n(box[3])}mm"'
    return f'<svg xmlns="http://www.w3.org/2000/svg" {size} viewBox="{seen}">'


def _place(box: Box) -> str:
    x, y, wide, high = (_n(value) for value in box)
    return f'x="{x}" y="{y}" width="{wide}" height="{high}"'


def _hole(hole: HoleFigures, cap_mm: float, text: float, bad: bool) -> str:
    x, y, radius = hole.x_mm, -hole.y_mm, hole.diameter_mm / 2
    parts = []
    if cap_mm > 0:
        parts.append(_circle(x, y, cap_mm / 2, f'fill="{_EDGE}" fill-opacity="0.15"'))
    parts.append(_circle(x, y, radius, f'fill="{_PAPER}" stroke="{_EDGE}" stroke-width="0.5"'))
    if bad:
        ring = f'fill="none" stroke="{_BAD}" stroke-width="2" stroke-dasharray="4 2"'
        parts.append(_circle(x, y, max(2.5 * radius, cap_mm / 2 + 2), ring))
    offset = max(1.2 * radius, cap_mm / 2)
    parts.append(_label(x + offset, y - offset, str(hole.number), text))
    return "\n".join(parts)


def _circle(x: float, y: float, radius: float, look: str) -> str:
    return f'<circle cx="{_n(x)}" cy="{_n(y)}" r="{_n(radius)}" {look}/>'


def _label(x: float, y: float, text: str, size: float = 0.0) -> str:
    own = f' font-size="{_n(size)}"' if size else ""
    return f'<text x="{_n(x)}" y="{_n(y)}"{own}>{escape(text)}</text>'


def _size(wide: float, high: float, holes: int) -> str:
    noun = "hole" if holes == 1 else "holes"
    return f"{format_length(wide)} × {format_length(high)}, {holes} {noun}"


def _path(polygons: Iterable[Polygon]) -> str:
    rings = (
        np.asarray(ring.coords)[:-1]
        for polygon in polygons
        for ring in (polygon.exterior, *polygon.interiors)
    )
    return "".join(
        "M" + "L".join(f"{x:.3f},{y:.3f}" for x, y in (ring * (1.0, -1.0)).tolist()) + "Z"
        for ring in rings
    )


def _plain(text: str) -> str:
    """Text without signs that XML forbids."""
    return "".join(sign if sign.isprintable() else "?" for sign in text)


def _n(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")
