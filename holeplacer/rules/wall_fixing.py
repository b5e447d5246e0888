"""Wall fixing: how a plan's standoffs are drilled into its wall, and what then holds them.

Where the wall's layers are known, a screw in wood counts with the thread that is really in the
structure, instead of the length that was entered for it.
"""

from dataclasses import replace
from functools import lru_cache

from holeplacer import units
from holeplacer.loads.loading import ScrewKind, WallFixing
from holeplacer.plan.plan import Plan
from holeplacer.wall import drilling
from holeplacer.wall.drilling import Drilling
from holeplacer.wall.wall import Wall

_LEAST_THREAD_MM = 0.5

_LAG_HALF, _LAG_MORE_MM, _LAG_MOST_MM = 0.5, units.MM_PER_INCH / 2, 6 * units.MM_PER_INCH
"""Thread of a lag screw: half its length and 1/2 in, or 6 in, whichever is less (NDS Table L2;
from memory)."""

_WOOD_SHARE = 2.0 / 3.0
"""Thread of a wood screw, by its length (NDS Table L3; from memory)."""


def drilling_of(plan: Plan) -> Drilling | None:
    """How the wall is drilled for a plan's standoffs, all alike; None without layers."""
    return _drilling(
        replace(plan.wall, zones=(), studs=(), photo=None, as_found=(), revisions=()),
        plan.standoff.stud_mm,
        plan.standoff.projection_mm,
        plan.sheet.thickness_mm + 2 * plan.sheet.finish_mm,
    )


@lru_cache(maxsize=8)  # asked for at every move of the mouse
def _drilling(wall: Wall, stud_mm: float, projection_mm: float, sheet_mm: float) -> Drilling | None:
    return drilling.drilling(wall, stud_mm=stud_mm, projection_mm=projection_mm, sheet_mm=sheet_mm)


def fixing_of(plan: Plan) -> WallFixing:
    """What one standoff's fixing may carry, a wood screw with the thread that the layers give it.

    A screw that no structure holds carries nothing that is known: its tension is then open, as one
    that was not entered.
    """
    fixing = plan.loading.fixing
    if fixing.screw is None or plan.wall.fastener.kind not in ("lag screw", "wood screw"):
        return fixing
    drilled = drilling_of(plan)
    if drilled is None:
        return fixing
    thread = thread_mm(drilled)
    if thread < _LEAST_THREAD_MM:
        return replace(fixing, screw=None, tension_n=None)
    kind: ScrewKind = "lag" if drilled.fastener.kind == "lag screw" else "wood"
    screw = replace(fixing.screw, kind=kind, diameter_mm=drilled.diameter_mm, thread_mm=thread)
    return replace(fixing, screw=screw)


def thread_mm(drilled: Drilling) -> float:
    """Thread in the structure, without the point; 0 where no structure holds the screw."""
    bearing, length = drilled.bearing, drilled.length
    if bearing is None or bearing.kind != "structure":
        return 0.0
    if drilled.fastener.reach == "sheet" or length is None:
        return drilled.reached_mm
    if drilled.fastener.kind == "wood screw":
        return min(drilled.reached_mm, _WOOD_SHARE * length.mm)
    return min(drilled.reached_mm, _LAG_HALF * length.mm + _LAG_MORE_MM, _LAG_MOST_MM)
