"""Drilling: hole depth, drill, fastener length and what it reaches, from layers and standoff.

Reckoned from the wall's face inwards. Every figure that follows from a table says so; an anchor
maker's sheet goes before all of them.
"""

from dataclasses import dataclass

from holeplacer.wall import fastener_table, layers, stock_size
from holeplacer.wall.fastener import Fastener
from holeplacer.wall.fastener_table import FastenerRow
from holeplacer.wall.layer import Layer
from holeplacer.wall.stock_size import StockSize, System
from holeplacer.wall.wall import Wall

PROUD_MM = 3.175
"""A sleeve over soft layers is cut so much longer than they are deep, 1/8 in, so that the barrel
presses on it and not on the skin (installation guidance for foam claddings, read on public
pages)."""

_CLEARANCE_MM = 1.5875
"""Hole through the outer layers over the fastener, 1/16 in (common practice, no source)."""

_SLEEVE_WALL_MM = 1.75
"""A sleeve's wall and its play around the fastener (common practice, no source)."""

_NUT_D = 1.5
"""Washer and nut behind a bolt, over its diameter (common practice, no source)."""

_MASONRY_BEHIND = 2.0
"""Masonry left behind a hole, over its diameter (EN 1992-4 and anchor approvals: h_min; from
memory)."""

_SLACK_MM = 1e-6


@dataclass(frozen=True)
class Drilling:
    """How one standoff is fixed in the wall; all standoffs alike.

    Attributes:
        fastener: What was wished.
        diameter_mm: Of the fastener.
        bearing: The layer that holds it; None: none does.
        asked_mm, least_mm: Embedment wished or usual, and the least that is.
        reached_mm: Embedment reached, without the fastener's point.
        depth_mm: Of the hole from the wall's face; None: right through.
        drill: Into the bearing layer.
        outer_drill: Through the layers outside it.
        free_mm: How far the stud stands free inside the wall, over soft layers.
        lever_arm_mm: From its support in the wall to the sheet.
        sleeve_mm: Length of the sleeve or spacer over soft layers; None where none is needed.
        needed_mm: Length of the fastener at least.
        length: The next one that is sold; None: cut from threaded rod.
        cut_off_mm: What a stud is then too long, to be cut off at its outer end.
        source, status: Of embedment and drill.
        notes: What to know or mind, one sentence each.
    """

    fastener: Fastener
    diameter_mm: float
    bearing: Layer | None
    asked_mm: float
    least_mm: float
    reached_mm: float
    depth_mm: float | None
    drill: StockSize
    outer_drill: StockSize
    free_mm: float
    lever_arm_mm: float
    sleeve_mm: float | None
    needed_mm: float
    length: StockSize | None
    cut_off_mm: float
    source: str
    status: str
    notes: tuple[str, ...]

    @property
    def holds(self) -> bool:
        """Whether a layer made for the fastener holds it as deep as it must at least."""
        row = fastener_table.fastener_row(self.fastener.kind)
        return (
            self.bearing is not None
            and row.suits(self.bearing.kind)
            and self.reached_mm >= self.least_mm - _SLACK_MM
        )


def drilling(
    wall: Wall, *, stud_mm: float, projection_mm: float, sheet_mm: float
) -> Drilling | None:
    """How the wall is drilled for a standoff; None without layers.

    Args:
        wall: Its layers and fastener.
        stud_mm: Diameter of the standoff's stud.
        projection_mm: Wall to back of sheet.
        sheet_mm: Thickness of the sheet with its finish.
    """
    if not wall.layers:
        return None
    wish, row = wall.fastener, fastener_table.fastener_row(wall.fastener.kind)
    d = diameter_mm(wall, stud_mm)
    index = layers.bearing_index(wall.layers)
    bearing = None if index is None else wall.layers[index]
    drill = _drill(wall, row, d, bearing)
    free, outside = layers.free_mm(wall.layers), layers.outside_mm(wall.layers)
    sleeve = free + PROUD_MM if free > 0 else None
    out = _outer_part_mm(wish, d, projection_mm, sheet_mm) + (PROUD_MM if sleeve else 0.0)
    asked, least = _embedments(wish, row, d, bearing)
    held = _held(wish, d, out + outside, asked, _most_mm(row, d, bearing, drill.mm), row.tip_d * d)
    return Drilling(
        fastener=wish,
        diameter_mm=d,
        bearing=bearing,
        asked_mm=asked,
        least_mm=least,
        reached_mm=held.reached_mm,
        depth_mm=_depth_mm(row, outside + held.reached_mm + row.tip_d * d),
        drill=drill,
        outer_drill=_outer_drill(wall, row, d, bearing),
        free_mm=free,
        lever_arm_mm=layers.lever_arm_mm(wall, projection_mm),
        sleeve_mm=sleeve,
        needed_mm=held.needed_mm,
        length=held.length,
        cut_off_mm=held.cut_off_mm,
        source="entered" if wish.embedment_mm is not None else row.source,
        status="E" if wish.embedment_mm is not None else row.status,
        notes=(
            *_holding_notes(row, bearing, asked, least, held),
            *_site_notes(wall, bearing, sleeve),
        ),
    )


@dataclass(frozen=True)
class _Held:
    """Length of a fastener and what it reaches: see `Drilling`; how far it comes out behind."""

    reached_mm: float
    needed_mm: float
    length: StockSize | None
    cut_off_mm: float
    behind_mm: float


def _held(
    wish: Fastener, d: float, outer_mm: float, asked_mm: float, most_mm: float, tip_mm: float
) -> _Held:
    """The next length that is sold: what is too much is cut off outside, or goes deeper."""
    behind = _NUT_D * d if wish.kind == "through bolt" else tip_mm
    reached = min(asked_mm, most_mm)
    needed = outer_mm + reached + behind
    sold = _sold_as(wish)
    length = stock_size.next_length(sold, stock_size.system_of(d), needed)
    excess = max(length.mm - needed, 0.0) if length is not None else 0.0
    if sold == "stud":
        return _Held(reached, needed, length, excess, 0.0)
    if sold == "bolt":
        return _Held(reached, needed, length, 0.0, 0.0)
    deeper = min(excess, most_mm - reached)
    return _Held(reached + deeper, needed, length, 0.0, excess - deeper)


def diameter_mm(wall: Wall, stud_mm: float) -> float:
    """Diameter of the fastener: the entered one, or the stud's."""
    entered = wall.fastener.diameter_mm
    return stud_mm if entered is None else entered


def widest_mm(wall: Wall, stud_mm: float) -> float:
    """Diameter of the widest hole that is drilled into the wall for a standoff, mm."""
    row = fastener_table.fastener_row(wall.fastener.kind)
    d = diameter_mm(wall, stud_mm)
    index = layers.bearing_index(wall.layers)
    bearing = None if index is None else wall.layers[index]
    return max(_drill(wall, row, d, bearing).mm, _outer_drill(wall, row, d, bearing).mm)


def _drill(wall: Wall, row: FastenerRow, d: float, bearing: Layer | None) -> StockSize:
    """Into the bearing layer: the entered one, or the table's; a pilot hole is the nearest."""
    entered = wall.fastener.drill_mm
    if entered is not None:
        return StockSize(entered, f"{entered:g} mm", "entered", "E")
    asked, system = row.drill_factor * d + row.drill_extra_mm, stock_size.system_of(d)
    material = "masonry" if bearing is not None and bearing.kind == "masonry" else row.material
    if row.drill_factor < 1:
        return stock_size.nearest_drill(material, system, asked)
    return _next(material, system, asked)


def _outer_drill(wall: Wall, row: FastenerRow, d: float, bearing: Layer | None) -> StockSize:
    """Through what lies outside: clear of the fastener, or of the sleeve around it."""
    over = 2 * _SLEEVE_WALL_MM if layers.free_mm(wall.layers) > 0 else _CLEARANCE_MM
    inner = _drill(wall, row, d, bearing)
    outer = _next("wood", stock_size.system_of(d), d + over)
    return max(inner, outer, key=lambda drill: drill.mm)


def _next(material: str, system: System, mm: float) -> StockSize:
    found = stock_size.next_drill(material, system, mm)
    return found or StockSize(mm, f"{mm:.1f} mm", "larger than any that is listed", "R")


def _outer_part_mm(wish: Fastener, d: float, projection_mm: float, sheet_mm: float) -> float:
    """Fastener outside the wall's face."""
    engaged = d if wish.engagement_mm is None else wish.engagement_mm
    return engaged if wish.reach == "barrel" else projection_mm + sheet_mm + engaged


def _embedments(
    wish: Fastener, row: FastenerRow, d: float, bearing: Layer | None
) -> tuple[float, float]:
    """Wished or usual embedment, and the least."""
    if wish.kind == "through bolt":
        whole = bearing.thickness_mm if bearing is not None else 0.0
        return whole, whole
    asked = row.embedment_d * d if wish.embedment_mm is None else wish.embedment_mm
    return asked, asked if wish.embedment_mm is not None else row.least_d * d


def _most_mm(row: FastenerRow, d: float, bearing: Layer | None, drill_mm: float) -> float:
    """The deepest embedment that the bearing layer takes without anything coming out behind."""
    if bearing is None:
        return 0.0
    if row.kind == "through bolt":
        return bearing.thickness_mm
    behind = _MASONRY_BEHIND * drill_mm if bearing.kind == "masonry" else 0.0
    return max(bearing.thickness_mm - row.tip_d * d - behind, 0.0)


def _depth_mm(row: FastenerRow, end_mm: float) -> float | None:
    return None if row.kind == "through bolt" else end_mm + row.spare_mm


def _sold_as(wish: Fastener) -> str:
    if wish.kind == "through bolt":
        return "bolt"
    if wish.reach == "barrel" and wish.kind in ("lag screw", "wood screw"):
        return wish.kind
    return "stud"


def _holding_notes(
    row: FastenerRow, bearing: Layer | None, asked: float, least: float, held: _Held
) -> list[str]:
    """What is amiss with what the fastener is held by."""
    if bearing is None:
        return [
            "No layer holds a fastener: enter what the wall carries with, wood, metal or masonry."
        ]
    name, reached, notes = bearing.name or bearing.kind, held.reached_mm, list[str]()
    if not row.suits(bearing.kind):
        notes.append(f"A {row.kind} is not made for {bearing.kind}; take another fastener.")
    elif reached < least - _SLACK_MM:
        notes.append(
            f"The fastener is held {reached:.1f} mm deep only, at least {least:.1f} mm needed: "
            f"{bearing.thickness_mm:.1f} mm of {name} is too thin for it."
        )
    elif reached < asked - _SLACK_MM:
        notes.append(
            f"{bearing.thickness_mm:.1f} mm of {name} lets the fastener be held {reached:.1f} mm "
            f"deep, not {asked:.1f} mm."
        )
    if held.behind_mm > _SLACK_MM:
        notes.append(
            f"The next length sold comes out {held.behind_mm:.1f} mm behind: look what is there, "
            "or put washers under its head."
        )
    return notes


def _site_notes(wall: Wall, bearing: Layer | None, sleeve_mm: float | None) -> list[str]:
    """What to mind while drilling and tightening."""
    notes = []
    if sleeve_mm is not None:
        soft = " and ".join(layer.name or layer.kind for layer in layers.soft_outside(wall.layers))
        notes.append(
            f"Nothing bears on {soft}: put a sleeve or spacer of {sleeve_mm:.1f} mm round every "
            f"fastener, {PROUD_MM:.1f} mm proud of the skin, and tighten by turn, not by force: "
            "hand-tight on the sleeve, then a quarter turn."
        )
    if bearing is not None and bearing.kind == "masonry":
        notes.append("Drill into the solid unit, never into a joint; no plugs of wood.")
    notes.append("Neutral-cure sealant behind every barrel and around every hole.")
    return notes
