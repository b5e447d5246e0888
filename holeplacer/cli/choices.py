"""Choices: sheet, hardware and limits, from the command line to the plan."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import click

from holeplacer.cli import hardware
from holeplacer.cli.quantities import ANY, NOT_NEGATIVE, POSITIVE, MetalName, Named, NameOrLength
from holeplacer.cli.sections import LIMITS, METAL, option
from holeplacer.errors import InputError
from holeplacer.plan import edit
from holeplacer.plan.limits import Limits
from holeplacer.plan.plan import Plan, SheetChoice
from holeplacer.rules import edge_rule
from holeplacer.sheet import finish, gauge, process
from holeplacer.sheet import metal as metals

Command = Callable[..., Any]

_FINISHES = [item.name for item in finish.finishes()]

_PROCESS = option(
    METAL,
    "--process",
    type=click.Choice([item.name for item in process.processes()]),
    help="How the sheet is cut.",
)
_OPTIONS = (
    option(
        METAL,
        "--metal",
        type=MetalName(),
        metavar="NAME",
        help=f"Sheet metal: {', '.join(item.name for item in metals.metals())}.",
    ),
    option(
        METAL,
        "--gauge",
        type=click.IntRange(1, 60),
        metavar="NUMBER",
        help="Gauge of that metal; the same number is another thickness in another metal.",
    ),
    option(METAL, "--thickness", type=POSITIVE, help="Sheet thickness, in place of a gauge."),
    _PROCESS,
    option(
        METAL,
        "--finish",
        type=Named(_FINISHES),
        metavar="FINISH",
        help=f"What is put on after cutting: {', '.join(_FINISHES)}, or its thickness per side.",
    ),
    option(METAL, "--offset", type=ANY, help="Make all strokes fatter by this much on each side."),
    *hardware.OPTIONS,
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
    option(
        LIMITS,
        "--rule-set",
        type=click.Choice([item.name for item in edge_rule.edge_rules()]),
        metavar="NAME",
        help="Published rule for edge distance and hole spacing, such as aisi-s100-bolts.",
    ),
    option(
        LIMITS, "--cap-overhang", type=NOT_NEGATIVE, help="How far a cap may pass the cut edge."
    ),
)


def choice_options(command: Command) -> Command:
    """Give a command every option that decides on sheet, hardware and limits."""
    for add in reversed(_OPTIONS):
        command = add(command)
    return command


def process_option(command: Command) -> Command:
    """Give a command that tries a saved plan the option that cuts it by another process."""
    return _PROCESS(command)


def cut_otherwise(plan: Plan, given: Mapping[str, Any]) -> Plan:
    """The plan cut by the process that was given; itself where none was."""
    if given.get("process") is None:
        return plan
    return edit.with_sheet(plan, replace(plan.sheet, process=given["process"]))


def chosen(plan: Plan, given: Mapping[str, Any]) -> Plan:
    """The plan with what was given on the command line.

    Raises:
        InputError: The metal has no such gauge.
        click.UsageError: Both gauge and thickness were given, or a stud that does not pass.
    """
    plan = edit.with_sheet(plan, _sheet(plan.sheet, given))
    plan = edit.with_standoff(plan, hardware.hardware(plan.standoff, given, plan.sheet.finish_mm))
    plan = edit.with_limits(plan, _limits(plan.limits, given))
    return plan if given["offset"] is None else edit.with_offset(plan, given["offset"])


def refuse_gauge_alone(given: Mapping[str, Any]) -> None:
    """A gauge for artwork that has no metal yet says nothing of its thickness.

    Raises:
        InputError: A gauge was given without a metal.
    """
    number = given["gauge"]
    if number is None or given["metal"] is not None:
        return
    meanings = [
        f"{row.thickness_mm:.2f} mm in {series}"
        for series in gauge.all_series()
        for row in gauge.gauges(series)
        if row.number == number
    ]
    meant = f" ({', '.join(meanings)})" if meanings else ""
    raise InputError(
        f"{number} gauge without a metal is no thickness: it is another one in each{meant}",
        remedy="give the metal too, such as --metal steel",
    )


def _sheet(present: SheetChoice, given: Mapping[str, Any]) -> SheetChoice:
    metal, number, thickness = given["metal"], given["gauge"], given["thickness"]
    if number is not None and thickness is not None:
        raise click.UsageError("--gauge and --thickness each decide the thickness; give one")
    sheet = present
    if given["process"] is not None:
        sheet = replace(sheet, process=given["process"])
    if metal is not None:
        sheet = replace(sheet, metal=metal, own_metal=None)
    if given["finish"] is not None:
        sheet = _finished(sheet, given["finish"])
    if thickness is not None:
        return replace(sheet, gauge=None, thickness_mm=thickness)
    if number is None and metal is not None:
        number = present.gauge  # the same gauge of another metal is another thickness
    if number is None:
        return sheet
    row = gauge.gauge(sheet.material.gauge_series, number, metal=sheet.metal)
    return replace(sheet, gauge=row.number, thickness_mm=row.thickness_mm)


def _finished(sheet: SheetChoice, wanted: NameOrLength) -> SheetChoice:
    if wanted.mm is not None:
        return replace(sheet, finish=finish.ENTERED, finish_mm=wanted.mm)
    item = finish.finish(wanted.name or "")
    return replace(sheet, finish=item.name, finish_mm=item.per_side_mm)


def _limits(present: Limits, given: Mapping[str, Any]) -> Limits:
    fields = {
        "ligament_mm": given["ligament"],
        "edge_distance_mm": given["edge_distance"],
        "spacing_mm": given["spacing"],
        "overhang_mm": given["overhang"],
        "neighbour_mm": given["neighbours"],
        "cap_overhang_mm": given["cap_overhang"],
        "rule_set": given["rule_set"],
    }
    return replace(present, **{name: value for name, value in fields.items() if value is not None})
