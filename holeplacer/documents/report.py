"""Report: the whole of what is known about a plan, as JSON for other programs.

Units are millimetres; coordinates are those of the artwork after scaling and levelling, y up.
Holes and pieces are numbered from 1. The file's keys are the attributes' names below, with
`import` for `imported`. A reader should refuse a `version` it does not know; fields may be added
without a new version.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from typing import TYPE_CHECKING

import msgspec

from holeplacer.artwork.account import Entry
from holeplacer.documents import (
    caution,
    hardware_report,
    rules_report,
    sections_report,
    sheet_limits_report,
    strength_report,
    wall_report,
)
from holeplacer.documents.hardware_report import SheetReport, StandoffReport
from holeplacer.documents.rules_report import RulesReport
from holeplacer.documents.sections_report import (
    DividedReport,
    SeamReport,
    SectionReport,
    UsedSheetReport,
    WayReport,
)
from holeplacer.documents.sheet_limits_report import SheetLimitsReport
from holeplacer.documents.strength_report import LoadsReport, ResponseReport
from holeplacer.documents.wall_report import ItemReport, WallReport
from holeplacer.evaluation.evaluate import Evaluation
from holeplacer.evaluation.layout import Layout
from holeplacer.plan.plan import Plan
from holeplacer.rules import spacing, ways_out
from holeplacer.rules.finding import Finding, PlaceKind

if TYPE_CHECKING:  # placing is slow to load, and not every report is of a proposal
    from holeplacer.cutting.division import Compared, Division
    from holeplacer.placement.propose import Proposal
    from holeplacer.placement.sheet_limits import SheetLimits
    from holeplacer.seams.choice import SeamChoice

VERSION = 1
"""Of the report's form; a new one when a field changes its meaning or goes."""


class PieceReport(msgspec.Struct, frozen=True):
    """One connected area of metal.

    Attributes:
        area_mm2: Its area.
        counters: Number of enclosed openings.
        bounds_mm: Left, bottom, right, top.
    """

    area_mm2: float
    counters: int
    bounds_mm: tuple[float, float, float, float]


class OutlineReport(msgspec.Struct, frozen=True):
    """The cut outline, offset and bosses applied.

    Attributes:
        area_mm2: Metal.
        perimeter_mm: Length of all cut edges.
        bounds_mm: Left, bottom, right, top.
        pieces: In order of their left edge.
    """

    area_mm2: float
    perimeter_mm: float
    bounds_mm: tuple[float, float, float, float]
    pieces: tuple[PieceReport, ...]


class EntryReport(msgspec.Struct, frozen=True, omit_defaults=True):
    """One line of the import account.

    Attributes:
        what: What it is.
        where: Layer, element or place.
        count: How many.
        x_mm, y_mm: Place on the sign, if it has one.
    """

    what: str
    where: str
    count: int
    x_mm: float | None = None
    y_mm: float | None = None


class ImportReport(msgspec.Struct, frozen=True):
    """What the file held and what became of it.

    Attributes:
        file: Name of the artwork.
        units: Drawing unit that was applied.
        units_stated: Whether the file itself states it.
        scale: Factor from the artwork as drawn to the sign, units not counted.
        read: What became contours.
        mended: What was changed where the meaning was plain, offset and bosses included.
        ignored: What was left out, and why.
    """

    file: str
    units: str
    units_stated: bool
    scale: float
    read: tuple[EntryReport, ...]
    mended: tuple[EntryReport, ...]
    ignored: tuple[EntryReport, ...]


class AxisReport(msgspec.Struct, frozen=True):
    """The medial axis.

    Attributes:
        length_mm: Of all branches.
        tips: Free ends of strokes.
        junctions: Places where three or more branches meet.
    """

    length_mm: float
    tips: int
    junctions: int


class HoleReport(msgspec.Struct, frozen=True):
    """One hole.

    Attributes:
        number: Its number.
        x_mm, y_mm: Centre.
        diameter_mm: Its diameter.
        piece: Piece it lies in, from 1; 0 outside the metal.
        edge_distance_mm: Centre to the nearest cut edge, negative outside the metal.
        ligament_mm: Metal left between hole and edge.
        fixed: Whether it stays where it is when holes are proposed.
        drilled: Whether the process only marks it.
    """

    number: int
    x_mm: float
    y_mm: float
    diameter_mm: float
    piece: int
    edge_distance_mm: float
    ligament_mm: float
    fixed: bool
    drilled: bool


class UnsupportedReport(msgspec.Struct, frozen=True):
    """A stretch of stroke that no hole holds, or as a proposal has it, that none can hold.

    Attributes:
        x_mm, y_mm: Its place furthest from a hole; of a proposal its widest place.
        length_mm: Its length along the axis; of a tip, how far it hangs over too much; 0 for a
            dot.
        reason: Why, with the ways out.
    """

    x_mm: float
    y_mm: float
    length_mm: float
    reason: str


class FindingReport(msgspec.Struct, frozen=True):
    """One rule in one place.

    Attributes:
        rule: The rule's name.
        where: `hole 3`, `piece 2`, `stretch` or `plan`.
        x_mm, y_mm: The place.
        value: What it is, in `unit`; null where it is without end, such as the way to a hole
            that is not there.
        limit: What it must be, in `unit`.
        unit: `mm`, or empty for counts and shares.
        message: One sentence with both figures.
        way_out: What would cure it.
        broken: Whether the rule is broken; false is a note.
    """

    rule: str
    where: str
    x_mm: float
    y_mm: float
    value: float | None
    limit: float
    unit: str
    message: str
    way_out: str
    broken: bool


class Report(msgspec.Struct, frozen=True, rename={"imported": "import"}):
    """The whole report.

    Attributes:
        version: Of this form.
        caution: What the figures are not.
        units: Always `mm`.
        outline: The cut outline.
        imported: Key `import`: the import account.
        axis: The medial axis.
        sheet: Metal, finish, mass and balance.
        standoff: Hardware, and the hole each stud needs.
        rules: Effective limits.
        loads: Wind and temperature as decided, and how the pressure comes about.
        response: Deflection, stress, reactions and utilisation; null without a wind.
        sheet_limits: Largest spacing and thinnest gauge; null where they were not asked for.
        wall: What the sign hangs on and how; null where nothing was said of it.
        hardware: Everything it is hung with, counted.
        holes: In order of number.
        divided: The sign's division into sections; null without seams and sheets.
        seams: In the plan's order.
        sections: In order of number.
        sheets: Those that are cut.
        alternatives: The usual ways to divide the sign, beside.
        count: Number of holes.
        lower_bound: No fewer holes can satisfy the rules; null where none were proposed.
        proven: Whether `count` is that bound; null where none were proposed.
        unsupported: Stretches that no hole holds.
        findings: Rules broken, and notes.
        seconds: Time of each step.
    """

    version: int
    caution: tuple[str, ...]
    units: str
    outline: OutlineReport
    imported: ImportReport
    axis: AxisReport
    sheet: SheetReport
    standoff: StandoffReport
    rules: RulesReport
    loads: LoadsReport
    response: ResponseReport | None
    sheet_limits: SheetLimitsReport | None
    wall: WallReport | None
    hardware: tuple[ItemReport, ...]
    holes: tuple[HoleReport, ...]
    divided: DividedReport | None
    seams: tuple[SeamReport, ...]
    sections: tuple[SectionReport, ...]
    sheets: tuple[UsedSheetReport, ...]
    alternatives: tuple[WayReport, ...]
    count: int
    lower_bound: int | None
    proven: bool | None
    unsupported: tuple[UnsupportedReport, ...]
    findings: tuple[FindingReport, ...]
    seconds: dict[str, float]


def report(
    layout: Layout,
    evaluation: Evaluation,
    *,
    proposal: Proposal | None = None,
    seconds: Mapping[str, float] | None = None,
    division: Division | None = None,
    choice: SeamChoice | None = None,
    compared: Sequence[Compared] = (),
    limits: SheetLimits | None = None,
) -> Report:
    """All that is known about a plan.

    Args:
        layout: The plan with its outline and axis.
        evaluation: Its findings and figures.
        proposal: Where the holes come from, if they were proposed just now.
        seconds: Time of each step.
        division: Its sections on sheets, if there are any.
        choice: Where the seams come from, if they were chosen just now.
        compared: Other ways to divide the sign.
        limits: What the sheet bears, if it was asked for.
    """
    parted = sections_report.sections_report(layout, division, choice, compared)
    return Report(
        version=VERSION,
        caution=caution.FULL,
        units="mm",
        outline=_outline(layout),
        imported=_import(layout),
        axis=AxisReport(layout.axis.length_mm, len(layout.axis.tips), layout.axis.junctions),
        sheet=hardware_report.sheet_report(layout.plan, layout.outline),
        standoff=hardware_report.standoff_report(layout.plan, layout.outline),
        rules=rules_report.rules_report(layout.plan),
        loads=strength_report.loads_report(layout.plan, evaluation.strength),
        response=(
            strength_report.response_report(evaluation.strength) if evaluation.strength else None
        ),
        sheet_limits=sheet_limits_report.sheet_limits_report(limits),
        wall=wall_report.wall_report(layout),
        hardware=wall_report.hardware(layout),
        holes=_holes(layout.plan, evaluation),
        divided=parted.divided,
        seams=parted.seams,
        sections=parted.sections,
        sheets=parted.sheets,
        alternatives=parted.alternatives,
        count=len(layout.plan.holes),
        lower_bound=proposal.lower_bound if proposal else None,
        proven=proposal.proven if proposal else None,
        unsupported=_proposed(proposal) if proposal else _unsupported(evaluation),
        findings=tuple(_finding(finding) for finding in evaluation.findings),
        seconds={name: round(value, 4) for name, value in (seconds or {}).items()},
    )


def report_bytes(value: Report) -> bytes:
    """The report as indented JSON, UTF-8."""
    return msgspec.json.format(msgspec.json.encode(value), indent=2) + b"\n"


def _outline(layout: Layout) -> OutlineReport:
    outline = layout.outline
    pieces = (
        PieceReport(piece.area_mm2, piece.counters, piece.bounds_mm) for piece in outline.pieces
    )
    return OutlineReport(outline.area_mm2, outline.perimeter_mm, outline.bounds_mm, tuple(pieces))


def _import(layout: Layout) -> ImportReport:
    artwork = layout.artwork
    return ImportReport(
        file=layout.plan.artwork.name,
        units=artwork.units,
        units_stated=artwork.units_stated,
        scale=artwork.scale,
        read=_entries(artwork.account.read),
        mended=_entries((*artwork.account.mended, *layout.changes)),
        ignored=_entries(artwork.account.ignored),
    )


def _entries(entries: Iterable[Entry]) -> tuple[EntryReport, ...]:
    return tuple(
        EntryReport(entry.what, entry.where, entry.count, *(entry.xy_mm or ())) for entry in entries
    )


def _holes(plan: Plan, evaluation: Evaluation) -> tuple[HoleReport, ...]:
    fixed = {hole.number: hole.fixed for hole in plan.holes}
    return tuple(
        HoleReport(
            number=hole.number,
            x_mm=hole.x_mm,
            y_mm=hole.y_mm,
            diameter_mm=hole.diameter_mm,
            piece=hole.piece + 1,
            edge_distance_mm=hole.edge_distance_mm,
            ligament_mm=hole.ligament_mm,
            fixed=fixed[hole.number],
            drilled=hole.drilled,
        )
        for hole in sorted(evaluation.holes, key=lambda hole: hole.number)
    )


def _proposed(proposal: Proposal) -> tuple[UnsupportedReport, ...]:
    """What no hole can hold, each with what would cure it."""
    return tuple(
        UnsupportedReport(
            item.x_mm,
            item.y_mm,
            item.length_mm,
            "; ".join(filter(None, (item.reason, ways_out.sentence(item.ways_out)))),
        )
        for item in proposal.unsupported
    )


def _unsupported(evaluation: Evaluation) -> tuple[UnsupportedReport, ...]:
    """The stretches out of every hole's reach, each with what its finding says."""
    reasons = {
        finding.place.xy_mm: f"{finding.message}; {finding.way_out}"
        for finding in evaluation.findings
        if finding.rule == spacing.NAME
    }
    return tuple(
        UnsupportedReport(*stretch.xy, stretch.length_mm, reasons.get(stretch.xy, ""))
        for stretch in evaluation.stretches
    )


def _finding(finding: Finding) -> FindingReport:
    kind, index = finding.place.kind, finding.place.index
    return FindingReport(
        rule=finding.rule,
        where=f"{kind.value} {index}" if kind in (PlaceKind.HOLE, PlaceKind.PIECE) else kind.value,
        x_mm=finding.place.xy_mm[0],
        y_mm=finding.place.xy_mm[1],
        value=finding.value if math.isfinite(finding.value) else None,
        limit=finding.limit,
        unit=finding.unit,
        message=finding.message,
        way_out=finding.way_out,
        broken=finding.broken,
    )
