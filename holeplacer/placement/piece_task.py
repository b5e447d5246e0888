"""What one piece asks of its holes: where they may be, what they must cover, what they owe."""

from dataclasses import dataclass, replace

import numpy as np

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis.axis import Axis
from holeplacer.medial_axis.ways import AxisPoints
from holeplacer.outline.outline import Outline
from holeplacer.placement import (
    candidates,
    demands,
    held_cover,
    piece_axis,
    settling,
    wall_room,
)
from holeplacer.placement.demands import Wanted
from holeplacer.placement.keeping import Owed
from holeplacer.placement.piece_axis import PieceAxis
from holeplacer.placement.watch import Watch
from holeplacer.plan.hole import Hole
from holeplacer.plan.plan import Plan
from holeplacer.rules import edge_distance, neighbours, seam_distance, spacing, turning

_ROUNDING_MM = 0.1
"""Added to the distance from seams: holes are yet rounded to a grid, which knows of no seam."""


@dataclass(frozen=True, eq=False)
class PieceTask:
    """What one piece asks for.

    Attributes:
        plan: The plan.
        outline: The cut outline.
        piece: The piece's axis and number.
        stays: (k, 2) centres of its holes that stay and are fastened.
        stay_feet: Their feet on the axis, of those that count.
        wanted: What must be covered; None for a blob.
        owed: What its holes owe each other.
        base_mm: The base it needs so that it can't turn, whether it has room for that or not.
    """

    plan: Plan
    outline: Outline
    piece: PieceAxis
    stays: Points
    stay_feet: AxisPoints
    wanted: Wanted | None
    owed: Owed
    base_mm: float

    @property
    def axis(self) -> Axis:
        """The piece's axis."""
        return self.piece.axis


def tasks_of(plan: Plan, outline: Outline, axis: Axis, watch: Watch) -> tuple[PieceTask, ...]:
    """What each piece asks for, in the order of the pieces.

    Raises:
        Cancelled: The person stopped the work.
    """
    fixed = [hole for hole in plan.holes if hole.fixed]
    xy = _places(fixed)
    piece_of = outline.piece_at(xy) if len(fixed) else np.empty(0, np.intp)
    tasks = []
    for part in piece_axis.piece_axes(axis):
        watch.tell(0.0, "measuring the strokes")
        own = np.flatnonzero(piece_of == part.piece)
        tasks.append(_task(plan, outline, part, [fixed[index] for index in own]))
    return tuple(tasks)


def _task(plan: Plan, outline: Outline, piece: PieceAxis, fixed: list[Hole]) -> PieceTask:
    """Gather what one piece asks for; a standoff that is glued only keeps its place, no more."""
    axis = piece.axis
    least = edge_distance.limit(plan)
    apart = np.array([neighbours.limit(plan, None, plan.diameter_of(hole)) for hole in fixed])
    room = candidates.candidates(axis, least, _places(fixed), apart)
    stays = _places([hole for hole in fixed if hole.fastened])
    room = wall_room.allowed(plan, outline, axis, room)
    from_seams = seam_distance.limit(plan) + _ROUNDING_MM
    room = candidates.clear_of_seams(axis, room, plan.seams, from_seams)
    room = settling.true_room(outline, axis, room, least)
    feet, counts = (
        spacing.counting_feet(outline, axis, stays)
        if len(stays)
        else (AxisPoints.on_branches([], []), np.empty(0, bool))
    )
    wanted = None
    if axis.branches:
        wanted = demands.wanted(
            axis,
            room,
            feet[counts],
            spacing.corners(axis),
            spacing.limit(plan) / 2,
            spacing.overhang_limit(plan),
        )
    centre = outline.pieces[piece.piece].centre_of_gravity_mm
    owed = Owed(axis, stays, neighbours.limit(plan), centre, None)
    base = base_mm(plan, axis)
    if held_cover.possible(owed, room, base):
        owed = replace(owed, base_mm=base)
    return PieceTask(plan, outline, piece, stays, feet[counts], wanted, owed, base)


def _places(holes: list[Hole]) -> Points:
    return np.array([(hole.x_mm, hole.y_mm) for hole in holes]).reshape(-1, 2)


def base_mm(plan: Plan, axis: Axis) -> float:
    """The base a piece needs so that it can't turn."""
    return max(turning.limits(plan, axis), default=0.0)
