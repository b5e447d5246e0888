"""Frame: the sign in its own plane, hung on its studs by weight and moved by temperature.

Strokes are beams along the medial axis, stretched and bent in their plane; every stud is an elastic
cantilever in a hole with room. A stud takes nothing until the hole has moved through its room, then
pushes back along the line of that movement. So the problem is not linear, but its energy is
convex: Newton steps with a line search find its one least value.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray
from scipy.sparse import coo_array, csc_array
from shapely.geometry import Polygon

from holeplacer.errors import InputError
from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.structure import bearing_studs, in_plane_beam, supports, tributary
from holeplacer.structure.bearing_studs import Stud
from holeplacer.structure.body import Elastic, Place
from holeplacer.structure.feet import Feet, Strokes
from holeplacer.structure.holders import holders
from holeplacer.structure.rows import Rows
from holeplacer.structure.sheet_stiffness import SheetStiffness
from holeplacer.structure.stations import Stations, stations
from holeplacer.structure.supports import Held

Floats = NDArray[np.float64]


@dataclass(frozen=True, eq=False)
class Frame:
    """The sign in its plane, without studs. Compared and cached by identity.

    Attributes:
        outline: What it was made of.
        bodies: One for each piece, factored.
    """

    outline: Outline
    bodies: tuple[Held[Elastic], ...]
    _rests: dict[tuple[int, int, int], Floats] = field(default_factory=dict)
    """Where each piece came to rest last in each case, on so many studs: only where to begin."""


@dataclass(frozen=True, eq=False)
class InPlane:
    """What weight and temperature do in the sign's plane. Arrays are read-only.

    Attributes:
        forces_n: (k, 2) what each hole pushes its stud with, in the holes' order.
        movement_mm: (k, 2) of each hole from where it was hung, its room passed through included.
        settled: Whether every piece was found at rest within the allowed number of steps.
        hanging: Pieces on one stud, which carries all their weight; they swing until they hang.
        unheld: Pieces without a stud.
    """

    forces_n: Floats
    movement_mm: Floats
    settled: bool
    hanging: tuple[int, ...]
    unheld: tuple[int, ...]


@lru_cache(maxsize=4)
def frame(
    outline: Outline, axis: Axis, *, thickness_mm: float, elastic_mpa: float, shear_mpa: float
) -> Frame:
    """Build and factor the sign; kept for as long as it is in use.

    Args:
        outline: The cut outline.
        axis: Its medial axis.
        thickness_mm: Of the sheet.
        elastic_mpa: E of the metal.
        shear_mpa: G of the metal.

    Raises:
        InputError: Thickness or stiffness can't be those of a sheet.
    """
    sheet = SheetStiffness(thickness_mm, elastic_mpa, shear_mpa)
    bodies = [
        supports.held(_body(piece.polygon, stations(axis, index), sheet))
        for index, piece in enumerate(outline.pieces)
    ]
    return Frame(outline, tuple(bodies))


def hang(
    sign: Frame, holes: ArrayLike, stud: Stud, *, weight_mpa: float, strain: float = 0.0
) -> InPlane:
    """The sign on its studs.

    Args:
        sign: The sign.
        holes: (k, 2) centres of the holes, where the studs stand amid them, mm.
        stud: All of them.
        weight_mpa: Weight by area, downwards (along -y), N/mm2: density x g x thickness.
        strain: Free expansion since it was hung: alpha x change of temperature.

    Raises:
        InputError: A figure is not a number.
    """
    return hang_through(sign, holes, stud, weight_mpa=weight_mpa, strains=(strain,))[0]


def hang_through(
    sign: Frame,
    holes: ArrayLike,
    stud: Stud,
    *,
    weight_mpa: float,
    strains: Sequence[float],
) -> tuple[InPlane, ...]:
    """The sign on its studs, once for each free expansion; what they have in common found once.

    Args:
        sign: The sign.
        holes: (k, 2) centres of the holes, where the studs stand amid them, mm.
        stud: All of them.
        weight_mpa: Weight by area, downwards (along -y), N/mm2.
        strains: Free expansions since it was hung.

    Raises:
        InputError: A figure is not a number.
    """
    if not np.isfinite([weight_mpa, *strains]).all():
        raise InputError("weight and expansion must be numbers", remedy="enter finite figures")
    xy = np.asarray(holes, float).reshape(-1, 2)
    piece = sign.outline.piece_at(xy) if len(xy) else np.empty(0, np.intp)
    shape = (len(strains), len(xy), 2)
    forces, movement, settled = np.zeros(shape), np.zeros(shape), np.ones(len(strains), bool)
    hanging, unheld = list[int](), list[int]()
    for index, held in enumerate(sign.bodies):
        own = np.flatnonzero(piece == index)
        if len(own) == 0:
            unheld.append(index)
        elif len(own) == 1:
            hanging.append(index)
            weight = weight_mpa * held.body.place.area_mm2
            forces[:, own, 1] = -weight
            movement[:, own, 1] = -np.sign(weight) * stud.room_mm - weight / stud.stiffness_n_mm
        else:
            keys = [(index, case, len(own)) for case in range(len(strains))]
            starts = [sign._rests.get(key) for key in keys]  # noqa: SLF001 (same module)
            rests = _at_rest(held, xy[own], stud, weight_mpa, strains, starts)
            for case, rest in enumerate(rests):
                forces[case, own], movement[case, own] = rest.forces, rest.movement
                settled[case] &= rest.settled
                sign._rests[keys[case]] = rest.sheet  # noqa: SLF001 (same module)
    for array in (forces, movement):
        array.setflags(write=False)
    return tuple(
        InPlane(force, moved, bool(rest), tuple(hanging), tuple(unheld))
        for force, moved, rest in zip(forces, movement, settled, strict=True)
    )


def free_movement(xy: ArrayLike, fixed: tuple[float, float], strain: float) -> Points:
    """(k, 2) movement of holes when the sign grows freely about its fixed point, mm.

    Args:
        xy: (k, 2) holes.
        fixed: The hole that has no room.
        strain: alpha x change of temperature.
    """
    away: Points = np.asarray(xy, float).reshape(-1, 2) - np.array(fixed)
    return strain * away


def _at_rest(
    held: Held[Elastic],
    xy: Points,
    stud: Stud,
    weight_mpa: float,
    strains: Sequence[float],
    starts: Sequence[Floats | None],
) -> list[bearing_studs.Rest]:
    """One piece on two studs or more, for each expansion."""
    rows, matrix = supports.joined(held, held.restraints(xy, 2))
    right = np.zeros((len(matrix), 1 + len(rows)))
    right[: len(rows), 0] = weight_mpa * rows.of(held.load_moved)
    right[len(rows) :, 0] = weight_mpa * (held.body.rigid.T @ held.body.load)
    right[: len(rows), 1:] = -np.eye(len(rows))
    solved = supports.solve_symmetric(matrix, right)[: len(rows)]
    stiff = -0.5 * (solved[:, 1:] + solved[:, 1:].T)
    away = xy - held.body.place.centre
    return [
        bearing_studs.at_rest(stiff, solved[:, 0], strain * away, stud, start)
        for strain, start in zip(strains, starts, strict=True)
    ]


def _body(polygon: Polygon, strip: Stations, sheet: SheetStiffness) -> Elastic:
    strokes = Strokes.of(strip)
    place = Place.of(polygon)
    bits = tributary.bits(polygon)
    _, down, _ = _rows(strokes, strokes.feet(bits.xy))
    away = (strip.xy - place.centre) / place.size_mm
    rigid = np.zeros((3 * len(strip.xy), 3))
    rigid[::3, 0] = rigid[1::3, 1] = 1.0
    rigid[::3, 2], rigid[1::3, 2], rigid[2::3, 2] = -away[:, 1], away[:, 0], 1.0 / place.size_mm
    return Elastic(
        place=place,
        stiffness=_stiffness(strokes, sheet),
        rigid=rigid,
        load=down.transposed(-bits.area),
        held=(3 * holders(strip)[:, None] + np.arange(3)).ravel(),
        attach=lambda xy: _rows(strokes, strokes.feet(xy)),
    )


def _stiffness(strokes: Strokes, sheet: SheetStiffness) -> csc_array:
    strip = strokes.stations
    size = 3 * len(strip.xy)
    if not len(strip.first):
        return csc_array((size, size))
    local = in_plane_beam.stiffness(strokes.step, strip.width, sheet)
    freedom = np.concatenate(
        [3 * strip.first[:, None] + np.arange(3), 3 * strip.last[:, None] + np.arange(3)], axis=1
    )
    at = np.repeat(freedom, 6, axis=1).ravel(), np.tile(freedom, (1, 6)).ravel()
    return csc_array(coo_array((local.ravel(), at), shape=(size, size)))


def _rows(strokes: Strokes, feet: Feet) -> tuple[Rows, Rows, Rows]:
    """Movements u and v and the turn of points of the metal; a cross-section stays straight."""
    strip = strokes.stations
    size = 3 * len(strip.xy)
    if strokes.tree is None:
        first = last = feet.station
        u, v, turn = (np.zeros((len(feet.off), 6)) for _ in range(3))
        u[:, 0], v[:, 1], turn[:, 2] = 1.0, 1.0, 1.0
    else:
        first, last = strip.first[feet.beam], strip.last[feet.beam]
        u, v, turn = in_plane_beam.shapes(strokes.step[feet.beam], feet.share)
    u = u - feet.off[:, 1:] * turn
    v = v + feet.off[:, :1] * turn
    columns = np.concatenate(
        [3 * first[:, None] + np.arange(3), 3 * last[:, None] + np.arange(3)], axis=1
    )
    return Rows(columns, u, size), Rows(columns, v, size), Rows(columns, turn, size)
