"""Near places: a layout close to an earlier one, so that a small change reshuffles nothing."""

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.placement import refinement
from holeplacer.placement.demands import Wanted
from holeplacer.placement.fewest import Cover
from holeplacer.placement.keeping import Owed
from holeplacer.placement.refinement import Holes


def layout(
    wanted: Wanted, stays: AxisPoints, near: Points, cover: Cover, owed: Owed
) -> Holes | None:
    """The earlier holes, slid as little as it takes; None if they no longer are the fewest.

    Args:
        wanted: What must be covered.
        stays: Feet of the holes that stay.
        near: (n, 2) earlier holes of the piece, those that stay left out.
        cover: A layout with the fewest holes.
        owed: What holes owe each other.
    """
    if not len(near) or len(near) != len(cover.holes):
        return None
    feet = ways.feet(wanted.axis, near).points
    if (feet.branch < 0).any():
        return None
    stretch, s = _into_room(wanted, feet)
    start = Holes(wanted.room, stretch, s, stays)
    slid, peaks = refinement.evened(wanted, start, enough=1.0)
    return slid if peaks.served() and owed.kept(slid) else None


def _into_room(wanted: Wanted, feet: AxisPoints) -> tuple[ways.Indices, ways.Floats]:
    """Each foot, or the nearest permitted place on its branch (or anywhere)."""
    room = wanted.room
    off = np.maximum(room.low - feet.s[:, np.newaxis], feet.s[:, np.newaxis] - room.high)
    off = np.maximum(off, 0.0)
    elsewhere = room.branch != feet.branch[:, np.newaxis]
    xy = ways.places(wanted.axis, feet)
    middles = ways.places(
        wanted.axis, AxisPoints.on_branches(room.branch, (room.low + room.high) / 2)
    )
    far = np.hypot(*(middles - xy[:, np.newaxis]).transpose(2, 0, 1))
    stretch = np.argmin(np.where(elsewhere, far + 1e6, off), axis=1)
    here = room.branch[stretch] == feet.branch
    s = np.where(here, feet.s, (room.low + room.high)[stretch] / 2)
    return stretch, np.clip(s, room.low[stretch], room.high[stretch])
