"""Loads on the command line: wind, temperature, and what sheet and anchors may bear."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import click

from holeplacer.cli.quantities import POSITIVE
from holeplacer.cli.sections import LOADS, option
from holeplacer.errors import InputError
from holeplacer.loads import degrees, force, loading, pressure, speed, validity
from holeplacer.loads.loading import Asce7Site, En1991Site, Loading, WallFixing
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
    option(LOADS, "--anchor-tension", type=FORCE, help="Pull an anchor may take in this wall."),
    option(LOADS, "--anchor-shear", type=FORCE, help="Shear an anchor may take in this wall."),
)


def loading_options(command: Command) -> Command:
    """Give a command every option that decides on loads."""
    for add in reversed(_OPTIONS):
        command = add(command)
    return command


def loaded(plan: Plan, given: Mapping[str, Any]) -> Plan:
    """The plan with what was given of its loads; itself where a verb takes none.

    Raises:
        InputError: A figure can't be meant.
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
        temperature=replace(
            made.temperature,
            **_given({"lowest_c": given["coldest"], "highest_c": given["hottest"]}),
        ),
        fixing=_fixing(made.fixing, given),
    )
    return plan if made == present else edit.with_loading(plan, validity.checked(made))


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
    return replace(
        fixing,
        **_given({"tension_n": given["anchor_tension"], "shear_n": given["anchor_shear"]}),
    )


def _given(fields: Mapping[str, Any]) -> dict[str, Any]:
    return {name: value for name, value in fields.items() if value is not None}
