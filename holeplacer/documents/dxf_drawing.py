"""Hole drawing: the whole sign with its holes, ready for the cutting table."""

from collections.abc import Iterable
from functools import partial
from pathlib import Path

from holeplacer.documents import contours, dxf_check, dxf_file, write
from holeplacer.documents.dxf_wish import Wish
from holeplacer.documents.page import CentreMark, Circle, Contour, Label, Layer, Page, Role
from holeplacer.evaluation.layout import Layout
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import process
from holeplacer.units import LengthUnit, format_length

HOLES, MARKS = "HOLES", "MARKS"
_BLACK, _RED, _GREEN = 7, 1, 3
_MARK_SHARE = 0.5
_LABEL_MM = 6.0
"""Height of numbers: readable on a sheet of paper and on metal; common practice, no source."""


def write_hole_drawing(
    layout: Layout, path: Path, wish: Wish | None = None, *, protected: Iterable[Path] = ()
) -> str:
    """Write the drawing; an old file is replaced only after the new one is read back and proven.

    Args:
        layout: The plan with its outline.
        path: Where to.
        wish: How it is wanted.
        protected: Files that must not be overwritten.

    Returns:
        Name of the layer that the holes are on: `HOLES`, unless the artwork has one of that name.

    Raises:
        ExportError: It could not be written, or failed its read-back.
        InputError: The version or unit is not known.
    """
    wish = wish or Wish()
    page = hole_page(layout, wish)
    data = dxf_file.dxf_bytes(page, version=wish.version, units=wish.units)
    proof = partial(
        dxf_check.check_dxf,
        page=page,
        outline=layout.outline,
        version=wish.version,
        units=wish.units,
    )
    write.replace_file(path, data, check=proof, protected=protected)
    return page.layer_of(Role.HOLE).name


def hole_drawing(
    layout: Layout,
    *,
    version: str = "R2000",
    units: str = "mm",
    numbers: bool = True,
    centre_marks: bool = True,
) -> bytes:
    """The drawing as a DXF file, proven by reading it back; arguments as in `Wish`.

    Raises:
        ExportError: It failed its read-back.
        InputError: The version or unit is not known.
    """
    page = hole_page(layout, Wish(version, units, numbers, centre_marks))
    data = dxf_file.dxf_bytes(page, version=version, units=units)
    dxf_check.check_dxf(data, page, layout.outline, version=version, units=units)
    return data


def hole_page(layout: Layout, wish: Wish) -> Page:
    """What the drawing shows: contours, holes to cut, centres to mark, texts."""
    plan = layout.plan
    drilled = {
        hole.number for hole in plan.holes if process.is_drilled(plan, plan.diameter_of(hole))
    }
    found = contours.contours_of(layout.outline, layout.artwork.drawn, plan.reading.tolerance_mm)
    marked = [hole for hole in plan.holes if wish.centre_marks or hole.number in drilled]
    return Page(
        layers=_layers(found),
        contours=found,
        circles=tuple(_circle(plan, hole) for hole in plan.holes if hole.number not in drilled),
        marks=tuple(_mark(plan, hole) for hole in marked),
        labels=_labels(layout, wish),
        bounds_mm=layout.outline.bounds_mm,
        drawn_within_mm=plan.reading.tolerance_mm + contours.FITTED_WITHIN_MM,
    )


def _layers(found: Iterable[Contour]) -> tuple[Layer, ...]:
    """The contours' layers in order, then those of holes and marks under names still free."""
    names = list(dict.fromkeys(stroke.layer for item in found for stroke in item.strokes))
    taken = {name.upper() for name in names}
    return (
        *(Layer(name, Role.CONTOUR, _BLACK) for name in names),
        Layer(_free_name(HOLES, taken), Role.HOLE, _RED),
        Layer(_free_name(MARKS, taken), Role.MARK, _GREEN),
    )


def _free_name(name: str, taken: set[str]) -> str:
    """The name, or with a number if the artwork has a layer of that name."""
    number, free = 1, name
    while free in taken:
        number += 1
        free = f"{name}-{number}"
    return free


def _circle(plan: Plan, hole: Hole) -> Circle:
    return Circle(hole.number, hole.x_mm, hole.y_mm, plan.diameter_of(hole))


def _mark(plan: Plan, hole: Hole) -> CentreMark:
    """A cross that stays inside the hole."""
    size = _MARK_SHARE * plan.diameter_of(hole)
    return CentreMark(hole.number, hole.x_mm, hole.y_mm, size)


def _labels(layout: Layout, wish: Wish) -> tuple[Label, ...]:
    """Numbers beside the holes, and below the sign its true size, to prove the scale by."""
    if not wish.numbers:
        return ()
    plan = layout.plan
    numbers = tuple(
        Label(
            str(hole.number),
            hole.x_mm + 0.75 * plan.diameter_of(hole),
            hole.y_mm + 0.75 * plan.diameter_of(hole),
            _LABEL_MM,
        )
        for hole in plan.holes
    )
    left, bottom, right, top = layout.outline.bounds_mm
    unit = LengthUnit(wish.units)
    size = f"{format_length(right - left, unit)} x {format_length(top - bottom, unit)}"
    return (*numbers, Label(f"Sign {size} overall", left, bottom - 3 * _LABEL_MM, _LABEL_MM))
