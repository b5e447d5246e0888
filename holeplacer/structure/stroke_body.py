"""Stroke body: a piece as beams along its medial axis, each as wide as the stroke is clear."""

import numpy as np
import shapely
from numpy.typing import NDArray
from scipy.sparse import coo_array, csc_array, csr_array, vstack
from shapely.geometry import Polygon

from holeplacer.geometry.curve import Points
from holeplacer.structure import beam
from holeplacer.structure.beam import FREEDOMS
from holeplacer.structure.body import Body, Gauges, Place, rigid
from holeplacer.structure.feet import Strokes
from holeplacer.structure.holders import holders
from holeplacer.structure.point_stress import PointStress
from holeplacer.structure.rows import Rows
from holeplacer.structure.sheet_stiffness import SheetStiffness
from holeplacer.structure.stations import Stations
from holeplacer.structure.tributary import Bits

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]

EDGE_STEP = 0.5
"""Points of the edge whose deflection is read lie no further apart, in mean stroke widths."""
EDGE_MM = 0.05
"""The edge is read without vertices that move it by less."""


def stroke_body(
    piece: int, polygon: Polygon, strip: Stations, bits: Bits, sheet: SheetStiffness
) -> Body:
    """A grillage of one piece.

    Args:
        piece: Its index.
        polygon: Its metal.
        strip: Stations of its axis.
        bits: Its metal in small parts, for the load.
        sheet: Thickness and metal.
    """
    strokes = Strokes.of(strip)
    bending = sheet.elastic_mpa * beam.bending_mm4(strip.width, sheet.thickness_mm)
    twisting = sheet.shear_mpa * beam.torsion_mm4(strip.width, sheet.thickness_mm)
    size = FREEDOMS * len(strip.xy)
    place = Place.of(polygon)
    edge = _edge(polygon)
    freedoms = FREEDOMS * holders(strip)[:, None] + np.arange(FREEDOMS)
    return Body(
        piece=piece,
        place=place,
        stiffness=_stiffness(strokes, bending, twisting),
        rigid=rigid(strip.xy, place),
        load=strokes.rows(strokes.feet(bits.xy))[0].transposed(bits.area),
        held=freedoms.ravel(),
        attach=lambda xy: strokes.rows(strokes.feet(xy)),
        branches=tuple(strip.of_branch),
        first=strip.first_of_branch,
        along_xy=strip.xy[strip.in_a_row],
        along=Rows(FREEDOMS * strip.in_a_row[:, None], np.ones((len(strip.in_a_row), 1)), size),
        gauges=_gauges(strokes, bending, twisting, sheet.thickness_mm),
        metal_xy=edge,
        metal=strokes.rows(strokes.feet(edge))[0],
    )


def _edge(polygon: Polygon) -> Points:
    step = EDGE_STEP * 2.0 * polygon.area / polygon.length
    simple = shapely.simplify(polygon.boundary, min(EDGE_MM, 0.1 * step))
    edge: Points = shapely.get_coordinates(shapely.segmentize(simple, step))
    return edge


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


def _gauges(strokes: Strokes, bending: Floats, twisting: Floats, thickness_mm: float) -> Gauges:
    """Stress at both ends of each beam: M / W and T / W_T of its own section.

    To what the ends' movements tell of M comes q l^2 / 12, by which the pressure on the beam itself
    bends it; what standoffs between them add is told by `PointStress`.
    """
    strip = strokes.stations
    size, count = FREEDOMS * len(strip.xy), len(strip.first)
    first, last, torque = beam.end_forces(strokes.step, bending, twisting)
    modulus = strip.width * thickness_mm**2 / 6.0
    polar = beam.torsion_modulus_mm3(strip.width, thickness_mm)
    between = strip.width * (strokes.step**2).sum(axis=1) / 12.0 / modulus
    freedom = np.tile(_freedoms(strip), (2, 1))

    pointer = np.arange(2 * count + 1) * 6

    def sparse(values: Floats, divisor: Floats) -> csr_array:
        scaled = values / np.tile(divisor, 2)[:, None]
        return csr_array((scaled.ravel(), freedom.ravel(), pointer), shape=(2 * count, size))

    along = sparse(np.concatenate([first, last]), modulus)
    shear = sparse(np.concatenate([torque, torque]), polar)
    # the two stations of each beam, counted along all branches in a row
    first_ends = np.setdiff1d(np.arange(len(strip.in_a_row)), strip.first_of_branch[1:] - 1)
    station = np.concatenate([first_ends, first_ends + 1])
    order = np.argsort(station, kind="stable")
    return Gauges(
        xy=np.concatenate([strip.xy[strip.first], strip.xy[strip.last]]),
        components=csr_array(vstack([along, csr_array((2 * count, size)), shear])),
        preset=np.concatenate([np.tile(between, 2), np.zeros(4 * count)]),
        mean=None,
        points=PointStress(strokes, modulus, polar, between),
        station=station[order],
        gauge=order,
    )
