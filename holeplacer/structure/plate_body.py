"""Plate body: a piece as a plate, where its strokes are too wide or too joined to be beams.

A thin plate has no shear across its edges: it twists as a strip with J = b t^3 / 3, a share of
0.63 t / b stiffer than a beam of the same strip (3 % at 1.5 on 30 mm).
"""

import numpy as np
from scipy.sparse import csr_array, vstack
from scipy.spatial import cKDTree
from shapely.geometry import Polygon

from holeplacer.structure.body import Body, Gauges, Place, rigid
from holeplacer.structure.holders import holders
from holeplacer.structure.plate import Plate
from holeplacer.structure.plate_mesh import ACROSS, plate_mesh
from holeplacer.structure.rows import Rows
from holeplacer.structure.sheet_stiffness import SheetStiffness
from holeplacer.structure.stations import Stations
from holeplacer.structure.tributary import Bits

PATCH = 0.25
"""Radius of the discs over which moments are averaged, in clear widths of the stroke."""


def plate_body(
    piece: int,
    polygon: Polygon,
    strip: Stations,
    bits: Bits,
    sheet: SheetStiffness,
    across: float = ACROSS,
) -> Body:
    """A plate of one piece.

    Args:
        piece: Its index.
        polygon: Its metal.
        strip: Stations of its axis, along which it answers.
        bits: Its metal in small parts, for the load.
        sheet: Thickness and metal.
        across: Triangles across a stroke.
    """
    plate = Plate.of(*plate_mesh(polygon, strip, across))
    place = Place.of(polygon)
    held = np.unique(cKDTree(plate.xy).query(strip.xy[holders(strip)])[1])
    nodes = np.arange(len(plate.xy))[:, None]
    return Body(
        piece=piece,
        place=place,
        stiffness=plate.stiffness(sheet.rigidity_nmm, sheet.poisson),
        rigid=rigid(plate.xy, place),
        load=plate.rows(bits.xy)[0].transposed(bits.area),
        held=(3 * held[:, None] + np.arange(3)).ravel(),
        attach=plate.rows,
        branches=tuple(strip.of_branch),
        first=strip.first_of_branch,
        along_xy=strip.xy[strip.in_a_row],
        along=plate.rows(strip.xy[strip.in_a_row])[0],
        gauges=_gauges(plate, strip, sheet),
        metal_xy=plate.xy,
        metal=Rows(3 * nodes, np.ones(nodes.shape), 3 * len(nodes)),
    )


def _gauges(plate: Plate, strip: Stations, sheet: SheetStiffness) -> Gauges:
    """Stress at both faces about each triangle, 6 M / t^2.

    The moments are means over discs of `PATCH` of the stroke's width: at a notch or a point support
    those of a thin plate grow without limit, where real metal yields a little and has a radius.
    Each triangle speaks for the station nearest to it, and a station that is nearest to none is
    spoken for by the triangle nearest to it.
    """
    xx, yy, xy = (rows.sparse() for rows in plate.curvature())
    face = 6.0 * sheet.rigidity_nmm / sheet.thickness_mm**2
    middle = plate.xy[plate.corners].mean(axis=1)
    at = strip.xy[strip.in_a_row]
    station = gauge = np.empty(0, np.intp)
    if len(at):
        station = np.asarray(cKDTree(at).query(middle)[1], np.intp)
        gauge = np.arange(len(middle))
        silent = np.setdiff1d(np.arange(len(at)), station)
        station = np.concatenate([station, silent])
        gauge = np.concatenate([gauge, cKDTree(middle).query(at[silent])[1]])
    order = np.argsort(station, kind="stable")
    return Gauges(
        xy=middle,
        components=csr_array(
            vstack(
                [
                    face * (xx + sheet.poisson * yy),
                    face * (yy + sheet.poisson * xx),
                    0.5 * face * (1.0 - sheet.poisson) * xy,
                ]
            )
        ),
        preset=np.zeros(3 * len(middle)),
        mean=_patches(plate, strip),
        points=None,
        station=station[order],
        gauge=gauge[order],
    )


def _patches(plate: Plate, strip: Stations) -> csr_array:
    """(m, m) mean over the triangles whose middles lie in a disc about each triangle's own."""
    middle, area = plate.xy[plate.corners].mean(axis=1), plate.area()
    tree = cKDTree(middle)
    radius = PATCH * 2.0 * strip.clearance[cKDTree(strip.xy).query(middle)[1]]
    near = tree.query_ball_point(middle, radius)
    sizes = np.array([len(some) for some in near])
    columns = np.concatenate([np.asarray(some, np.intp) for some in near])
    pointer = np.concatenate([[0], np.cumsum(sizes)])
    total = np.add.reduceat(area[columns], pointer[:-1])
    return csr_array((area[columns] / np.repeat(total, sizes), columns, pointer))
