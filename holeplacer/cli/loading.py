"""Loads on the command line: wind, temperature, and what sheet and anchors may bear."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import click

from holeplacer.cli.quantities import POSITIVE
from holeplacer.cli.sections import LOADS, option
from holeplacer.errors import InputError
from holeplacer.loads import degrees, force, loading, pressure, speed, validity
from holeplacer.loads.loading import Asce7Site, En1991Site, Loading, WallFixing, WoodScrew
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan

Command = Callable[..., Any]


class Quantity(click.ParamType[float]):
    """A quantity that always bears its unit.

    Args:
        name: What it is, in a word; shown in the help.
        parse: The number in base units of what was typed.
    """

    def __init__(self, name: str, parse: Callable[[str], float]) -> None:
        self.name = name
        self._parse = parse

    def convert(
        self, value: str | float, param: click.Parameter | None, ctx: click.Context | None
    ) -> float:
        """Base units of what was typed."""
        if isinstance(value, float):
            return value
        try:
            return self._parse(value)
        except InputError as error:
            self.fail("; ".join(filter(None, (error.what, error.remedy))), param, ctx)


PRESSURE = Quantity("pressure", pressure.parse_pressure)
SPEED = Quantity("speed", speed.parse_speed)
FORCE = Quantity("force", force.parse_force)
TEMPERATURE = Quantity("temperature", degrees.parse_temperature)

_STANDARDS = [method for method in loading.METHODS if method not in ("none", "entered")]

_OPTIONS = (
    option(
        LOADS,
        "--pressure",
        type=PRESSURE,
        help="Design wind pressure off the wall, such as 20psf or 1kPa; strength is then reckoned.",
    ),
    option(LOADS, "--pressure-in", type=PRESSURE, help="The same on to the wall, if it differs."),
    option(
        LOADS,
        "--wind",
        type=click.Choice(["none", *_STANDARDS]),
        metavar="STANDARD",
        help=f"Wind pressure by a standard: {', '.join(_STANDARDS)}; or none.",
    ),
    option(LOADS, "--wind-speed", type=SPEED, help="Basic wind speed, such as 115mph."),
    option(
        LOADS,
        "--building-height",
        type=POSITIVE,
        help="Mean roof height of the building (ASCE 7), or its height (EN 1991-1-4).",
    ),
    option(
        LOADS,
        "--exposure",
        type=click.Choice(loading.EXPOSURES, case_sensitive=False),
        help="Roughness upwind by ASCE 7. Default C.",
    ),
    option(
        LOADS,
        "--terrain",
        type=click.Choice(loading.TERRAINS, case_sensitive=False),
        help="Terrain category by EN 1991-1-4. Default II.",
    ),
    option(
        LOADS,
        "--wall-zone",
        type=click.Choice(["4", "5", "A", "B", "C", "E"], case_sensitive=False),
        help="Part of the wall: 4 or 5 (ASCE 7), A to E (EN 1991-1-4). The windiest by default.",
    ),
    option(
        LOADS,
        "--design-method",
        type=click.Choice(loading.DESIGN_METHODS),
        help="Allowable strength, load and resistance factors, or Eurocode. Default asd.",
    ),
    option(
        LOADS,
        "--supports",
        type=click.Choice(loading.SUPPORTS),
        help="Whether cap and washer hold the sheet's slope at a standoff. Default free.",
    ),
    option(LOADS, "--deflection-limit", type=POSITIVE, help="Most the sheet may give anywhere."),
    option(
        LOADS,
        "--deflection-ratio",
        type=click.FloatRange(1.0, 1e5),
        metavar="NUMBER",
        help="Span over what it may give, where no limit is given. Default 60.",
    ),
    option(LOADS, "--coldest", type=TEMPERATURE, help="Of the metal, such as -20C. Default -20 C."),
    option(LOADS, "--hottest", type=TEMPERATURE, help="Of the metal in the sun. Default 60 C."),
    option(
        LOADS,
        "--installed-at",
        type=TEMPERATURE,
        help="Of the metal when it is marked and hung. Default 20 C.",
    ),
    option(
        LOADS,
        "--handling",
        type=click.Choice(["on", "off"]),
        help="Whether two hands carrying the sign flat are reckoned, too. Default on.",
    ),
    option(LOADS, "--anchor-tension", type=FORCE, help="Pull an anchor may take in this wall."),
    option(LOADS, "--anchor-shear", type=FORCE, help="Shear an anchor may take in this wall."),
    option(
        LOADS,
        "--lag-screw",
        type=POSITIVE,
        help="Lag screw into solid wood in place of an anchor: its diameter.",
    ),
    option(LOADS, "--thread", type=POSITIVE, help="Its thread in the wood. Default 1-1/2 in."),
    option(
        LOADS,
        "--wood-gravity",
        type=click.FloatRange(0.3, 1.0),
        metavar="NUMBER",
        help="Specific gravity of that wood, oven dry. Default 0.42, spruce-pine-fir.",
    ),
)


def loading_options(command: Command) -> Command:
    """Give a command every option that decides on loads."""
    for add in reversed(_OPTIONS):
        command = add(command)
    return command


def loaded(plan: Plan, given: Mapping[str, Any]) -> Plan:
    """The plan with what was given of its loads; itself where a verb takes none.

    Raises:
        InputError: A figure is missing or can't be meant.
        click.UsageError: Two ways to the wind were given, or a zone of another standard.
    """
    if "pressure" not in given:
        return plan
    present = plan.loading
    made = _wind(present, given)
    made = replace(
        made,
        **_given(
            {
                "design_method": given["design_method"],
                "supports": given["supports"],
                "deflection_limit_mm": given["deflection_limit"],
                "deflection_ratio": given["deflection_ratio"],
            }
        ),
        handling=made.handling if given["handling"] is None else given["handling"] == "on",
        temperature=replace(
            made.temperature,
            **_given(
                {
                    "lowest_c": given["coldest"],
                    "highest_c": given["hottest"],
                    "installation_c": given["installed_at"],
                }
            ),
        ),
        fixing=_fixing(made.fixing, given),
    )
    if made == present:
        return plan
    from holeplacer.rules import load_effects  # slow to load, and most jobs give no load

    plan = edit.with_loading(plan, validity.checked(made))
    if load_effects.is_asked(plan):
        load_effects.design_pressure(plan)  # a figure that is missing is asked for at once
    return plan


_OF_STANDARD = {
    "wind_speed": ("asce7-16", "asce7-22", "en1991-1-4"),
    "building_height": ("asce7-16", "asce7-22", "en1991-1-4"),
    "exposure": ("asce7-16", "asce7-22"),
    "terrain": ("en1991-1-4",),
}
"""Options that only some ways to the wind take."""


def _refuse_strangers(method: str, given: Mapping[str, Any]) -> None:
    """What the wind chosen has no use for was meant for another.

    Raises:
        click.UsageError: Something was.
    """
    for name, standards in _OF_STANDARD.items():
        if given[name] is not None and method not in standards:
            raise click.UsageError(
                f"--{name.replace('_', '-')} goes with --wind {' or '.join(standards)}"
            )
    zone = given["wall_zone"]
    asce, en = zone in loading.WALL_ZONES, zone in loading.SUCTION_ZONES
    if (asce and not method.startswith("asce7")) or (en and method != "en1991-1-4"):
        wanted = "asce7-16 or asce7-22" if asce else "en1991-1-4"
        raise click.UsageError(f"--wall-zone {zone} goes with --wind {wanted}")


def _wind(present: Loading, given: Mapping[str, Any]) -> Loading:
    entered, standard = given["pressure"], given["wind"]
    if entered is not None and standard is not None:
        raise click.UsageError("--pressure and --wind each decide the wind; give one")
    if given["pressure_in"] is not None and entered is None and present.method != "entered":
        raise click.UsageError("--pressure-in goes with --pressure")
    if entered is not None:
        present = replace(present, method="entered", pressure_out_pa=entered, pressure_in_pa=None)
    if given["pressure_in"] is not None:
        present = replace(present, pressure_in_pa=given["pressure_in"])
    if standard is not None:
        present = replace(present, method=standard)
    _refuse_strangers(present.method, given)
    return replace(
        present, asce7=_asce7(present.asce7, given), en1991=_en1991(present.en1991, given)
    )


def _asce7(site: Asce7Site, given: Mapping[str, Any]) -> Asce7Site:
    zone = given["wall_zone"]
    return replace(
        site,
        **_given(
            {
                "basic_speed_m_s": given["wind_speed"],
                "roof_height_mm": given["building_height"],
                "exposure": given["exposure"],
                "zone": zone if zone in loading.WALL_ZONES else None,
            }
        ),
    )


def _en1991(site: En1991Site, given: Mapping[str, Any]) -> En1991Site:
    zone = given["wall_zone"]
    return replace(
        site,
        **_given(
            {
                "basic_speed_m_s": given["wind_speed"],
                "reference_height_mm": given["building_height"],
                "terrain": given["terrain"],
                "zone": zone if zone in loading.SUCTION_ZONES else None,
            }
        ),
    )


def _fixing(fixing: WallFixing, given: Mapping[str, Any]) -> WallFixing:
    anchor = _given({"tension_n": given["anchor_tension"], "shear_n": given["anchor_shear"]})
    screw = _given(
        {
            "diameter_mm": given["lag_screw"],
            "thread_mm": given["thread"],
            "specific_gravity": given["wood_gravity"],
        }
    )
    if anchor and screw:
        raise click.UsageError(
            "an anchor's forces and --lag-screw each decide the fixing; give one"
        )
    if anchor:
        return replace(fixing, screw=None, **anchor)
    if not screw:
        return fixing
    if fixing.screw is None and given["lag_screw"] is None:
        raise click.UsageError("--thread and --wood-gravity go with --lag-screw")
    return WallFixing(screw=replace(fixing.screw or WoodScrew(), **screw))


def _given(fields: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in fields.items() if value is not None}
