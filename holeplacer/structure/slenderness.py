"""Slenderness: whether a piece is made of strokes lean enough to be reckoned as beams.

A beam is a strip with two free edges. Within a junction's disc, in a bend sharper than the strip
is wide, or where it swells like a drop, metal is held by what surrounds it. How much of a piece's
axis is so was set against a plate of the same shape (bars, rings, frames, hairpins, wedges and
letterings): up to the share allowed the greatest deflections differ by less than 2 %; script
letterings have four to ten times that share, and there beams are wrong by up to 20 %.
"""

import numpy as np

from holeplacer.medial_axis.axis import Axis
from holeplacer.structure.stations import Floats, Indices, Stations

UNLIKE = 0.03
"""Greatest share of a piece's axis that may be unlike a strip."""
BEND = 0.5
"""Clear width by radius of curvature beyond which a stroke is no strip."""
TAPER = 0.3
"""Change of the clearance by the way along beyond which it is none."""
CORNER = 1.6
"""Way from a free end within which its clearance grows as towards a corner, in clearances."""
LEAN = 0.25
"""Greatest clear width by the length of the axis."""


def unlike_share(axis: Axis, strip: Stations) -> float:
    """Share of a piece's axis that is unlike a strip; 1 for a dot.

    Args:
        axis: The axis.
        strip: Stations of the piece.
    """
    total = unlike = 0.0
    for number, at in strip.of_branch.items():
        branch = axis.branches[number]
        ends = np.array([branch.start, branch.end])
        discs = axis.node_clearance[ends] * (axis.degree[ends] > 2)
        within = min(float(discs.sum()), branch.length_mm)
        beyond = _unlike_mm(strip, at, *discs)
        total += branch.length_mm
        unlike += min(within + beyond, branch.length_mm)
    return unlike / total if total > 0.0 else 1.0


def _unlike_mm(strip: Stations, at: Indices, first_mm: float, last_mm: float) -> float:
    """Length of sharp bends and swellings along one branch, outside its junctions' discs."""
    xy, radius = strip.xy[at], strip.clearance[at]
    step = np.diff(xy, axis=0)
    length = np.hypot(step[:, 0], step[:, 1])
    heading = np.unwrap(np.arctan2(step[:, 1], step[:, 0]))
    turn = np.abs(np.diff(heading))
    share = 0.5 * (length[1:] + length[:-1])
    bent = turn * 2.0 * radius[1:-1] > BEND * share
    swelling = np.abs(np.diff(radius)) > TAPER * length
    bad = swelling.astype(bool)
    bad[1:] |= bent
    bad[:-1] |= bent
    way = np.concatenate([[0.0], np.cumsum(length)])
    # what leads into a corner of a stroke's end is no swelling of the stroke
    first_mm = first_mm or float(way[way <= CORNER * radius].max())
    last_mm = last_mm or float((way[-1] - way)[way[-1] - way <= CORNER * radius].max())
    clear = (way[1:] > first_mm) & (way[:-1] < way[-1] - last_mm)
    mm: Floats = length * (bad & clear)
    return float(mm.sum())


def slender(axis: Axis, strip: Stations) -> bool:
    """Whether a piece is a grillage of strokes.

    Args:
        axis: The axis.
        strip: Stations of the piece.
    """
    if unlike_share(axis, strip) > UNLIKE:
        return False
    length = sum(axis.branches[number].length_mm for number in strip.of_branch)
    return 2.0 * float(strip.clearance.max()) <= LEAN * length
