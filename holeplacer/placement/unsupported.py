"""Unsupported stretches: metal too thin for holes, where no permitted place is near enough."""

from dataclasses import dataclass

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.outline.outline import Outline
from holeplacer.placement.demands import Wanted
from holeplacer.placement.stretches import Stretches
from holeplacer.plan.plan import Plan
from holeplacer.rules import (
    edge_distance,
    neighbours,
    seam_distance,
    spacing,
    wall_ground,
    ways_out,
)
from holeplacer.rules.ways_out import WayOut


@dataclass(frozen=True, eq=False)
class Unsupported:
    """One connected stretch, a tip, or a whole piece that no hole can hold.

    Attributes:
        piece: Index of the piece.
        x_mm, y_mm: Its widest place: where a cure costs least.
        length_mm: Length of axis; of a tip, how far it hangs over too much.
        clear_width_mm: Clear width at that place.
        needed_mm: Clear width a hole needs.
        reason: Both in words.
        ways_out: What would cure it, each with its figure.
        lines: Its polylines, (k, 2) each, mm; none for a tip or a blob.
    """

    piece: int
    x_mm: float
    y_mm: float
    length_mm: float
    clear_width_mm: float
    needed_mm: float
    reason: str
    ways_out: tuple[WayOut, ...]
    lines: tuple[Points, ...]


def of_piece(
    plan: Plan,
    outline: Outline,
    wanted: Wanted,
    piece: int,
    holes: AxisPoints | None = None,
) -> tuple[Unsupported, ...]:
    """All unsupported stretches of one piece, the longest first, then its tips.

    Args:
        plan: The plan.
        outline: The cut outline.
        wanted: What is demanded of the piece and what is left bare.
        piece: Its index.
        holes: Feet of its holes, if it has some.
    """
    axis, bare = wanted.axis, wanted.bare
    found = []
    for members in spacing.connected(axis, bare.branch, bare.low, bare.high):
        part = bare[members]
        at, clearance = _widest(axis, part)
        lines = tuple(
            spacing.polyline(ways.network(axis), int(branch), float(low), float(high))
            for branch, low, high in zip(part.branch, part.low, part.high, strict=True)
        )
        found.append(_stretch(plan, outline, piece, at, clearance, float(part.length.sum()), lines))
    found.sort(key=lambda item: -item.length_mm)
    return tuple(found) + _tips(plan, outline, wanted, piece, holes)


def blob(plan: Plan, outline: Outline, axis: Axis, node: int, piece: int) -> Unsupported:
    """A dot too small for a hole."""
    clearance = float(axis.node_clearance[node])
    return _stretch(plan, outline, piece, axis.node_xy[node], clearance, 0.0, ())


def _widest(axis: Axis, part: Stretches) -> tuple[Points, float]:
    net = ways.network(axis)
    best: tuple[Points, float] = (np.zeros(2), -1.0)
    for branch, low, high in zip(part.branch, part.low, part.high, strict=True):
        own = net.s[net.first[branch] : net.first[branch + 1]]
        s = np.concatenate([[low], own[(own > low) & (own < high)], [high]])
        points = AxisPoints.on_branches(np.full(len(s), branch), s)
        clearance = ways.clearances(axis, points)
        widest = int(np.argmax(clearance))
        if clearance[widest] > best[1]:
            best = ways.places(axis, points[[widest]])[0], float(clearance[widest])
    return best


def _stretch(
    plan: Plan,
    outline: Outline,
    piece: int,
    at: Points,
    clearance: float,
    length_mm: float,
    lines: tuple[Points, ...],
) -> Unsupported:
    needed = 2 * edge_distance.limit(plan)
    why = _too_narrow(clearance, needed) if 2 * clearance < needed else _taken(plan, outline, at)
    what = f"{length_mm:.0f} mm of stroke" if length_mm else "a piece"
    return Unsupported(
        piece=piece,
        x_mm=float(at[0]),
        y_mm=float(at[1]),
        length_mm=length_mm,
        clear_width_mm=2 * clearance,
        needed_mm=needed,
        reason=f"{what} without a hole in reach: {why}",
        ways_out=ways_out.ways_out(plan, clearance),
        lines=lines,
    )


def _too_narrow(clearance: float, needed: float) -> str:
    return f"clear width {2 * clearance:.1f} mm, {needed:.1f} mm needed"


def _taken(plan: Plan, outline: Outline, at: Points) -> str:
    """Why there can be no hole where metal is enough."""
    if wall_ground.is_asked(plan) and wall_ground.blocked(plan, outline, at.reshape(1, 2))[0]:
        good = ", which must be on a good zone" if wall_ground.only_good(plan) else ""
        return f"the wall lets no hole be drilled there{good}"
    return _too_near(plan)


def _too_near(plan: Plan) -> str:
    least = f"less than {neighbours.limit(plan):.1f} mm from another"
    if plan.seams:
        least += f", or less than {seam_distance.limit(plan):.1f} mm from a seam"
    return f"a hole there would be {least}"


def _tips(
    plan: Plan, outline: Outline, wanted: Wanted, piece: int, holes: AxisPoints | None
) -> tuple[Unsupported, ...]:
    """Tips that hang over further than allowed though all of their stroke is supported.

    There may be a place near enough for a hole, but none that keeps its distance from the others.
    """
    axis = wanted.axis
    net = ways.network(axis)
    most, least = spacing.overhang_limit(plan), edge_distance.limit(plan)
    found = []
    for index in wanted.bare_tips.tolist():
        tip = axis.tips[index]
        branch = int(np.flatnonzero((net.start == tip.node) | (net.end == tip.node))[0])
        end = 0.0 if net.start[branch] == tip.node else float(net.length[branch])
        node = np.array([branch]), np.array([end])
        if len(wanted.bare) and wanted.bare.holding(*node)[0] >= 0:
            continue
        reach = max(most - tip.reach_mm, 0.0)
        low, high = max(end - reach, 0.0), min(end + reach, float(net.length[branch]))
        near = Stretches(np.array([branch]), np.array([low]), np.array([high]))
        at, clearance = _widest(axis, near)
        over = float(wanted.nearest(*node)[0]) + tip.reach_mm
        beyond, why = "the nearest place for a hole", _too_narrow(clearance, 2 * least)
        if clearance >= least:
            why = _taken(plan, outline, at)
        if over <= most and holes is not None and len(holes):
            over = float(ways.reach(axis, holes).way_at(*node)[0]) + tip.reach_mm
            beyond, why = "the nearest hole", _too_near(plan)
        base = _stretch(plan, outline, piece, at, clearance, over - most, ())
        found.append(
            Unsupported(
                piece=piece,
                x_mm=base.x_mm,
                y_mm=base.y_mm,
                length_mm=base.length_mm,
                clear_width_mm=base.clear_width_mm,
                needed_mm=base.needed_mm,
                reason=(
                    f"the tip at x {tip.xy[0]:.1f}, y {tip.xy[1]:.1f} mm hangs {over:.1f} mm "
                    f"beyond {beyond}, at most {most:.1f} mm allowed: {why}"
                ),
                ways_out=base.ways_out,
                lines=(),
            )
        )
    return tuple(found)
