"""Demands: axis points and tips that must have a hole near enough.

What no permitted place is near enough to can't be demanded: those stretches and tips are left
out here and reported as unsupported.
"""

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints, Floats, Indices, Reach
from holeplacer.placement import stretches
from holeplacer.placement.stretches import Stretches

NEAREST_SPARE_MM = 2.0
"""Where thin metal keeps every hole further away than a tighter spacing asks, a hole within this
of the nearest permitted place is near enough."""


@dataclass(frozen=True, eq=False)
class Demands:
    """Points that need a hole within a radius, at any tightness of the limits.

    At a tightness t (1: the limits as they stand; 0.5: spacing and overhang halved) a demand
    needs a hole within max(t * scale - reach, nearest), where `nearest` is as near as the metal
    lets a hole come, never more than the radius at t = 1.

    Attributes:
        points: (n,) where, on branches.
        scale: (n,) half the spacing, or the overhang at a tip, mm.
        reach: (n,) what lies beyond the axis at a tip, mm; 0 elsewhere.
        nearest: (n,) mm.
    """

    points: AxisPoints
    scale: Floats
    reach: Floats
    nearest: Floats

    def __len__(self) -> int:
        return len(self.points)

    def radius(self, tightness: float) -> Floats:
        """(n,) mm."""
        asked = tightness * self.scale - self.reach
        return np.maximum(asked, self.nearest) if tightness < 1.0 else asked

    def chosen(self, index: Indices) -> "Demands":
        """Some of them."""
        return Demands(
            self.points[index], self.scale[index], self.reach[index], self.nearest[index]
        )

    def and_also(self, other: "Demands") -> "Demands":
        """Both, one after the other."""
        return Demands(
            AxisPoints.on_branches(
                np.concatenate([self.points.branch, other.points.branch]),
                np.concatenate([self.points.s, other.points.s]),
            ),
            np.concatenate([self.scale, other.scale]),
            np.concatenate([self.reach, other.reach]),
            np.concatenate([self.nearest, other.nearest]),
        )


@dataclass(frozen=True, eq=False)
class Wanted:
    """All that is demanded of one piece.

    Attributes:
        axis: The piece's axis.
        room: Where holes may be.
        near: Ways to the nearest permitted place (or hole that stays), from the ends of `room`.
        parts: The demanded parts of the axis.
        tips: The demanded tips, at their axis ends.
        tip_nodes: (t,) the axis ends.
        half_mm: Half the spacing.
        bare: Parts of the axis no permitted place is near enough to.
        bare_tips: Index in `axis.tips` of tips for which the same holds.
    """

    axis: Axis
    room: Stretches
    near: Reach
    parts: Stretches
    tips: Demands
    tip_nodes: Indices
    half_mm: float
    bare: Stretches
    bare_tips: Indices

    def nearest(self, branch: Indices, s: Floats) -> Floats:
        """Way from branch points to the nearest place a hole may be or stays at, mm."""
        way = self.near.way_at(branch, s)
        way[self.room.holding(branch, s) >= 0] = 0.0
        return way

    def at(self, branch: Indices, s: Floats) -> Demands:
        """Demands at points of `parts`."""
        nearest = np.minimum(self.nearest(branch, s) + NEAREST_SPARE_MM, self.half_mm)
        scale = np.full(len(branch), self.half_mm)
        return Demands(AxisPoints.on_branches(branch, s), scale, np.zeros(len(branch)), nearest)

    def sampled(self, pitch_mm: float) -> Demands:
        """Demands at points of `parts`, both ends and no further apart than the pitch; and tips."""
        counts = np.maximum(np.ceil(self.parts.length / pitch_mm), 1).astype(np.intp) + 1
        part, step = stretches.runs(np.zeros(len(counts), np.intp), counts)
        share = step / (counts[part] - 1)
        s = self.parts.low[part] + share * self.parts.length[part]
        return self.at(self.parts.branch[part], s).and_also(self.tips)


def wanted(
    axis: Axis,
    room: Stretches,
    stays: AxisPoints,
    corner: NDArray[np.bool_],
    half_mm: float,
    overhang_mm: float,
) -> Wanted:
    """What must be covered in one piece.

    Args:
        axis: The piece's axis, with at least one branch.
        room: Where holes may be.
        stays: Feet of the holes that stay.
        corner: (b,) branches that demand nothing.
        half_mm: Half the spacing.
        overhang_mm: Greatest overhang.
    """
    net = ways.network(axis)
    ends = AxisPoints.on_branches(
        np.concatenate([room.branch, room.branch, stays.branch]),
        np.concatenate([room.low, room.high, stays.s]),
    )
    near = ways.reach(axis, ends)
    gap, low, high = near.beyond(half_mm)
    far = stretches.joined(near.branch[gap], low, high)
    bare = stretches.without(far, room)
    strokes = np.flatnonzero(~corner)
    whole = stretches.joined(strokes, np.zeros(len(strokes)), net.length[strokes])
    tips, tip_nodes, bare_tips = _tips(axis, room, near, corner, overhang_mm)
    return Wanted(
        axis=axis,
        room=room,
        near=near,
        parts=stretches.without(whole, bare),
        tips=tips,
        tip_nodes=tip_nodes,
        half_mm=half_mm,
        bare=stretches.common(whole, bare),
        bare_tips=bare_tips,
    )


def served(wanted: Wanted, sites: AxisPoints) -> Wanted:
    """Only what some holes serve; the rest is left bare."""
    reach = ways.reach(wanted.axis, sites)
    gap, low, high = reach.beyond(wanted.half_mm)
    far = stretches.joined(reach.branch[gap], low, high)
    lost = stretches.common(wanted.parts, far)
    met = np.flatnonzero(reach.node_way[wanted.tip_nodes] <= wanted.tips.radius(1.0))
    missed = np.setdiff1d(wanted.tip_nodes, wanted.tip_nodes[met])
    more = [index for index, tip in enumerate(wanted.axis.tips) if tip.node in missed]
    return replace(
        wanted,
        parts=stretches.without(wanted.parts, lost),
        tips=wanted.tips.chosen(met),
        tip_nodes=wanted.tip_nodes[met],
        bare=stretches.joined(
            np.concatenate([wanted.bare.branch, lost.branch]),
            np.concatenate([wanted.bare.low, lost.low]),
            np.concatenate([wanted.bare.high, lost.high]),
        ),
        bare_tips=np.union1d(wanted.bare_tips, np.array(more, np.intp)),
    )


def _tips(
    axis: Axis, room: Stretches, near: Reach, corner: NDArray[np.bool_], overhang_mm: float
) -> tuple[Demands, Indices, Indices]:
    net = ways.network(axis)
    branch, s = np.zeros(net.nodes, np.intp), np.zeros(net.nodes)
    branch[net.start], s[net.start] = np.arange(len(net.start)), 0.0
    branch[net.end], s[net.end] = np.arange(len(net.end)), net.length
    node = np.array([tip.node for tip in axis.tips], np.intp)
    reach = np.array([tip.reach_mm for tip in axis.tips], float)
    at, way = branch[node], s[node]
    nearest = near.way_at(at, way)
    nearest[room.holding(at, way) >= 0] = 0.0
    met = nearest + reach <= overhang_mm
    stroke = ~corner[at]
    good = np.flatnonzero(met & stroke)
    spare = np.minimum(nearest + NEAREST_SPARE_MM, overhang_mm - reach)
    demands = Demands(
        AxisPoints.on_branches(at[good], way[good]),
        np.full(len(good), overhang_mm),
        reach[good],
        spare[good],
    )
    return demands, node[good], np.flatnonzero(~met & stroke)
