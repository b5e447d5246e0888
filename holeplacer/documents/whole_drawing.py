"""Whole drawing: the sign in one piece, original curves in the order of cutting."""

from collections.abc import Sequence

import numpy as np

from holeplacer.cutting import contour_order
from holeplacer.cutting import contours as cut_contours
from holeplacer.cutting.contours import Kind, Part
from holeplacer.documents import contours, cut_drawing, dxf_r12
from holeplacer.documents.cut_drawing import LAYER_OF, CutDrawing, CutStyle
from holeplacer.documents.page import Contour, Stroke
from holeplacer.geometry import trim
from holeplacer.geometry.curve import EllipticArc, Polyline, Spline
from holeplacer.outline.drawn import DrawnCurves
from holeplacer.outline.outline import Outline


def whole_drawing(
    outline: Outline,
    drawn: DrawnCurves,
    parts: Sequence[Part],
    least_hole_mm: float | None,
    style: CutStyle | None = None,
    *,
    flattened_mm: float = 0.02,
) -> CutDrawing:
    """The whole sign; its edges go out as they were drawn, splines as splines.

    Args:
        outline: The cut outline.
        drawn: The artwork's curves.
        parts: Sections in sign coordinates, for their holes, labels, seams and match marks.
        least_hole_mm: Holes under this diameter are marked, not cut; None: all of them.
        style: How it is wanted.
        flattened_mm: How far the outline's chords may stray from the drawn curves.

    Returns:
        For `cut_drawing.write_drawing` or `cut_drawing.proven_dxf`.
    """
    style = style or CutStyle()
    whole = [Part("", piece.polygon) for piece in outline.pieces]
    whole.append(Part("", whole[0].polygon, tuple(h for part in parts for h in part.holes)))
    edges = cut_contours.contours_of(whole[:-1], None)
    holes = [item for item in cut_contours.contours_of(whole[-1:], least_hole_mm) if item.hole]
    paths = [*holes, *edges]
    found = [*(None for _ in holes), *_in_order_of(edges, outline, drawn, flattened_mm)]
    marked = [h for h in whole[-1].holes if not cut_contours.is_cut(h, least_hole_mm)]
    strokes = list(cut_drawing.marks_of(marked, parts, labels=style.labels))
    order = contour_order.order(paths)
    for index in order:
        hole, contour, layer = paths[index].hole, found[index], LAYER_OF[paths[index].kind]
        if hole is not None:
            strokes.append(Stroke(cut_drawing.circle_of(hole), layer))
        elif contour is not None:
            strokes += _drawn_strokes(contour, layer, old=style.version == "R12")
    cut = [stroke for stroke in strokes if stroke.layer in LAYER_OF.values()]
    return CutDrawing(
        strokes=tuple(strokes),
        paths=tuple(paths[index] for index in order),
        bounds_mm=outline.bounds_mm,
        entities=sum(_steps(stroke) for stroke in cut),
        deviation_mm=0.0,
        within_mm=flattened_mm
        + contours.FITTED_WITHIN_MM
        + (dxf_r12.FITTED_WITHIN_MM if style.version == "R12" else 0.0),
        directed=False,
    )


def _in_order_of(
    edges: Sequence[cut_contours.Contour], outline: Outline, drawn: DrawnCurves, flattened_mm: float
) -> list[Contour]:
    """The drawn contour of each edge: piece by piece, there the outer comes last."""
    found: list[Contour] = []
    piece: list[Contour] = []
    for contour in contours.contours_of(outline, drawn, flattened_mm):
        if contour.outer and piece:
            found += [*piece[1:], piece[0]]
            piece = []
        piece.append(contour)
    found += [*piece[1:], *piece[:1]]
    kinds = [Kind.OUTER if contour.outer else Kind.COUNTER for contour in found]
    if kinds != [edge.kind for edge in edges]:  # both go through the same rings
        raise AssertionError(kinds)
    return found


def _drawn_strokes(contour: Contour, layer: str, *, old: bool) -> list[Stroke]:
    """A contour against the outline's sense: outer clockwise, counters anticlockwise."""
    turned = [
        Stroke(item.curve if item.backwards else trim.reversed_curve(item.curve), layer)
        for item in reversed(contour.strokes)
    ]
    bent = any(isinstance(item.curve, Spline | EllipticArc) for item in turned)
    if old and bent:
        return [Stroke(dxf_r12.as_polyline(Contour(tuple(turned), contour.outer)), layer)]
    return turned


def _steps(stroke: Stroke) -> int:
    """Lines and arcs of a polyline; any other curve is one."""
    if not isinstance(stroke.curve, Polyline):
        return 1
    return int(np.size(stroke.curve.xy, 0)) - (0 if stroke.curve.closed else 1)
