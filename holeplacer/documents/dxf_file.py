"""DXF file: a page in the version and unit asked for."""

import io
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from functools import partial

from ezdxf._options import options
from ezdxf.document import Drawing
from ezdxf.filemanagement import new
from ezdxf.lldxf.validator import make_table_key

from holeplacer.documents import caution, dxf_r12
from holeplacer.documents.dxf_entities import EntityWriter
from holeplacer.documents.dxf_wish import VERSIONS
from holeplacer.documents.page import Layer, Page, Role
from holeplacer.errors import InputError
from holeplacer.units import DRAWING_UNITS_MM

UNIT_NAMES = {"mm": "MILLIMETRES", "in": "INCHES"}
_INSUNITS = {"mm": 4, "in": 1}
_METRIC = {"mm": 1, "in": 0}


def dxf_bytes(page: Page, *, version: str = "R2000", units: str = "mm") -> bytes:
    """The page as an ASCII DXF file; the same page always gives the same bytes.

    Order of entities: holes, counters, outer contours, marks, as they are cut. `$INSUNITS` and
    `$MEASUREMENT` state the unit; R12 knows neither, so there it stands in a comment at the head
    of the file; the caution heads every file. In R12 splines and ellipses become closed polylines
    (see `dxf_r12`).

    Args:
        page: What to draw.
        version: One of `dxf_wish.VERSIONS`.
        units: `mm` or `in`.

    Raises:
        InputError: The version or unit is not known.
    """
    _refuse_unknown(version, units)
    shown = dxf_r12.simplified(page) if version == "R12" else page
    return drawn_bytes(
        shown.layers,
        shown.bounds_mm,
        partial(_add_entities, shown),
        version=version,
        units=units,
    )


def drawn_bytes(
    layers: Iterable[Layer],
    bounds_mm: tuple[float, float, float, float],
    draw: Callable[[EntityWriter], None],
    *,
    version: str,
    units: str,
) -> bytes:
    """A DXF file with some layers and whatever `draw` writes; versions and units as above.

    Args:
        layers: Their names must suit the version.
        bounds_mm: Left, bottom, right, top of what is drawn.
        draw: Called once with the writer.
        version: One of `dxf_wish.VERSIONS`.
        units: `mm` or `in`.

    Raises:
        InputError: The version or unit is not known.
    """
    _refuse_unknown(version, units)
    old, per_mm = version == "R12", 1.0 / DRAWING_UNITS_MM[units]
    with _fixed_dates():
        document = new(version, setup=False)
        _state_units(document, units, old=old)
        _add_layers(document, layers)
        draw(EntityWriter(document, per_mm))
        _show_whole(document, bounds_mm, per_mm)
        text = _text_of(document)
    text = f"999\n{caution.SHORT}\n{text}"
    if old:
        text = f"999\nUnits: {UNIT_NAMES[units].lower()}\n{text}"
    return document.encode(text.replace("\n", "\r\n"))


def _refuse_unknown(version: str, units: str) -> None:
    if version not in VERSIONS:
        raise InputError(
            f"DXF version {version!r} can't be written", remedy=f"choose {', '.join(VERSIONS)}"
        )
    if units not in _INSUNITS:
        raise InputError(f"a drawing in {units!r} can't be written", remedy="choose mm or in")


def _state_units(document: Drawing, units: str, *, old: bool) -> None:
    if not old:  # R12 has no such variables
        document.header["$INSUNITS"] = _INSUNITS[units]
        document.header["$MEASUREMENT"] = _METRIC[units]
    document.header["$LUNITS"] = 2  # decimal


def _add_layers(document: Drawing, layers: Iterable[Layer]) -> None:
    for layer in layers:
        if make_table_key(layer.name) in document.layers:  # layer 0 is always there
            document.layers.get(layer.name).color = layer.colour
        else:
            document.layers.add(layer.name, color=layer.colour)


def _add_entities(page: Page, writer: EntityWriter) -> None:
    hole = page.layer_of(Role.HOLE)
    for circle in page.circles:
        writer.circle(circle, hole.name, hole.colour)
    for contour in sorted(page.contours, key=lambda contour: contour.outer):
        for stroke in contour.strokes:
            writer.curve(stroke.curve, stroke.layer)
    mark_layer = page.layer_of(Role.MARK)
    for mark in page.marks:
        writer.centre_mark(mark, mark_layer.name, mark_layer.colour)
    for stroke in page.scribed:
        writer.curve(stroke.curve, stroke.layer)
    for label in page.labels:
        writer.label(label, mark_layer.name, mark_layer.colour)


def _show_whole(
    document: Drawing, bounds_mm: tuple[float, float, float, float], per_mm: float
) -> None:
    """State the extents and let a viewer open on the whole sign."""
    left, bottom, right, top = (value * per_mm for value in bounds_mm)
    space = document.modelspace()
    space.reset_extents((left, bottom, 0.0), (right, top, 0.0))
    height = max(top - bottom, (right - left) / 2, 1.0) * 1.1
    document.set_modelspace_vport(height, ((left + right) / 2, (bottom + top) / 2))


def _text_of(document: Drawing) -> str:
    stream = io.StringIO()
    document.write(stream)
    return stream.getvalue()


@contextmanager
def _fixed_dates() -> Iterator[None]:
    """Dates and identifiers that don't change from run to run, so that equal plans compare equal.

    The library has only this switch for it, common to the whole process; it is set back at once.
    """
    before = options.write_fixed_meta_data_for_testing
    options.write_fixed_meta_data_for_testing = True
    try:
        yield
    finally:
        options.write_fixed_meta_data_for_testing = before
