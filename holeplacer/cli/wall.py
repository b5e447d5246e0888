"""Wall on the command line: its size, where the sign hangs, zones, layers and the fastener."""

from collections.abc import Callable, Mapping
from dataclasses import replace
from functools import partial
from typing import Any

import click

from holeplacer.cli.quantities import ANY, NOT_NEGATIVE, POSITIVE
from holeplacer.cli.sections import WALL, option
from holeplacer.errors import InputError
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.wall import entry
from holeplacer.wall.fastener import FASTENER_KINDS, REACHES
from holeplacer.wall.layer import LAYER_KINDS
from holeplacer.wall.wall import LANDINGS, Wall
from holeplacer.wall.zone import Zone

Command = Callable[..., Any]


class Entered(click.ParamType[Any]):
    """What is typed as `wall.entry` takes it.

    Args:
        name: What it is, in a word; shown in the help.
        parse: Gives the value.
    """

    def __init__(self, name: str, parse: Callable[[str], Any]) -> None:
        self.name = name
        self._parse = parse

    def convert(self, value: Any, param: click.Parameter | None, ctx: click.Context | None) -> Any:
        """The value of what was typed."""
        if not isinstance(value, str):
            return value
        try:
            return self._parse(value)
        except InputError as error:
            self.fail("; ".join(filter(None, (error.what, error.remedy))), param, ctx)


def _zone(kind: Any) -> Entered:
    return Entered("zone", partial(entry.parse_zone, kind))


_OPTIONS = (
    option(
        WALL,
        "--wall",
        type=Entered("size", entry.parse_elevation),
        help='The wall\'s width and height, such as "20 x 10 ft".',
    ),
    option(
        WALL, "--ground", type=ANY, help="Height of the ground over the wall's lower edge."
    ),
    option(
        WALL,
        "--at",
        type=Entered("place", entry.parse_placing),
        help='Where the sign hangs: centred, or such as "left 12in, ground 8ft"; sideways '
        "centred, left, right, upwards middle, bottom, top, ground, level.",
    ),
    option(
        WALL, "--level-line", type=ANY, help="The level line's y on the sign; else its lower edge."
    ),
    option(
        WALL,
        "--blocked",
        type=_zone("blocked"),
        multiple=True,
        help='What must not be drilled, from the wall\'s lower left corner: "beam: 40in, 20in to '
        '60in, 24in", with "wide 1in" a band along a line, with ";" a polygon. Repeatable.',
    ),
    option(WALL, "--good", type=_zone("good"), multiple=True, help="What holds a fastener."),
    option(WALL, "--unknown", type=_zone("unknown"), multiple=True, help="What nobody knows."),
    option(
        WALL,
        "--studs",
        type=Entered("framing", entry.parse_studs),
        multiple=True,
        help='Framing that holds a fastener: "16in from 4in wide 1 1/2in", the first one\'s '
        "middle from the wall's left edge.",
    ),
    option(
        WALL,
        "--landing",
        type=click.Choice(LANDINGS),
        help="What holes do about good zones: nothing, prefer them, or lie on them only.",
    ),
    option(
        WALL, "--clear", type=NOT_NEGATIVE, help="Least distance from a drilled hole to a zone "
        "that is blocked. Default 25 mm.",
    ),
    option(
        WALL,
        "--wall-layer",
        type=Entered("layer", entry.parse_layer),
        multiple=True,
        help=f'A layer of the wall, the outermost first: "soft 3/4in: foam"; one of '
        f"{', '.join(LAYER_KINDS)}. Repeatable.",
    ),
    option(
        WALL,
        "--fastener",
        type=click.Choice(FASTENER_KINDS),
        metavar="KIND",
        help=f"What holds a standoff: {', '.join(FASTENER_KINDS)}.",
    ),
    option(
        WALL,
        "--reach",
        type=click.Choice(REACHES),
        help="Whether the fastener goes on to the sheet or ends in the barrel's foot.",
    ),
    option(WALL, "--embedment", type=POSITIVE, help="Least length held; else by table."),
)  # fmt: skip


def wall_options(command: Command) -> Command:
    """Give a command every option about the wall."""
    for add in reversed(_OPTIONS):
        command = add(command)
    return command


def walled(plan: Plan, given: Mapping[str, Any]) -> Plan:
    """The plan with what was given about the wall; itself where a verb takes none.

    Zones of a kind replace the plan's of it.
    """
    if "landing" not in given:
        return plan
    wall = plan.wall
    made = _placed(_fastened(_zoned(wall, given), given), given)
    return plan if made == wall else edit.with_wall(plan, made)


def _zoned(wall: Wall, given: Mapping[str, Any]) -> Wall:
    zones: tuple[Zone, ...] = wall.zones
    for kind in ("blocked", "good", "unknown"):
        if given[kind]:
            zones = (*(zone for zone in zones if zone.kind != kind), *given[kind])
    fields = {
        "zones": zones,
        "studs": given["studs"] or None,
        "landing": given["landing"],
        "clear_mm": given["clear"],
        "layers": given["wall_layer"] or None,
    }
    return replace(wall, **{name: value for name, value in fields.items() if value is not None})


def _fastened(wall: Wall, given: Mapping[str, Any]) -> Wall:
    fields = {
        "kind": given["fastener"],
        "reach": given["reach"],
        "embedment_mm": given["embedment"],
    }
    known = {name: value for name, value in fields.items() if value is not None}
    return replace(wall, fastener=replace(wall.fastener, **known))


def _placed(wall: Wall, given: Mapping[str, Any]) -> Wall:
    elevation, placing = wall.elevation, wall.placing
    if given["wall"] is not None:
        ground = elevation.ground_mm if elevation is not None else 0.0
        elevation = replace(given["wall"], ground_mm=ground)
    if given["ground"] is not None:
        if elevation is None:
            raise click.UsageError("--ground needs the wall's size, --wall")
        elevation = replace(elevation, ground_mm=given["ground"])
    if given["at"] is not None:
        if elevation is None:
            raise click.UsageError("--at needs the wall's size, --wall")
        kept = {"level_mm": placing.level_mm, "datum_mm": placing.datum_mm}
        placing = replace(given["at"], **kept)
    if given["level_line"] is not None:
        placing = replace(placing, level_mm=given["level_line"])
    return replace(wall, elevation=elevation, placing=placing)
