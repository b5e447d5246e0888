"""Reading: from a file to an outline with its account: the one door to this package."""

import numpy as np
import shapely
from shapely.geometry import MultiPolygon

from holeplacer.artwork.account import Entry, ImportAccount
from holeplacer.artwork.accounting import mapped
from holeplacer.artwork.artwork import Artwork, ArtworkFile
from holeplacer.artwork.drawing import Drawing
from holeplacer.artwork.options import ReadOptions
from holeplacer.artwork.scaling import LARGEST_MM, fitting_scale, known_scale, levelled, units_of
from holeplacer.artwork.shaping import Shaped, shape
from holeplacer.artwork.source import Format, sniff, unpacked
from holeplacer.errors import ArtworkError
from holeplacer.geometry.curve import Curve
from holeplacer.geometry.flatten import flatten_all
from holeplacer.geometry.transform import Matrix, combined, matrix, moved, transformed
from holeplacer.outline.drawn import DrawnCurves
from holeplacer.outline.outline import Outline

_ROUGH = 1e-4
"""Share of a drawing's extent that is near enough to guess its scale by."""

_SLACK = 0.999
"""Share of the tolerance that is used while the scale is not yet exact."""

_NEAR = (0.98, 1 / _SLACK)
"""Factors still missing to the true scale with which the tolerance holds."""

_MOST_ROUNDS = 4


def read_artwork(file: ArtworkFile, options: ReadOptions) -> Artwork:
    """Read a file to an outline.

    Coordinates: a DXF's own times its unit; an SVG's from the lower left corner of its page, y up
    (`svg_page` says in which unit). A unit given in the options replaces the one that the file
    states: its numbers are then in that unit.

    Raises:
        UnitsMissing: The file states no unit and none was given.
        ArtworkError: The file can't be read, encloses no area, or is no lettering.
    """
    try:
        return _read(file, options)
    except ArtworkError as error:
        if error.where:
            raise
        raise type(error)(error.what, where=file.name, remedy=error.remedy) from error


def _read(file: ArtworkFile, options: ReadOptions) -> Artwork:
    scale = known_scale(options)
    drawing = _drawing(file, options)
    units = units_of(drawing.units, options)
    by = levelled(units, options)
    if scale is None:
        shaped, scale, last = _fitted(drawing, by, options)
    else:
        last = 1.0
        shaped = shape(
            drawing,
            _times(by, scale),
            tolerance=options.tolerance_mm,
            reach=options.chain_mm,
        )
        _refuse_empty(shaped, drawing)
    outline = _outline(shaped, last)
    return Artwork(
        outline=outline,
        drawn=_drawn(shaped, last),
        account=_account(drawing, shaped, units, _times(by, scale), last),
        units=units,
        units_stated=drawing.units is not None,
        layers=drawing.layers,
        scale=scale,
    )


def _drawing(file: ArtworkFile, options: ReadOptions) -> Drawing:
    """The file as its format's reader gives it; only that reader is loaded."""
    if sniff(file) is Format.SVG:
        from holeplacer.artwork.svg_drawing import read_svg

        return read_svg(file, options.layers)
    from holeplacer.artwork.dxf_reader import read_dxf

    return read_dxf(unpacked(file), file.name, options)


def _fitted(drawing: Drawing, by: Matrix, options: ReadOptions) -> tuple[Shaped, float, float]:
    """Shape a drawing to an overall size, whose scale only its outline tells.

    Returns:
        The drawing at nearly that size, the true scale, and the factor that is still missing.
    """
    scale = fitting_scale(_rough_bounds(drawing, by), options)
    for _ in range(_MOST_ROUNDS):
        shaped = shape(
            drawing,
            _times(by, scale),
            tolerance=options.tolerance_mm * _SLACK,
            reach=options.chain_mm,
        )
        _refuse_empty(shaped, drawing)
        last = fitting_scale(MultiPolygon(list(shaped.united.polygons)).bounds, options)
        scale *= last
        if _NEAR[0] <= last <= _NEAR[1]:
            return shaped, scale, last
    raise ArtworkError(
        "which contours are closed changes with the size",
        remedy="give a smaller chaining distance",
    )


def _rough_bounds(drawing: Drawing, by: Matrix) -> tuple[float, float, float, float]:
    """Bounds of all curves under a map, nearly."""
    curves: list[Curve] = [
        transformed(part.curve, by)
        for part in (*(p for c in drawing.contours for p in c.segments), *drawing.loose)
    ]
    lines = [moved(bulk.xy.reshape(-1, 2), by) for bulk in drawing.lines]
    coarse = flatten_all(curves, LARGEST_MM).xy
    size = float(np.ptp(np.concatenate([coarse, *lines]), axis=0).max())
    fine = flatten_all(curves, max(size, 1e-9) * _ROUGH).xy
    every = np.concatenate([fine, *lines])
    low, high = every.min(axis=0).tolist(), every.max(axis=0).tolist()
    return low[0], low[1], high[0], high[1]


def _times(by: Matrix, scale: float) -> Matrix:
    return by if scale == 1 else combined(matrix(scale, 0, 0, scale, 0, 0), by)


def _refuse_empty(shaped: Shaped, drawing: Drawing) -> None:
    if shaped.united.polygons:
        return
    left_out = sorted(
        (*drawing.account.ignored, *shaped.ignored), key=lambda entry: entry.count, reverse=True
    )
    names = [f"{entry.count} × {entry.what}" for entry in left_out[:3]]
    raise ArtworkError(
        "it encloses no area of metal" + (f" (not read: {', '.join(names)})" if names else ""),
        remedy="draw the lettering as closed contours, in SVG with a fill",
    )


def _outline(shaped: Shaped, last: float) -> Outline:
    """The outline; the last factor is applied to it and to the table of points alike."""
    region = MultiPolygon(list(shaped.united.polygons))
    if last != 1:
        region = shapely.transform(region, lambda xy: xy * last)
    left, bottom, right, top = region.bounds
    if max(right - left, top - bottom) > LARGEST_MM:
        raise ArtworkError(
            f"the outline is {max(right - left, top - bottom) / 1000:.0f} m large",
            remedy="check the units and the scale",
        )
    return Outline.from_geometry(region)


def _drawn(shaped: Shaped, last: float) -> DrawnCurves:
    by = matrix(last, 0, 0, last, 0, 0)
    curves = (part.curve for part in shaped.segments)
    drawn = DrawnCurves(
        curves=tuple(curves if last == 1 else (transformed(curve, by) for curve in curves)),
        layers=tuple(part.layer for part in shaped.segments),
        kinds=tuple(part.kind for part in shaped.segments),
        xy=shaped.rings.xy if last == 1 else shaped.rings.xy * last,
        curve=shaped.rings.curve,
        t=shaped.rings.t,
    )
    for array in (drawn.xy, drawn.curve, drawn.t):
        array.setflags(write=False)
    return drawn


def _account(
    drawing: Drawing, shaped: Shaped, units: str, to_sign: Matrix, last: float
) -> ImportAccount:
    """The reader's entries and the pipeline's, all with their places on the sign."""

    def placed(place: tuple[float, float]) -> tuple[float, float]:
        x, y = moved([place], to_sign)[0].tolist()
        return x, y

    def grown(place: tuple[float, float]) -> tuple[float, float]:
        return place[0] * last, place[1] * last

    told = drawing.account
    replaced = (
        [Entry(f"units {units} as entered, instead of {drawing.units} as the file states", "")]
        if drawing.units not in (None, units)
        else []
    )
    return ImportAccount(
        read=mapped(told.read, placed),
        mended=(*mapped(told.mended, placed), *replaced, *mapped(shaped.mended, grown)),
        ignored=(*mapped(told.ignored, placed), *mapped(shaped.ignored, grown)),
    )
