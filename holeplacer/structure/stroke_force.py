"""Stroke force: what pulls on the strokes along their length, where the sign hangs on its studs.

It follows from the forces on the studs: they and the weight bend and stretch the free piece by
known movements, and a stroke's beam that grows longer is pulled.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

import numpy as np
from numpy.typing import ArrayLike, NDArray

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis
from holeplacer.structure.body import Elastic
from holeplacer.structure.bordering import FEW, Link
from holeplacer.structure.feet import Strokes
from holeplacer.structure.frame import Frame, InPlane
from holeplacer.structure.sheet_stiffness import SheetStiffness
from holeplacer.structure.stations import stations
from holeplacer.structure.supports import Held

Floats = NDArray[np.float64]
Indices = NDArray[np.intp]


@dataclass(frozen=True, eq=False)
class _Beams:
    """Beams that some holes lie on, and how each moves.

    Attributes:
        links: Of the holes.
        freedoms: (k, 4) movements u and v of first and last station.
        unit: (k, 2) from first to last.
        share: (k,) place of the hole along it, 0 to 1.
        stretch_n_mm: (k,) force that makes it a millimetre longer.
        longer: (k, k, 2) how much longer 1 N on a hole along x and y makes each beam: hole, beam.
        under_load: (k,) how much longer 1 MPa of weight makes each.
    """

    links: tuple[Link, ...]
    freedoms: Indices
    unit: Points
    share: Floats
    stretch_n_mm: Floats
    longer: Floats
    under_load: Floats


@dataclass
class _Memory:
    """What was found last in one piece: while one hole moves the others stay."""

    beams: _Beams | None = None


def pulls(
    sign: Frame,
    axis: Axis,
    sheet: SheetStiffness,
    holes: ArrayLike,
    cases: Sequence[InPlane],
    *,
    weight_mpa: float,
) -> Floats:
    """(c, k) force along the stroke at each hole in each case, N; pressed together: negative.

    Beside a hole the force changes by what its own stud takes: that side is meant which is pulled
    more.

    Args:
        sign: The sign.
        axis: Its medial axis.
        sheet: Thickness and metal it was built with.
        holes: (k, 2) centres of the holes.
        cases: What each hole pushes its stud with, case by case, under the same weight.
        weight_mpa: Weight by area, downwards, N/mm2.
    """
    xy = np.asarray(holes, float).reshape(-1, 2)
    force = np.array([case.forces_n for case in cases]).reshape(len(cases), -1, 2)
    found = np.zeros(force.shape[:2])
    piece = sign.outline.piece_at(xy) if len(xy) else np.empty(0, np.intp)
    for index, held in enumerate(sign.bodies):
        own = np.flatnonzero(piece == index)
        strokes = _strokes(axis, index)
        if len(own) > 1 and strokes.tree is not None:
            beams = _renewed(_memory(held), held, strokes, sheet, xy[own])
            found[:, own] = _pulls(beams, force[:, own], weight_mpa)
    return found


@lru_cache(maxsize=64)  # the same wherever the holes are
def _strokes(axis: Axis, piece: int) -> Strokes:
    return Strokes.of(stations(axis, piece))


@lru_cache(maxsize=64)
def _memory(_held: Held[Elastic]) -> _Memory:
    return _Memory()


def _renewed(
    memory: _Memory, held: Held[Elastic], strokes: Strokes, sheet: SheetStiffness, xy: Points
) -> _Beams:
    """The beams of all holes, taken from those of the last time but for holes that have moved."""
    links = tuple(held.restraints(xy, 2))
    before = memory.beams
    if before is not None and len(before.links) != len(links):
        before = None  # holes came or went: nothing of it is in its old place
    moved = np.arange(len(links))
    if before is not None:
        pairs = zip(links, before.links, strict=True)
        moved = np.flatnonzero([one is not other for one, other in pairs])
    if before is None or len(moved) > FEW:
        beams = _beams(held, strokes, sheet, links, xy)
    elif len(moved):
        beams = _with_moved(before, moved, _beams(held, strokes, sheet, links, xy, moved))
    else:
        beams = before
    memory.beams = beams
    return beams


def _beams(
    held: Held[Elastic],
    strokes: Strokes,
    sheet: SheetStiffness,
    links: tuple[Link, ...],
    xy: Points,
    of: Indices | None = None,
) -> _Beams:
    """Beams of some of the holes; None: of all."""
    strip, feet = strokes.stations, strokes.feet(xy if of is None else xy[of])
    step = strokes.step[feet.beam]
    length = np.hypot(step[:, 0], step[:, 1])
    unit = step / length[:, None]
    ends = np.stack([strip.first[feet.beam], strip.last[feet.beam]], axis=1)
    freedoms = (3 * ends[:, :, None] + np.arange(2)).reshape(-1, 4)
    area = strip.width[feet.beam] * sheet.thickness_mm
    return _Beams(
        links=links,
        freedoms=freedoms,
        unit=unit,
        share=feet.share,
        stretch_n_mm=sheet.elastic_mpa * area / length,
        longer=np.stack([_longer(link.moved, freedoms, unit) for link in links]),
        under_load=_longer(held.load_moved[None], freedoms, unit)[:, 0],
    )


def _longer(moved: Floats, freedoms: Indices, unit: Points) -> Floats:
    """(k, r) how much longer each beam is in each of (r, n) movements."""
    at = moved[:, freedoms]
    longer: Floats = ((at[..., 2:] - at[..., :2]) * unit).sum(axis=-1).T
    return longer


def _with_moved(before: _Beams, moved: Indices, now: _Beams) -> _Beams:
    """Those of before, with some holes in new places."""

    def taken(old: Floats, new: Floats) -> Floats:
        changed = old.copy()
        changed[moved] = new
        return changed

    freedoms, unit = before.freedoms.copy(), taken(before.unit, now.unit)
    freedoms[moved] = now.freedoms
    longer = before.longer.copy()
    for hole in moved.tolist():
        longer[hole] = _longer(now.links[hole].moved, freedoms, unit)
    longer[:, moved] = now.longer
    return _Beams(
        links=now.links,
        freedoms=freedoms,
        unit=unit,
        share=taken(before.share, now.share),
        stretch_n_mm=taken(before.stretch_n_mm, now.stretch_n_mm),
        longer=longer,
        under_load=taken(before.under_load, now.under_load),
    )


def _pulls(beams: _Beams, force: Floats, weight_mpa: float) -> Floats:
    """(c, k) in one piece; `force` is (c, k, 2) on its studs.

    A beam feels its hole's stud shared out to its ends; each side of the hole feels it whole or not
    at all.
    """
    by_stud = np.einsum("chd,hbd->cb", force, beams.longer)
    amid = beams.stretch_n_mm * (weight_mpa * beams.under_load - by_stud)
    own = (force * beams.unit).sum(axis=-1)
    pulled: Floats = amid + np.maximum((beams.share - 1.0) * own, beams.share * own)
    return pulled
