"""Seams: whether the plan's seams, proposed or drawn by hand, are where seams can be.

A seam keeps its distance from every tip and junction disc (from holes: `seam_distance`), crosses
one stroke only, and parts something; and every section fits a sheet at hand, if sheets are given.
"""

import math
from collections.abc import Iterator
from functools import lru_cache

import numpy as np
import shapely

from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.plan.seam import Seam
from holeplacer.plan.sections import SectionsChoice
from holeplacer.rules.finding import Finding, Place, PlaceKind
from holeplacer.seams import candidates, sections, stock_fit
from holeplacer.seams.sections import Section
from holeplacer.seams.stock_fit import Usable

NAME = "seams"

_SLACK_MM = 1e-6
_LEAST_MM = 0.01
"""A stroke crossed over less than this is only touched."""


def limit(plan: Plan) -> float:
    """Least distance of a seam from a tip and a junction's disc, mm."""
    return plan.sections.seam_clear_mm


def check(plan: Plan, outline: Outline, axis: Axis) -> tuple[Finding, ...]:
    """What is wrong with each seam, in the plan's order, then sections that fit no sheet.

    None of it depends on holes, so that dragging one costs nothing here.
    """
    if not plan.seams and not plan.sections.stock:
        return ()
    return (
        *_too_near(axis, plan.seams, limit(plan)),
        *_of_parts(outline, plan.seams, plan.sections),
    )


def too_near(plan: Plan, axis: Axis, seams: tuple[Seam, ...]) -> int:
    """How many of these seams are nearer a hole, tip or junction than entered."""
    if not seams:
        return 0
    tips, junctions = candidates.clearances(axis, _ends(seams))
    short = np.minimum(tips, junctions) < limit(plan) - _SLACK_MM
    short |= ~candidates.clear_of_holes(plan, _ends(seams))
    return int(np.count_nonzero(short))


def misfits(choice: SectionsChoice, parts: tuple[Section, ...]) -> tuple[Section, ...]:
    """Sections that fit no sheet at hand."""
    sizes = stock_fit.usable_sizes(choice)
    return tuple(
        part for part in parts if not stock_fit.fits(stock_fit.hull_of(part.polygon), sizes)
    )


@lru_cache(maxsize=4)
def _too_near(axis: Axis, seams: tuple[Seam, ...], least: float) -> tuple[Finding, ...]:
    found = []
    for what, distance in zip(
        ("a tip", "a junction"), candidates.clearances(axis, _ends(seams)), strict=True
    ):
        for index in np.flatnonzero(distance < least - _SLACK_MM).tolist():
            value = float(distance[index])
            found.append(
                Finding(
                    rule=NAME,
                    place=_place(seams[index]),
                    value=value,
                    limit=least,
                    message=(
                        f"Seam {index + 1} is {max(value, 0.0):.1f} mm from {what}, at least "
                        f"{least:.1f} mm needed for heat, filler and grinding"
                    ),
                    way_out=f"move it {least - value:.1f} mm further away along the stroke",
                )
            )
    return tuple(found)


@lru_cache(maxsize=4)
def _of_parts(
    outline: Outline, seams: tuple[Seam, ...], choice: SectionsChoice
) -> tuple[Finding, ...]:
    """What is said of strokes crossed and of sections."""
    parts = sections.sections(outline, seams)
    return (*_crossings(outline, seams, parts), *_misfits(choice, parts))


def _ends(seams: tuple[Seam, ...]) -> candidates.Floats:
    rows = [(seam.x1_mm, seam.y1_mm, seam.x2_mm, seam.y2_mm) for seam in seams]
    return np.array(rows, float).reshape(-1, 2, 2)


def _crossings(
    outline: Outline, seams: tuple[Seam, ...], parts: tuple[Section, ...]
) -> Iterator[Finding]:
    for index, seam in enumerate(seams):
        line = shapely.linestrings([(seam.x1_mm, seam.y1_mm), (seam.x2_mm, seam.y2_mm)])
        within = shapely.get_parts(shapely.intersection(line, outline.region))
        strokes = int(np.count_nonzero(shapely.length(within) > _LEAST_MM))
        beside = sum(index in part.seams for part in parts)
        if strokes > 1:
            yield Finding(
                rule=NAME,
                place=_place(seam),
                value=strokes,
                limit=1,
                message=f"Seam {index + 1} crosses {strokes} strokes, a seam crosses 1",
                way_out=f"draw {strokes} seams, one across each stroke",
                unit="",
            )
        elif beside < 2:
            yield Finding(
                rule=NAME,
                place=_place(seam),
                value=beside,
                limit=2,
                message=f"Seam {index + 1} parts nothing, a seam lies between 2 sections",
                way_out=(
                    "run it from cut edge to cut edge of one stroke; round a counter, a second "
                    "seam is needed"
                ),
                unit="",
            )


def _misfits(choice: SectionsChoice, parts: tuple[Section, ...]) -> Iterator[Finding]:
    if not choice.stock:
        return
    sizes = stock_fit.usable_sizes(choice)
    for part in misfits(choice, parts):
        over = _excess(part, sizes)
        centre = part.polygon.representative_point()
        how = f"by {over:.1f} mm" if math.isfinite(over) else "for none is left within the margin"
        yield Finding(
            rule=NAME,
            place=Place(PlaceKind.PIECE, part.piece + 1, (centre.x, centre.y)),
            value=over if math.isfinite(over) else 0.0,
            limit=0.0,
            message=f"Section {part.number} fits no sheet at hand {how}, as it may be turned",
            way_out="add a seam, or take a larger sheet or a smaller margin",
        )


def _excess(part: Section, sizes: tuple[Usable, ...]) -> float:
    """By how much a section is too large at the angle that suits best, to half a degree, mm."""
    hull = stock_fit.hull_of(part.polygon)
    steps = {"any": np.radians(np.arange(0.0, 180.0, 0.5)), "quarter": np.array([0.0, np.pi / 2])}
    least = math.inf
    for size in sizes:
        angle = steps.get(size.turning, np.array([0.0]))
        across, up = stock_fit.extent(hull, angle)
        least = min(least, float(np.maximum(across - size.width_mm, up - size.height_mm).min()))
    return least


def _place(seam: Seam) -> Place:
    return Place(PlaceKind.STRETCH, 0, seam.middle_mm, seam.length_mm)
