"""Reading options: how artwork becomes an outline, from the command line to the plan."""

import math
from collections.abc import Callable, Mapping
from dataclasses import replace
from typing import Any

import click

from holeplacer.artwork.options import KnownDistance, ReadOptions
from holeplacer.cli.quantities import ANY, NOT_NEGATIVE, POSITIVE, Angle, Factor, Length
from holeplacer.cli.sections import ARTWORK, option
from holeplacer.units import DRAWING_UNITS_MM

Command = Callable[..., Any]

_OPTIONS = (
    option(
        ARTWORK,
        "--units",
        type=click.Choice(list(DRAWING_UNITS_MM)),
        metavar="UNIT",
        help="Unit the artwork is drawn in; needed where the file states none: "
        + ", ".join(DRAWING_UNITS_MM)
        + ".",
    ),
    option(ARTWORK, "--width", type=POSITIVE, help="Scale the sign to this overall width."),
    option(ARTWORK, "--height", type=POSITIVE, help="Scale the sign to this overall height."),
    option(ARTWORK, "--scale", type=Factor(), help="Scale the sign by a factor: 2, 0.5, 1:12."),
    option(
        ARTWORK,
        "--known-distance",
        type=(ANY, ANY, ANY, ANY, POSITIVE),
        metavar="X1 Y1 X2 Y2 LENGTH",
        help="Scale so that two points of the artwork are this far apart.",
    ),
    option(ARTWORK, "--rotate", type=Angle(), help="Turn the sign, + anticlockwise."),
    option(ARTWORK, "--mirror/--no-mirror", default=None, help="Mirror it, as seen from behind."),
    option(
        ARTWORK,
        "--layer",
        "layers",
        multiple=True,
        metavar="NAME",
        help="Read only this layer; may be given again. All visible ones otherwise.",
    ),
    option(
        ARTWORK,
        "--tolerance",
        type=Length(0.001),
        help="Furthest that curves may be simplified. Default 0.02 mm.",
    ),
    option(
        ARTWORK,
        "--join",
        type=NOT_NEGATIVE,
        help="Join loose ends no further apart. Default 0.1 mm.",
    ),
)


def reading_options(command: Command) -> Command:
    """Give a command every option that says how artwork is read."""
    for add in reversed(_OPTIONS):
        command = add(command)
    return command


def reading(present: ReadOptions, given: Mapping[str, Any]) -> ReadOptions:
    """The options with what was given on the command line in place of what was there.

    Raises:
        click.UsageError: More than one size was given, or both points are one.
    """
    changed = replace(present, **_sizes(given), **_plain(given))
    if given["known_distance"] is not None:
        changed = replace(changed, known=_known(given["known_distance"]))
    return changed


def _sizes(given: Mapping[str, Any]) -> dict[str, Any]:
    """A new size in place of any old one."""
    names = ("width", "height", "scale", "known_distance")
    chosen = [name for name in names if given[name] is not None]
    if len(chosen) > 1:
        spelled = " and ".join(f"--{name.replace('_', '-')}" for name in chosen)
        raise click.UsageError(f"{spelled} each decide the size; give one of them")
    if not chosen:
        return {}
    return {
        "width_mm": given["width"],
        "height_mm": given["height"],
        "scale": 1.0 if given["scale"] is None else given["scale"],
        "known": None,
    }


def _plain(given: Mapping[str, Any]) -> dict[str, Any]:
    """Fields that an option sets by itself."""
    fields = {
        "units": given["units"],
        "rotation_rad": given["rotate"],
        "mirror": given["mirror"],
        "layers": tuple(given["layers"]) or None,
        "tolerance_mm": given["tolerance"],
        "chain_mm": given["join"],
    }
    return {name: value for name, value in fields.items() if value is not None}


def _known(values: tuple[float, float, float, float, float]) -> KnownDistance:
    x1, y1, x2, y2, _ = values
    if math.hypot(x2 - x1, y2 - y1) == 0:
        raise click.UsageError("--known-distance needs two different points")
    return KnownDistance(*values)
