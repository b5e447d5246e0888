"""Grillage: the sign as elastic strokes along its medial axis, ready to be put on standoffs."""

from dataclasses import dataclass
from functools import lru_cache

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse import coo_array, csc_array, csr_array, dia_array
from scipy.sparse.csgraph import dijkstra

from holeplacer.errors import InputError
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.structure import beam, tributary
from holeplacer.structure.beam import FREEDOMS
from holeplacer.structure.body import Body, Gauges
from holeplacer.structure.feet import Strokes
from holeplacer.structure.stations import Stations, stations
from holeplacer.structure.supports import Held, held

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

HOLDERS_MM = 300.0
"""No station is further along the axis from a holder than this, or a thirtieth of the axis."""
EDGE_STEP = 0.25
"""Points of the edge whose deflection is read lie no further apart, in mean stroke widths."""


@dataclass(frozen=True, eq=False)
class Grillage:
    """The sign without its standoffs. Compared and cached by identity.

    Attributes:
        outline, axis: What it was made of.
        thickness_mm: Of the sheet.
        bodies: One for each piece, factored.
        ways: Way to the stations along each branch of the axis, mm; read-only.
        doubtful: Places where the model is not to be trusted, in words.
    """

    outline: Outline
    axis: Axis
    thickness_mm: float
    bodies: tuple[Held, ...]
    ways: tuple[Floats, ...]
    doubtful: tuple[str, ...] = ()


@lru_cache(maxsize=4)
def grillage(
    outline: Outline, axis: Axis, *, thickness_mm: float, elastic_mpa: float, shear_mpa: float
) -> Grillage:
    """Build and factor the sign; kept for as long as it is in use.

    Args:
        outline: The cut outline.
        axis: Its medial axis.
        thickness_mm: Of the sheet.
        elastic_mpa, shear_mpa: E and G of the metal.

    Raises:
        InputError: Thickness or stiffness is not a positive number.
    """
    for value, what in (
        (thickness_mm, "thickness"),
        (elastic_mpa, "elastic modulus"),
        (shear_mpa, "shear modulus"),
    ):
        if not (np.isfinite(value) and value > 0):
            raise InputError(
                f"the sheet's {what} must be more than zero", remedy="enter a positive figure"
            )
    ways: list[Floats] = [np.empty(0)] * len(axis.branches)
    bodies = []
    for piece in range(len(outline.pieces)):
        strip = stations(axis, piece)
        bodies.append(held(_body(outline, strip, piece, thickness_mm, elastic_mpa, shear_mpa)))
        for branch, way in strip.ways.items():
            way.setflags(write=False)
            ways[branch] = way
    return Grillage(outline, axis, thickness_mm, tuple(bodies), tuple(ways))


def _body(
    outline: Outline,
    strip: Stations,
    piece: int,
    thickness_mm: float,
    elastic_mpa: float,
    shear_mpa: float,
) -> Body:
    polygon = outline.pieces[piece].polygon
    strokes = Strokes.of(strip)
    bending = elastic_mpa * beam.bending_mm4(strip.width, thickness_mm)
    twisting = shear_mpa * beam.torsion_mm4(strip.width, thickness_mm)
    size = FREEDOMS * len(strip.xy)
    bits = tributary.bits(polygon)
    load = strokes.rows(strokes.feet(bits.xy))[0].T @ bits.area
    centre = np.array(outline.pieces[piece].centre_of_gravity_mm)
    extent = float(np.hypot(polygon.bounds[2] - polygon.bounds[0],
                            polygon.bounds[3] - polygon.bounds[1])) / 2  # fmt: skip
    edge = shapely.get_coordinates(
        shapely.segmentize(
            shapely.simplify(polygon.boundary, 0.05), EDGE_STEP * 4 * polygon.area / polygon.length
        )
    )
    return Body(
        piece=piece,
        stiffness=_stiffness(strokes, bending, twisting),
        rigid=_rigid(strip.xy, centre, extent),
        centre=centre,
        size=extent,
        load=load,
        held=_holders(strip),
        attach=lambda xy: strokes.rows(strokes.feet(xy)),
        area_mm2=float(polygon.area),
        branches=tuple(strip.of_branch),
        along=tuple(_picked(at, size) for at in strip.of_branch.values()),
        gauges=_gauges(strokes, bending, twisting, thickness_mm),
        metal_xy=edge,
        metal=strokes.rows(strokes.feet(edge))[0],
    )


def _stiffness(strokes: Strokes, bending: Floats, twisting: Floats) -> csc_array:
    strip = strokes.stations
    size = FREEDOMS * len(strip.xy)
    if not len(strip.first):
        return csc_array((size, size))
    local = beam.stiffness(strokes.step, bending, twisting)
    freedom = _freedoms(strip)
    rows = np.repeat(freedom, 6, axis=1).ravel()
    columns = np.tile(freedom, (1, 6)).ravel()
    return csc_array(coo_array((local.ravel(), (rows, columns)), shape=(size, size)))


def _freedoms(strip: Stations) -> Indices:
    """(m, 6) freedoms of each beam."""
    one, two = FREEDOMS * strip.first[:, None], FREEDOMS * strip.last[:, None]
    freedoms: Indices = np.concatenate([one + np.arange(3), two + np.arange(3)], axis=1)
    return freedoms


def _rigid(xy: Floats, centre: Floats, extent: float) -> Floats:
    rigid = np.zeros((FREEDOMS * len(xy), 3))
    rigid[::3, 0] = 1.0
    rigid[::3, 1:] = (xy - centre) / extent
    rigid[1::3, 1] = rigid[2::3, 2] = 1.0 / extent
    return rigid


def _picked(stations_at: Indices, size: int) -> csr_array:
    count = len(stations_at)
    columns = FREEDOMS * stations_at
    return csr_array((np.ones(count), (np.arange(count), columns)), shape=(count, size))


def _holders(strip: Stations) -> Indices:
    """All freedoms of stations so chosen that every other one is near one of them."""
    count = len(strip.xy)
    if count == 1:
        return np.arange(FREEDOMS)
    length = np.hypot(*(strip.xy[strip.last] - strip.xy[strip.first]).T)
    graph = csr_array((length, (strip.first, strip.last)), shape=(count, count))
    reach = max(HOLDERS_MM, float(length.sum()) / 30.0)
    chosen, way = [0], dijkstra(graph, directed=False, indices=0)
    while way.max() > reach:
        chosen.append(int(way.argmax()))
        way = np.minimum(way, dijkstra(graph, directed=False, indices=chosen[-1], limit=4 * reach))
    return (FREEDOMS * np.array(chosen)[:, None] + np.arange(3)).ravel()


def _gauges(strokes: Strokes, bending: Floats, twisting: Floats, thickness_mm: float) -> Gauges:
    """Stress at both ends of each beam: M / W and T / W_T of its own section."""
    strip = strokes.stations
    size, count = FREEDOMS * len(strip.xy), len(strip.first)
    if not count:
        none = csr_array((0, size))
        return Gauges(
            np.empty((0, 2)), np.empty(0, np.intp), np.empty(0, np.intp), none, none, none
        )
    first, last, torque = beam.end_forces(strokes.step, bending, twisting)
    modulus = strip.width * thickness_mm**2 / 6.0
    polar = beam.torsion_modulus_mm3(strip.width, thickness_mm)
    freedom = np.tile(_freedoms(strip), (2, 1))
    row = np.repeat(np.arange(2 * count), 6)

    def sparse(values: Floats, divisor: Floats) -> csr_array:
        scaled = dia_array((1.0 / np.tile(divisor, 2)[None], [0]), shape=(2 * count, 2 * count))
        plain = csr_array((values.ravel(), (row, freedom.ravel())), shape=(2 * count, size))
        return csr_array(scaled @ plain)

    place = [np.arange(len(at)) for at in strip.of_branch.values()]
    return Gauges(
        xy=np.concatenate([strip.xy[strip.first], strip.xy[strip.last]]),
        branch=np.tile(strip.branch, 2),
        station=np.concatenate([*[p[:-1] for p in place], *[p[1:] for p in place]]),
        along=sparse(np.concatenate([first, last]), modulus),
        across=csr_array((2 * count, size)),
        shear=sparse(np.concatenate([torque, torque]), polar),
    )
