"""Turning: every piece is held by two holes so far apart that it cannot turn.

A piece is held if some two of its holes are at least `turning_share` times its extent apart
(straight from centre to centre), and its centre of gravity lies between them: the foot of the
centre of gravity on the straight line through both centres is not beyond either of them. The
extent is the smaller of the piece's longest axis path and the greatest straight distance between
two points of its axis: a curled piece can't be held wider than it is. No path is shorter than the
straight distance between its ends, so that is always the straight one.
A standoff that is only glued on counts for nothing.
Then wind and weight press both the same way and neither is pried off. Common practice, no source.
"""

from collections import defaultdict
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from holeplacer.geometry.curve import Points
from holeplacer.medial_axis import ways
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.rules.finding import Finding, Place, PlaceKind

NAME = "turning"

SLACK_MM = 1e-6
"""Two holes exactly at the limit hold in spite of rounding."""


def limit(plan: Plan, extent_mm: float) -> float:
    """Least base of a piece, mm: how far apart the two holes are that hold it.

    Args:
        plan: The plan.
        extent_mm: Greatest straight distance between two points of the piece's axis.
    """
    return plan.limits.turning_share * extent_mm


def limits(plan: Plan, axis: Axis) -> tuple[float, ...]:
    """Least base of each piece that has an axis, by piece index, mm."""
    return tuple(limit(plan, extent) for extent in ways.straight_extents(axis))


def holding(xy: Points, centre: tuple[float, float]) -> tuple[float, float]:
    """Widest base that has the centre of gravity between its ends, and the widest base of all.

    Args:
        xy: (n, 2) hole centres of one piece.
        centre: Its centre of gravity.

    Returns:
        Both bases, mm; zero where there is none.
    """
    if len(xy) < 2:
        return 0.0, 0.0
    one, two = np.triu_indices(len(xy), 1)
    base = np.hypot(*(xy[two] - xy[one]).T)
    between = holds(xy[one], xy[two], centre)
    return float(base[between].max(initial=0.0)), float(base.max())


def holds(one: Points, two: Points, centre: tuple[float, float]) -> NDArray[np.bool_]:
    """(n,) whether the centre of gravity lies between each two places; bases not looked at."""
    along = two - one
    passed = ((np.asarray(centre) - one) * along).sum(axis=1)
    square = (along**2).sum(axis=1)
    slack = SLACK_MM * np.sqrt(square)
    return np.asarray((passed >= -slack) & (passed <= square + slack) & (square > 0), bool)


def check(plan: Plan, outline: Outline, axis: Axis) -> tuple[Finding, ...]:
    """Every piece that can turn, in the order of the pieces."""
    places = [(hole.x_mm, hole.y_mm) for hole in plan.holes if hole.fastened]
    of_piece: dict[int, list[tuple[float, float]]] = defaultdict(list)
    for centre, edge in zip(places, outline.around(places), strict=True):
        of_piece[edge.piece].append(centre)
    bases = limits(plan, axis)
    findings = []
    for index, piece in enumerate(outline.pieces):
        centre = piece.centre_of_gravity_mm
        own = of_piece[index]
        held, widest = _holding(tuple(own), centre)
        least = bases[index] if index < len(bases) else 0.0
        if len(own) < 2 or held < least - SLACK_MM or held == 0.0:
            place = Place(PlaceKind.PIECE, index + 1, centre)
            findings.append(_finding(place, len(own), held, widest, least))
    return tuple(findings)


@lru_cache(maxsize=256)  # while one hole is dragged, the other pieces keep theirs
def _holding(
    places: tuple[tuple[float, float], ...], centre: tuple[float, float]
) -> tuple[float, float]:
    return holding(np.array(places).reshape(-1, 2), centre)


def _finding(place: Place, holes: int, held: float, widest: float, least: float) -> Finding:
    piece = f"Piece {place.index}"
    if holes < 2:
        count = "no hole" if holes == 0 else "one hole only"
        return Finding(
            rule=NAME,
            place=place,
            value=float(holes),
            limit=2.0,
            message=f"{piece} has {count}; two are needed so that it cannot turn",
            way_out=(
                f"add a hole at least {least:.1f} mm from the other; where the metal has no room, "
                "a smaller hole, a boss, or a stud welded or a pad glued behind without a hole"
            ),
            unit="",
        )
    if widest < least - SLACK_MM:
        return Finding(
            rule=NAME,
            place=place,
            value=widest,
            limit=least,
            message=(
                f"{piece}: its holes are {widest:.1f} mm apart, at least {least:.1f} mm needed "
                "so that it cannot turn"
            ),
            way_out=f"move two of its holes {least - widest:.1f} mm further apart, or add one",
        )
    return Finding(
        rule=NAME,
        place=place,
        value=held,
        limit=least,
        message=(
            f"{piece}: its centre of gravity does not lie between two holes at least "
            f"{least:.1f} mm apart (those around it are {held:.1f} mm apart)"
        ),
        way_out="add or move a hole to the other side of its centre of gravity",
    )
