"""Coupon drawing: the coupon cut like the sign, each trial labelled on the mark layer; its slip."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from functools import partial
from pathlib import Path

import numpy as np

from holeplacer.cutting import coupon as coupons
from holeplacer.cutting import cut_path
from holeplacer.cutting.coupon import Coupon, Trial
from holeplacer.cutting.cut_path import CutWish
from holeplacer.documents import caution, cut_check, cut_drawing, dxf_file, single_line, write
from holeplacer.documents.cut_drawing import CutDrawing, CutStyle
from holeplacer.documents.dxf_entities import EntityWriter
from holeplacer.documents.page import Stroke
from holeplacer.geometry.curve import Polyline
from holeplacer.plan.plan import Plan
from holeplacer.sheet import process

_MARKS = "MARKS"
_FROM_EDGE_MM = 1.0


def coupon_drawing(
    plan: Plan, made: Coupon, style: CutStyle | None = None, wish: CutWish | None = None
) -> bytes:
    """The coupon as a DXF file, proven by reading it back.

    Args:
        plan: Its process and sheet.
        made: What is drawn.
        style: DXF version and unit.
        wish: Offset and lead-ins; take those of the sign's own drawing, or the trial proves
            nothing.

    Raises:
        ExportError: It failed its read-back.
        InputError: The version or unit is not known.
    """
    style = style or CutStyle()
    drawing = drawing_of(plan, made, style, wish)
    data = _dxf(drawing, style)
    _proof(drawing, style)(data)
    return data


def write_coupon_drawing(
    plan: Plan,
    made: Coupon,
    to: Path,
    style: CutStyle | None = None,
    wish: CutWish | None = None,
    *,
    protected: Iterable[Path] = (),
) -> None:
    """Write the drawing; an old file is replaced only after the new one is read back and proven.

    Raises:
        ExportError: It could not be written, or failed its read-back.
        InputError: The version or unit is not known.
    """
    style = style or CutStyle()
    drawing = drawing_of(plan, made, style, wish)
    check = _proof(drawing, style)
    write.replace_file(to, _dxf(drawing, style), check=check, protected=protected)


def drawing_of(
    plan: Plan, made: Coupon, style: CutStyle, wish: CutWish | None = None
) -> CutDrawing:
    """Everything that the drawing shows: labels and rings first, then the paths in order."""
    path = cut_path.cut_path(
        [made.part()],
        process.process(plan.sheet.process),
        plan.sheet.thickness_mm,
        wish=wish,
    )
    drawing = cut_drawing.drawing_of(path, replace(style, labels=False))
    marks = [mark for trial in made.trials for mark in _marks(trial, made.width_mm)]
    return replace(drawing, strokes=(*marks, *drawing.strokes))


def slip_text(plan: Plan, made: Coupon) -> bytes:
    """The slip on which is recorded what fitted, to print or to fill in, with the caution."""
    lines = (*coupons.slip(plan, made), caution.SHORT)
    return "".join(f"{line}\r\n\r\n" for line in lines).encode("utf-8", errors="replace")


def _marks(trial: Trial, plate_mm: float) -> Iterator[Stroke]:
    """The label below a trial, kept off the plate's right edge, and the ring round it."""
    width = single_line.width_mm(trial.label, coupons.LABEL_MM)
    left = min(trial.x_mm - width / 2, plate_mm - width - _FROM_EDGE_MM)
    start = (left, trial.label_y_mm)
    for line in single_line.strokes_of(trial.label, coupons.LABEL_MM, start):
        yield Stroke(Polyline(line), _MARKS)
    if trial.bearing_mm > 0:
        yield Stroke(_ring(trial), _MARKS)


def _ring(trial: Trial) -> Polyline:
    x, y, radius = trial.x_mm, trial.y_mm, trial.bearing_mm / 2
    ends = np.array([(x + radius, y), (x - radius, y)])
    return Polyline(ends, np.array([1.0, 1.0]), closed=True)


def _dxf(drawing: CutDrawing, style: CutStyle) -> bytes:
    def draw(writer: EntityWriter) -> None:
        for stroke in drawing.strokes:
            writer.curve(stroke.curve, stroke.layer)

    return dxf_file.drawn_bytes(
        cut_drawing.LAYERS, drawing.bounds_mm, draw, version=style.version, units=style.units
    )


def _proof(drawing: CutDrawing, style: CutStyle) -> "partial[None]":
    return partial(
        cut_check.check_cut_drawing,
        paths=drawing.paths,
        layer_of=cut_drawing.LAYER_OF,
        version=style.version,
        units=style.units,
        tolerance_mm=drawing.within_mm,
    )
