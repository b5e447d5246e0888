"""Hardware: standoff, fit and hole, from the command line to the plan."""

from collections.abc import Mapping
from dataclasses import replace
from typing import Any

import click

from holeplacer.cli.quantities import NOT_NEGATIVE, POSITIVE, Named, NameOrLength
from holeplacer.cli.sections import METAL, option
from holeplacer.plan.plan import StandoffChoice
from holeplacer.rules import ways_out
from holeplacer.standoffs import clearance_hole, head, hole_size, standoff, stud
from holeplacer.standoffs.clearance_hole import Fit

_CLASSES: tuple[Fit, ...] = tuple(fit for fit in clearance_hole.FITS if fit != "entered")

OPTIONS = (
    option(
        METAL, "--hole", type=POSITIVE, help="Hole diameter; hardware follows it. Default 9/32 in."
    ),
    option(
        METAL,
        "--fit",
        type=Named(_CLASSES),
        metavar="FIT",
        help=f"How freely the stud passes: {', '.join(_CLASSES)}, or hole less stud as a length. "
        "Without --hole the hole follows, finish counted in.",
    ),
    option(
        METAL,
        "--standoff",
        type=click.Choice([item.name for item in standoff.standoffs()]),
        metavar="NAME",
        help='Hardware by name, such as "1 in, 1/4 stud".',
    ),
    option(METAL, "--stud", type=POSITIVE, help="Stud diameter."),
    option(
        METAL,
        "--stud-material",
        type=click.Choice([item.name for item in stud.stud_materials()]),
        metavar="NAME",
        help=f"What the stud is made of: {', '.join(m.name for m in stud.stud_materials())}.",
    ),
    option(METAL, "--cap", type=NOT_NEGATIVE, help="Visible cap's diameter; 0 for none."),
    option(
        METAL,
        "--head",
        type=click.Choice([item.name for item in head.heads()]),
        help="What holds the sheet in front.",
    ),
    option(METAL, "--washer", type=NOT_NEGATIVE, help="Bearing washer's diameter; 0 for none."),
    option(
        METAL,
        "--washer-behind",
        type=NOT_NEGATIVE,
        help="Diameter of the washer between barrel and sheet; 0 for none.",
    ),
    option(
        METAL,
        "--bearing",
        type=POSITIVE,
        help="Diameter that presses on the front, if not the washer's or the cap's.",
    ),
    option(METAL, "--projection", type=NOT_NEGATIVE, help="Wall to the back of the sheet."),
)


def hardware(present: StandoffChoice, given: Mapping[str, Any], finish_mm: float) -> StandoffChoice:
    """Hardware by name, then for a hole, then piece by piece, then the hole of a fit.

    Args:
        present: The plan's.
        given: What the command line says.
        finish_mm: Finish on every side, which a fit's hole is enlarged for.

    Raises:
        click.UsageError: The stud does not pass the hole.
    """
    chosen = present
    if given["standoff"] is not None:
        chosen = present.with_hardware(standoff.standoff(given["standoff"]))
    if given["hole"] is not None:
        chosen = ways_out.hardware_for(chosen, given["hole"])
    single = _single(given)
    if single:
        chosen = replace(chosen, name=standoff.OWN, **single)
    if given["fit"] is not None:
        chosen = _fitted(chosen, given["fit"], finish_mm, follow=given["hole"] is None)
    if (single or given["fit"] is not None) and chosen.stud_mm > chosen.hole_mm:
        raise click.UsageError(
            f"a {chosen.stud_mm:g} mm stud does not pass a {chosen.hole_mm:g} mm hole; "
            "give a larger --hole"
        )
    return chosen


def _single(given: Mapping[str, Any]) -> dict[str, Any]:
    fields = {
        "stud_mm": given["stud"],
        "stud_material": given["stud_material"],
        "cap_mm": given["cap"],
        "head": given["head"],
        "washer_mm": given["washer"],
        "washer_behind_mm": given["washer_behind"],
        "bearing_mm": given["bearing"],
        "projection_mm": given["projection"],
    }
    return {name: value for name, value in fields.items() if value is not None}


def _fitted(
    chosen: StandoffChoice, wanted: NameOrLength, finish_mm: float, *, follow: bool
) -> StandoffChoice:
    """The fit as wanted; with `follow` the hole it needs, movement not counted."""
    fit: Fit = next((name for name in _CLASSES if name == wanted.name), "entered")
    chosen = replace(chosen, fit=fit)
    if wanted.mm is not None:
        chosen = replace(chosen, clearance_mm=wanted.mm)
    if not follow:
        return chosen
    needed = hole_size.needed_hole(
        chosen.stud_mm, fit=fit, clearance_mm=chosen.clearance_mm, finish_mm=finish_mm
    )
    return replace(chosen, name=standoff.OWN, hole_mm=round(needed.round_mm, 6))
