"""Wall report: the report's parts on the wall, what each hole meets in it, and the hardware."""

import msgspec

from holeplacer.documents import hardware_list
from holeplacer.evaluation.layout import Layout
from holeplacer.rules import wall, wall_fixing, wall_ground
from holeplacer.wall import placing
from holeplacer.wall.drilling import Drilling
from holeplacer.wall.landing import Landing
from holeplacer.wall.wall import Wall


class PlacedReport(msgspec.Struct, frozen=True):
    """Where the sign hangs, in wall coordinates: from its lower left corner, x right, y up.

    Attributes:
        width_mm, height_mm: The wall's; null where they were not entered.
        shift_mm: Added to the sign's coordinates gives the wall's.
        over_ground_mm: The sign's lower edge above the ground; null without a wall's size.
        level_mm: The level line's y on the sign.
        datum_mm: Origin of listed dimensions on the sign.
        beyond_mm: How far the sign reaches beyond the wall's edges.
    """

    width_mm: float | None
    height_mm: float | None
    shift_mm: tuple[float, float]
    over_ground_mm: float | None
    level_mm: float
    datum_mm: tuple[float, float]
    beyond_mm: float


class MetReport(msgspec.Struct, frozen=True):
    """What one hole meets in the wall.

    Attributes:
        hole: Its number.
        x_mm, y_mm: On the wall.
        ground: `good`, `blocked`, `unknown`, or `none`: of which nothing was said.
        what: What is there, in the person's words.
        clear_mm: From the drilled hole's edge to the nearest blocked zone; null without any.
        fastened: False where its standoff is only glued on and counts for nothing.
    """

    hole: int
    x_mm: float
    y_mm: float
    ground: str
    what: str
    clear_mm: float | None
    fastened: bool


class DrillingReport(msgspec.Struct, frozen=True):
    """How each standoff is fixed; all alike.

    Attributes:
        fastener: What it is bought as.
        diameter_mm: Its diameter.
        layer: What holds it; empty where nothing does.
        holds: Whether a layer made for it holds it as deep as it must at least.
        drill, drill_mm: Into that layer.
        outer_drill, outer_drill_mm: Through what lies outside it.
        depth_mm: Of the hole from the wall's face; null: right through.
        embedment_asked_mm, embedment_least_mm, embedment_mm: Usual or wished, least, and reached.
        needed_length_mm: Of the fastener.
        length, length_mm: The next one sold; null where none is so long.
        cut_off_mm: What is cut off it at the outer end.
        lever_arm_mm: From the stud's support in the wall to the sheet.
        sleeve_mm: Length of the sleeve over soft layers; null where none is needed.
        source, status: Of embedment and drill.
        notes: What to mind.
    """

    fastener: str
    diameter_mm: float
    layer: str
    holds: bool
    drill: str
    drill_mm: float
    outer_drill: str
    outer_drill_mm: float
    depth_mm: float | None
    embedment_asked_mm: float
    embedment_least_mm: float
    embedment_mm: float
    needed_length_mm: float
    length: str | None
    length_mm: float | None
    cut_off_mm: float
    lever_arm_mm: float
    sleeve_mm: float | None
    source: str
    status: str
    notes: tuple[str, ...]


class LayerReport(msgspec.Struct, frozen=True):
    """One layer, the outermost first.

    Attributes:
        kind: What it does.
        thickness_mm: How deep it is.
        name: What it is.
    """

    kind: str
    thickness_mm: float
    name: str


class WallReport(msgspec.Struct, frozen=True):
    """The wall and how the sign is fixed to it.

    Attributes:
        placed: Where the sign hangs.
        layers: What a fastener passes.
        drilling: How each standoff is fixed; null without layers.
        clear_mm: Least distance of a drilled hole from what is blocked.
        landing: What holes do about good zones.
        holes: What each meets.
        sign_cut: Whether the sign is cut already.
        revision: Of the papers; 0 for the first issue.
    """

    placed: PlacedReport
    layers: tuple[LayerReport, ...]
    drilling: DrillingReport | None
    clear_mm: float
    landing: str
    holes: tuple[MetReport, ...]
    sign_cut: bool
    revision: int


class ItemReport(msgspec.Struct, frozen=True):
    """One line of the hardware list.

    Attributes:
        name, size: What it is.
        count, spare: How many the sign takes, and how many more to take along.
        unit: `pcs` or `ml`.
        note: What to mind.
        source, status: Where the figures come from.
    """

    name: str
    size: str
    count: int
    spare: int
    unit: str
    note: str
    source: str
    status: str


def wall_report(layout: Layout) -> WallReport | None:
    """The report's part on the wall; None where nothing was said of it."""
    plan = layout.plan
    if plan.wall == Wall():
        return None
    drilled = wall_fixing.drilling_of(plan)
    revisions = plan.wall.revisions
    return WallReport(
        placed=_placed(layout),
        layers=tuple(
            LayerReport(layer.kind, layer.thickness_mm, layer.name) for layer in plan.wall.layers
        ),
        drilling=None if drilled is None else _drilling(drilled),
        clear_mm=plan.wall.clear_mm,
        landing=plan.wall.landing,
        holes=_holes(layout),
        sign_cut=plan.wall.sign_cut,
        revision=revisions[-1].number if revisions else 0,
    )


def hardware(layout: Layout) -> tuple[ItemReport, ...]:
    """The report's part on the hardware."""
    return tuple(
        ItemReport(
            item.name, item.size, item.count, item.spare, item.unit, item.note, item.source,
            item.status,
        )
        for item in hardware_list.hardware_list(layout.plan)
    )  # fmt: skip


def _placed(layout: Layout) -> PlacedReport:
    known, bounds = layout.plan.wall, layout.outline.bounds_mm
    size = known.elevation
    return PlacedReport(
        width_mm=size.width_mm if size else None,
        height_mm=size.height_mm if size else None,
        shift_mm=placing.translation(known, bounds),
        over_ground_mm=placing.over_ground_mm(known, bounds),
        level_mm=placing.level_mm(known.placing, bounds),
        datum_mm=placing.datum_mm(known.placing, bounds),
        beyond_mm=placing.overlap_mm(known, bounds),
    )


def _holes(layout: Layout) -> tuple[MetReport, ...]:
    plan = layout.plan
    dx, dy = wall_ground.shift_mm(plan, layout.outline)
    radius = wall_ground.drill_radius_mm(plan)
    return tuple(
        MetReport(
            hole=hole.number,
            x_mm=hole.x_mm + dx,
            y_mm=hole.y_mm + dy,
            ground=met.ground,
            what=met.what,
            clear_mm=_clear(met, radius),
            fastened=hole.fastened,
        )
        for hole, met in zip(plan.holes, wall.landings(plan, layout.outline), strict=True)
    )


def _clear(met: Landing, radius_mm: float) -> float | None:
    return None if met.blocked_mm is None else met.blocked_mm - radius_mm


def _drilling(drilled: Drilling) -> DrillingReport:
    bearing, length = drilled.bearing, drilled.length
    return DrillingReport(
        fastener=drilled.fastener.title,
        diameter_mm=drilled.diameter_mm,
        layer=(bearing.name or bearing.kind) if bearing else "",
        holds=drilled.holds,
        drill=drilled.drill.name,
        drill_mm=drilled.drill.mm,
        outer_drill=drilled.outer_drill.name,
        outer_drill_mm=drilled.outer_drill.mm,
        depth_mm=drilled.depth_mm,
        embedment_asked_mm=drilled.asked_mm,
        embedment_least_mm=drilled.least_mm,
        embedment_mm=drilled.reached_mm,
        needed_length_mm=drilled.needed_mm,
        length=length.name if length else None,
        length_mm=length.mm if length else None,
        cut_off_mm=drilled.cut_off_mm,
        lever_arm_mm=drilled.lever_arm_mm,
        sleeve_mm=drilled.sleeve_mm,
        source=drilled.source,
        status=drilled.status,
        notes=drilled.notes,
    )
