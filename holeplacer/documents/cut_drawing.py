"""Cut drawing: what one sheet, or the whole sign, is cut by: paths in order, pierces, marks."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from functools import partial
from pathlib import Path

import numpy as np

from holeplacer.cutting.contours import Contour, Kind, Part, RoundHole
from holeplacer.cutting.cut_path import Cut, CutPath
from holeplacer.cutting.lead_in import LeadIn
from holeplacer.documents import cut_check, cut_marks, dxf_file, write
from holeplacer.documents.dxf_entities import EntityWriter
from holeplacer.documents.page import Layer, Role, Stroke
from holeplacer.geometry import arc_spline
from holeplacer.geometry.curve import Points, Polyline

LAYERS = (
    Layer("HOLES", Role.HOLE, 1),
    Layer("COUNTERS", Role.CONTOUR, 4),
    Layer("OUTER", Role.CONTOUR, 7),
    Layer("SEAMS", Role.MARK, 5),
    Layer("MARKS", Role.MARK, 3),
    Layer("PIERCES", Role.MARK, 6),
)
"""What a cut drawing is made of; the names suit every DXF version."""

LAYER_OF = {Kind.HOLE: "HOLES", Kind.COUNTER: "COUNTERS", Kind.OUTER: "OUTER"}

FITTED_WITHIN_MM = 0.05
"""Furthest that lines and arcs stray from a path: common practice, no source; half of what a
plasma table repeats."""


@dataclass(frozen=True)
class CutStyle:
    """How the drawing is wanted.

    Attributes:
        version: DXF version.
        units: `mm` or `in`.
        tolerance_mm: Furthest that lines and arcs stray from the curves that the paths stand for.
        flattened_mm: Furthest that chords of the paths stray from those.
        labels: Whether parts are labelled and seams marked.
    """

    version: str = "R2000"
    units: str = "mm"
    tolerance_mm: float = FITTED_WITHIN_MM
    labels: bool = True
    flattened_mm: float = 0.02


@dataclass(frozen=True, eq=False)
class CutDrawing:
    """A drawing ready to be written.

    Attributes:
        strokes: Every line in the order of the file: marks, then each path after its lead-in.
        paths: The closed paths it must hold, in order.
        bounds_mm: Left, bottom, right, top.
        entities: Number of lines and arcs that the paths are made of.
        deviation_mm: Furthest that they stray from the paths.
        within_mm: How far they may from any point of the paths' chords.
        kink_rad: Largest angle between lines and arcs where the paths have no corner.
    """

    strokes: tuple[Stroke, ...]
    paths: tuple[Contour, ...]
    bounds_mm: tuple[float, float, float, float]
    entities: int
    deviation_mm: float
    within_mm: float = FITTED_WITHIN_MM
    kink_rad: float = 0.0


def drawing_of(path: CutPath, style: CutStyle | None = None) -> CutDrawing:
    """Everything that the drawing of a sheet shows."""
    style = style or CutStyle()
    strokes = list(marks_of(path.marked, path.parts, labels=style.labels))
    entities, deviation, kink = 0, 0.0, 0.0
    for cut in path.cuts:
        fit = _path_curve(cut.path, style)
        if cut.lead is not None:
            strokes.append(Stroke(_way(cut.lead), "PIERCES"))
        strokes.append(Stroke(fit.polyline, LAYER_OF[cut.path.kind]))
        entities += fit.entities
        deviation, kink = max(deviation, fit.deviation_mm), max(kink, fit.kink_rad)
    return CutDrawing(
        tuple(strokes),
        tuple(cut.path for cut in path.cuts),
        _bounds(path),
        entities,
        deviation,
        style.tolerance_mm + 1.25 * style.flattened_mm,
        kink,
    )


def cut_drawing(path: CutPath, style: CutStyle | None = None) -> bytes:
    """The drawing of a sheet as a DXF file, proven by reading it back.

    Raises:
        ExportError: It failed its read-back.
        InputError: The version or unit is not known.
    """
    style = style or CutStyle()
    return proven_dxf(drawing_of(path, style), style)


def write_cut_drawing(
    path: CutPath, to: Path, style: CutStyle | None = None, *, protected: Iterable[Path] = ()
) -> CutDrawing:
    """Write the drawing; an old file is replaced only after the new one is read back and proven.

    Raises:
        ExportError: It could not be written, or failed its read-back.
        InputError: The version or unit is not known.
    """
    style = style or CutStyle()
    drawing = drawing_of(path, style)
    write_drawing(drawing, to, style, protected=protected)
    return drawing


def write_drawing(
    drawing: CutDrawing, to: Path, style: CutStyle, *, protected: Iterable[Path] = ()
) -> None:
    """Write a drawing; an old file is replaced only after the new one is read back and proven.

    Raises:
        ExportError: It could not be written, or failed its read-back.
        InputError: The version or unit is not known.
    """
    check = _proof(drawing, style)
    write.replace_file(to, _dxf(drawing, style), check=check, protected=protected)


def proven_dxf(drawing: CutDrawing, style: CutStyle) -> bytes:
    """A drawing as a DXF file, proven by reading it back.

    Raises:
        ExportError: It failed its read-back.
        InputError: The version or unit is not known.
    """
    data = _dxf(drawing, style)
    _proof(drawing, style)(data)
    return data


def _dxf(drawing: CutDrawing, style: CutStyle) -> bytes:
    return dxf_file.drawn_bytes(
        LAYERS,
        drawing.bounds_mm,
        partial(_draw, drawing),
        version=style.version,
        units=style.units,
    )


def _draw(drawing: CutDrawing, writer: EntityWriter) -> None:
    for stroke in drawing.strokes:
        writer.curve(stroke.curve, stroke.layer)


def _proof(drawing: CutDrawing, style: CutStyle) -> "partial[None]":
    return partial(
        cut_check.check_cut_drawing,
        paths=drawing.paths,
        layer_of=LAYER_OF,
        version=style.version,
        units=style.units,
        tolerance_mm=drawing.within_mm,
    )


def _path_curve(path: Contour, style: CutStyle) -> arc_spline.ArcSpline:
    """A closed path from where it is met on: a hole as two half circles, else lines and arcs."""
    if path.hole is not None:
        return arc_spline.ArcSpline(circle_of(path.hole), np.zeros(2, bool), 0.0, 0.0)
    return arc_spline.fitted(path.xy, style.tolerance_mm, style.flattened_mm, closed=True)


def circle_of(hole: RoundHole) -> Polyline:
    """A hole as two half circles, anticlockwise from its rightmost point."""
    x, y, radius = hole.x_mm, hole.y_mm, hole.diameter_mm / 2
    return Polyline(np.array([(x + radius, y), (x - radius, y)]), np.array([1.0, 1.0]), closed=True)


def _way(lead: LeadIn) -> Polyline:
    bulges = np.array([lead.bulge, 0.0]) if lead.bulge else None
    return Polyline(np.array([lead.pierce, lead.entry]), bulges)


def marks_of(
    marked: Iterable[RoundHole], parts: Iterable[Part], *, labels: bool
) -> Iterator[Stroke]:
    """Centre marks of holes to drill and, if wanted, labels, match marks and seams of parts."""
    for hole in marked:
        yield from _lines(cut_marks.centre_mark(hole), "MARKS")
    for part in parts if labels else ():
        yield from _lines(cut_marks.label(part), "MARKS")
        yield from _lines(cut_marks.match_marks(part), "MARKS")
        seams = (np.array([seam.start, seam.end]) for seam in part.seams)
        yield from _lines(seams, "SEAMS")


def _lines(lines: Iterable[Points], layer: str) -> Iterable[Stroke]:
    return (Stroke(Polyline(xy), layer) for xy in lines)


def _bounds(path: CutPath) -> tuple[float, float, float, float]:
    """Of all paths and pierces."""
    points = [cut.path.xy for cut in path.cuts]
    points += [np.array([lead.pierce]) for lead in map(_lead, path.cuts) if lead is not None]
    xy = np.concatenate(points) if points else np.zeros((1, 2))
    (left, bottom), (right, top) = xy.min(axis=0).tolist(), xy.max(axis=0).tolist()
    return left, bottom, right, top


def _lead(cut: Cut) -> LeadIn | None:
    return cut.lead
