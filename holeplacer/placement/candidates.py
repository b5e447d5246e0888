"""Candidates: the parts of the axis where a hole may be.

A place is a candidate where the axis's clearance gives the hole its edge distance and no hole
that stays is too near. Holes may lie off the axis as well, but are never proposed there while the
axis has room: in this package "fewest" means fewest among holes on the axis.
"""

from collections.abc import Sequence

import numpy as np

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import Floats
from holeplacer.placement import stretches
from holeplacer.placement.stretches import Stretches
from holeplacer.plan.seam import Seam

SPARE_MM = 1e-5
"""Clearance is known to about this: a stroke exactly as wide as needed still takes holes."""


def candidates(axis: Axis, least_mm: float, centres: Floats, apart_mm: Floats) -> Stretches:
    """Stretches where a hole may be.

    Args:
        axis: The axis.
        least_mm: Edge distance a hole needs.
        centres: (n, 2) holes that stay.
        apart_mm: (n,) least distance of a new hole's centre from each of them.
    """
    room = wide(axis, least_mm)
    for centre, apart in zip(centres, apart_mm, strict=True):
        room = stretches.without(room, _inside_disc(axis, centre, float(apart)))
    return room


def clear_of_seams(
    axis: Axis, room: Stretches, seams: Sequence[Seam], apart_mm: float
) -> Stretches:
    """The stretches without what lies nearer to a seam than this."""
    for seam in seams:
        ends = np.array([(seam.x1_mm, seam.y1_mm), (seam.x2_mm, seam.y2_mm)])
        for end in ends:
            room = stretches.without(room, _inside_disc(axis, end, apart_mm))
        room = stretches.without(room, _beside(axis, ends, apart_mm))
    return room


def wide(axis: Axis, least_mm: float) -> Stretches:
    """Stretches whose clearance is at least this; clearance is linear between axis points."""
    net = ways.network(axis)
    begin = _segments(net)
    here, there = net.clearance[begin], net.clearance[begin + 1]
    least = least_mm - SPARE_MM
    with np.errstate(divide="ignore", invalid="ignore"):
        crossing = np.clip((least - here) / (there - here), 0.0, 1.0)
    rising = there > here
    first = np.where((here < least) & rising, crossing, 0.0)
    last = np.where((there < least) & ~rising, crossing, 1.0)
    real = np.maximum(here, there) >= least
    return _parts(net, begin[real], first[real], last[real])


def _inside_disc(axis: Axis, centre: Floats, radius: float) -> Stretches:
    """Parts of the axis nearer to a centre than a radius."""
    net = ways.network(axis)
    begin = _segments(net)
    from_centre = net.xy[begin] - centre
    along = net.xy[begin + 1] - net.xy[begin]
    a = np.maximum((along**2).sum(axis=1), 1e-300)
    b = (from_centre * along).sum(axis=1)
    root = b**2 - a * ((from_centre**2).sum(axis=1) - radius**2)
    real = root > 0
    half = np.sqrt(root[real])
    first = np.clip((-b[real] - half) / a[real], 0.0, 1.0)
    last = np.clip((-b[real] + half) / a[real], 0.0, 1.0)
    return _parts(net, begin[real], first, last)


def _beside(axis: Axis, ends: Floats, apart_mm: float) -> Stretches:
    """Parts of the axis square to a line, between its ends, and nearer to it than this."""
    net = ways.network(axis)
    begin = _segments(net)
    length = float(np.hypot(*(ends[1] - ends[0])))
    if length == 0:
        return _parts(net, begin[:0], np.empty(0), np.empty(0))
    along = (ends[1] - ends[0]) / length
    across = np.array([-along[1], along[0]])
    first, last = np.zeros(len(begin)), np.ones(len(begin))
    for direction, low, high in ((along, 0.0, length), (across, -apart_mm, apart_mm)):
        here = (net.xy[begin] - ends[0]) @ direction
        step = (net.xy[begin + 1] - net.xy[begin]) @ direction
        level = np.abs(step) < 1e-12
        with np.errstate(divide="ignore", invalid="ignore"):
            one, two = (low - here) / step, (high - here) / step
        outside = level & ((here < low) | (here > high))
        enter = np.where(level, np.where(outside, np.inf, -np.inf), np.minimum(one, two))
        leave = np.where(level, np.inf, np.maximum(one, two))
        first, last = np.maximum(first, enter), np.minimum(last, leave)
    real = first < last
    return _parts(net, begin[real], first[real], last[real])


def _segments(net: ways.Network) -> ways.Indices:
    return np.setdiff1d(np.arange(len(net.xy)), net.first[1:] - 1)


def _parts(net: ways.Network, begin: ways.Indices, first: Floats, last: Floats) -> Stretches:
    """Stretches from shares of axis segments."""
    step = net.s[begin + 1] - net.s[begin]
    branch = np.searchsorted(net.first, begin, side="right") - 1
    low = net.s[begin] + first * step
    high = np.where(last >= 1.0, net.s[begin + 1], net.s[begin] + last * step)
    return stretches.joined(branch, low, high)
