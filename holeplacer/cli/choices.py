"""Choices: sheet, hardware and limits, from the command line to the plan."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import click

from holeplacer.cli.quantities import ANY, NOT_NEGATIVE, POSITIVE
from holeplacer.cli.sections import LIMITS, METAL, option
from holeplacer.plan import edit
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, SheetChoice, StandoffChoice
from holeplacer.rules import edge_rule, ways_out
from holeplacer.sheet import gauge, process
from holeplacer.sheet import metal as metals
from holeplacer.standoffs import standoff

Command = Callable[..., Any]

_OPTIONS = (
    option(
        METAL, "--hole", type=POSITIVE, help="Hole diameter; hardware follows it. Default 9/32 in."
    ),
    option(LIMITS, "--ligament", type=NOT_NEGATIVE, help="Least metal between hole and cut edge."),
    option(
        LIMITS,
        "--edge-distance",
        type=NOT_NEGATIVE,
        help="Least distance from hole centre to cut edge.",
    ),
    option(
        LIMITS, "--spacing", type=POSITIVE, help="Most between neighbouring holes along a stroke."
    ),
    option(LIMITS, "--overhang", type=POSITIVE, help="Most from a stroke's tip to its first hole."),
    option(LIMITS, "--neighbours", type=NOT_NEGATIVE, help="Least distance between hole centres."),
    option(METAL, "--offset", type=ANY, help="Make all strokes fatter by this much on each side."),
    option(
        METAL,
        "--metal",
        type=click.Choice([item.name for item in metals.metals()]),
        help="Sheet metal.",
    ),
    option(
        METAL, "--gauge", type=click.IntRange(1, 60), metavar="NUMBER", help="Gauge of that metal."
    ),
    option(METAL, "--thickness", type=POSITIVE, help="Sheet thickness, in place of a gauge."),
    option(
        METAL,
        "--process",
        type=click.Choice([item.name for item in process.processes()]),
        help="How the sheet is cut.",
    ),
    option(
        LIMITS,
        "--rule-set",
        type=click.Choice([item.name for item in edge_rule.edge_rules()]),
        metavar="NAME",
        help="Published rule for edge distance and hole spacing, such as aisi-s100-bolts.",
    ),
    option(
        METAL,
        "--standoff",
        type=click.Choice([item.name for item in standoff.standoffs()]),
        metavar="NAME",
        help='Hardware by name, such as "1 in, 1/4 stud".',
    ),
    option(METAL, "--stud", type=POSITIVE, help="Stud diameter."),
    option(METAL, "--cap", type=NOT_NEGATIVE, help="Visible cap's diameter; 0 for none."),
    option(METAL, "--washer", type=NOT_NEGATIVE, help="Bearing washer's diameter; 0 for none."),
    option(
        LIMITS, "--cap-overhang", type=NOT_NEGATIVE, help="How far a cap may pass the cut edge."
    ),
)


def choice_options(command: Command) -> Command:
    """Give a command every option that decides on sheet, hardware and limits."""
    for add in reversed(_OPTIONS):
        command = add(command)
    return command


def chosen(plan: Plan, given: Mapping[str, Any]) -> Plan:
    """The plan with what was given on the command line.

    Raises:
        InputError: The metal has no such gauge.
        click.UsageError: Both gauge and thickness were given.
    """
    plan = edit.with_sheet(plan, _sheet(plan.sheet, given))
    plan = edit.with_standoff(plan, _hardware(plan.standoff, given))
    plan = edit.with_limits(plan, _limits(plan.limits, given))
    return plan if given["offset"] is None else edit.with_offset(plan, given["offset"])


def _sheet(present: SheetChoice, given: Mapping[str, Any]) -> SheetChoice:
    metal, number, thickness = given["metal"], given["gauge"], given["thickness"]
    if number is not None and thickness is not None:
        raise click.UsageError("--gauge and --thickness each decide the thickness; give one")
    sheet = replace(present, **_given({"process": given["process"], "metal": metal}))
    if thickness is not None:
        return replace(sheet, gauge=None, thickness_mm=thickness)
    if number is None and metal is not None:
        number = present.gauge  # the same gauge of another metal is another thickness
    if number is None:
        return sheet
    row = gauge.gauge(metals.metal(sheet.metal).gauge_series, number, metal=sheet.metal)
    return replace(sheet, gauge=row.number, thickness_mm=row.thickness_mm)


def _hardware(present: StandoffChoice, given: Mapping[str, Any]) -> StandoffChoice:
    """Hardware by name, then for a hole, then piece by piece."""
    hardware = present
    if given["standoff"] is not None:
        hardware = present.with_hardware(standoff.standoff(given["standoff"]))
    if given["hole"] is not None:
        hardware = ways_out.hardware_for(hardware, given["hole"])
    single = _given(
        {"stud_mm": given["stud"], "cap_mm": given["cap"], "washer_mm": given["washer"]}
    )
    if not single:
        return hardware
    hardware = replace(hardware, name="own", **single)
    if hardware.stud_mm > hardware.hole_mm:
        raise click.UsageError(
            f"a {hardware.stud_mm:g} mm stud does not pass a {hardware.hole_mm:g} mm hole; "
            "give a larger --hole"
        )
    return hardware


def _limits(present: Limits, given: Mapping[str, Any]) -> Limits:
    return replace(
        present,
        **_given(
            {
                "ligament_mm": given["ligament"],
                "edge_distance_mm": given["edge_distance"],
                "spacing_mm": given["spacing"],
                "overhang_mm": given["overhang"],
                "neighbour_mm": given["neighbours"],
                "cap_overhang_mm": given["cap_overhang"],
                "rule_set": given["rule_set"],
            }
        ),
    )


def _given(fields: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in fields.items() if value is not None}
