"""Hardware list: everything a sign is hung with, counted, with spares."""

import csv
import io
import math
from collections.abc import Iterator
from dataclasses import dataclass

from holeplacer import resources
from holeplacer.documents import caution
from holeplacer.plan.plan import Plan
from holeplacer.rules import wall_fixing
from holeplacer.standoffs import head, stud
from holeplacer.wall import stock_size
from holeplacer.wall.drilling import Drilling

COLUMNS = ("item", "size", "count", "spare", "unit", "note", "source", "status")

_SEALANT_ML = 5.0
"""A bead behind one barrel (common practice, no source)."""

_GAP_FILL = 1.3
"""Adhesive in a hole over the room that the stud leaves of it (common practice, no source)."""

_OWN = "the plan"


@dataclass(frozen=True)
class Item:
    """One line of the list.

    Attributes:
        name: What it is.
        size: Its sizes.
        count: How many the sign takes.
        spare: How many more to take along.
        unit: `pcs`, or `ml` of what is filled in.
        note: What to mind; may be empty.
        source: Where size and count come from.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify; `E` entered.
    """

    name: str
    size: str
    count: int
    spare: int
    unit: str
    note: str
    source: str
    status: str


def hardware_list(plan: Plan) -> tuple[Item, ...]:
    """All hardware of a plan, in the order in which it goes into the wall; none without holes."""
    if not plan.holes:
        return ()
    fastened = sum(hole.fastened for hole in plan.holes)
    drilled = wall_fixing.drilling_of(plan)
    return (
        *_drills(drilled, fastened),
        *_fixings(plan, drilled, fastened),
        *_standoffs(plan),
        *_sealants(plan, fastened),
    )


def hardware_csv(plan: Plan) -> bytes:
    """The list as CSV: the caution as a note, column names, one row per item.

    Returns:
        UTF-8 text with the CRLF line ends of RFC 4180.
    """
    text = io.StringIO()
    text.write(f"# {caution.SHORT}\r\n")
    rows = csv.writer(text)
    rows.writerow(COLUMNS)
    for item in hardware_list(plan):
        rows.writerow(
            (item.name, item.size, item.count, item.spare, item.unit, item.note, item.source,
             item.status)
        )  # fmt: skip
    return text.getvalue().encode("utf-8")


def _drills(drilled: Drilling | None, fastened: int) -> Iterator[Item]:
    if drilled is None or not fastened:
        return
    deep = "right through" if drilled.depth_mm is None else f"{drilled.depth_mm:.0f} mm deep"
    spare = _spare("drill", 1)
    inner, outer = drilled.drill, drilled.outer_drill
    into = drilled.bearing.name or drilled.bearing.kind if drilled.bearing else "the wall"
    yield Item(
        "drill", inner.name, 1, spare, "pcs", f"into {into}, {deep} from the wall's face",
        inner.source, inner.status,
    )  # fmt: skip
    if outer.mm > inner.mm:
        note = "through what lies outside it, and no deeper"
        yield Item("drill", outer.name, 1, spare, "pcs", note, outer.source, outer.status)


def _fixings(plan: Plan, drilled: Drilling | None, fastened: int) -> Iterator[Item]:
    if not fastened:
        return
    spare = _spare("fastener", fastened)
    if drilled is None:
        yield Item(
            plan.wall.fastener.title, _across(plan.standoff.stud_mm), fastened, spare, "pcs",
            "length is not known: enter the wall's layers", _OWN, "E",
        )  # fmt: skip
        return
    yield _fastener(drilled, fastened, spare)
    if drilled.fastener.kind == "adhesive anchor":
        yield _adhesive(drilled, fastened)
    if drilled.sleeve_mm is not None:
        size = f"over {_across(drilled.diameter_mm)}, {drilled.sleeve_mm:.1f} mm long"
        note = f"through {drilled.outer_drill.name}; cut to length; tighten by turn, not by force"
        yield Item(
            "sleeve or spacer", size, fastened, _spare("sleeve", fastened), "pcs", note,
            "common practice, no source", "M",
        )  # fmt: skip


def _fastener(drilled: Drilling, count: int, spare: int) -> Item:
    length, d = drilled.length, _across(drilled.diameter_mm)
    notes = [f"{drilled.reached_mm:.0f} mm held"]
    if length is None:
        size = f"{d}, cut {drilled.needed_mm:.0f} mm from threaded rod"
    else:
        size = f"{d} x {length.name}"
        if drilled.cut_off_mm >= 1.0:
            notes.append(f"cut {drilled.cut_off_mm:.0f} mm off at the outer end")
    if not drilled.holds:
        notes.append("does not hold in this wall, see the notes on it")
    return Item(
        drilled.fastener.title, size, count, spare, "pcs", "; ".join(notes), drilled.source,
        drilled.status,
    )  # fmt: skip


def _adhesive(drilled: Drilling, count: int) -> Item:
    """What fills the room between stud and hole."""
    room = math.pi / 4 * (drilled.drill.mm**2 - drilled.diameter_mm**2) * drilled.reached_mm
    ml = math.ceil(_GAP_FILL * room * count / 1000)
    note = "clean the holes as its maker says; mind its curing time"
    spare = _spare("bulk", ml)
    return Item("anchor adhesive", "", ml, spare, "ml", note, "common practice, no source", "M")


def _standoffs(plan: Plan) -> Iterator[Item]:
    standoff, count = plan.standoff, len(plan.holes)
    if standoff.barrel_mm > 0:
        size = f"{_across(standoff.barrel_mm)} x {standoff.projection_mm:.1f} mm"
        yield _of_standoff("barrel", size, count, "barrel")
    made = stud.stud_material(standoff.stud_material).title
    title = next(item.title for item in head.heads() if item.name == standoff.head)
    size = _across(standoff.cap_mm) if standoff.cap_mm > 0 else ""
    thread = f"takes the {_across(standoff.stud_mm)} stud of {made}"
    yield _of_standoff(title, size, count, "head", thread)
    if standoff.washer_mm > 0:
        yield _of_standoff("washer in front", _across(standoff.washer_mm), count, "washer")
    if standoff.washer_behind_mm > 0:
        yield _of_standoff(
            "washer behind the sheet", _across(standoff.washer_behind_mm), count, "washer"
        )


def _of_standoff(name: str, size: str, count: int, what: str, note: str = "") -> Item:
    return Item(name, size, count, _spare(what, count), "pcs", note, _OWN, "E")


def _sealants(plan: Plan, fastened: int) -> Iterator[Item]:
    ml = math.ceil(_SEALANT_ML * len(plan.holes))
    yield Item(
        "neutral-cure sealant", "", ml, _spare("bulk", ml), "ml", "behind every barrel",
        "common practice, no source", "M",
    )  # fmt: skip
    glued = len(plan.holes) - fastened
    if glued:
        note = "for standoffs without a fastener; they count for nothing"
        yield Item(
            "construction adhesive", "", math.ceil(_SEALANT_ML * glued),
            _spare("bulk", math.ceil(_SEALANT_ML * glued)), "ml", note,
            "common practice, no source", "M",
        )  # fmt: skip


def _spare(what: str, count: int) -> int:
    row = next(row for row in resources.table("hardware_spares") if row["what"] == what)
    return max(math.ceil(float(row["share"]) * count - 1e-9), int(row["least"]))


def _across(mm: float) -> str:
    """A diameter as it is sold: `M6`, `1/4 in`, or in mm."""
    for row in stud.threads():
        if abs(row.stud_mm - mm) < 0.02:
            return row.stud
    inches = stock_size.system_of(mm) == "inch"
    return f"⌀ {stock_size.inch_name(mm)}" if inches else f"⌀ {mm:g} mm"
