"""Coupon: a small plate cut first to prove fits, before the sign is cut.

It bears holes in steps around the planned one, a slot, and a hole with the least metal beside it
that is planned anywhere. It is cut like the sign, so that whatever the table makes of a drawn
diameter it makes of the coupon's, too: the diameter drawn beside the hole that fits is the one to
plan with.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
import shapely
from shapely.geometry import Polygon, box
from shapely.geometry.base import BaseGeometry

from holeplacer.cutting.contours import Part, RoundHole
from holeplacer.errors import InputError
from holeplacer.outline.outline import Outline
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from holeplacer.sheet import process
from holeplacer.units import format_length

STEP_MM = 0.2
"""Step of the diameters: half of what a plasma table repeats (common practice, no source)."""

LEAST_STEP_MM = 0.02
"""Labels bear two decimals."""

STEPS = 2
"""Smaller and larger diameters than planned, so many of either."""

LABEL_MM = 4.0
"""Height of the labels: the smallest that a torch marks legibly (common practice, no source)."""

SLOT, EDGE = "SLOT", "EDGE"
"""Labels of the slot and of the hole that leaves the least ligament."""

_SLOT_WIDTHS = 2.0
"""Length of the slot by its width: room to see the stud slide (common practice, no source)."""

_LABEL_WIDTHS = 4.0
_LABEL_LINE = 1.5
_QUADRANT = 16
_TRIED = 24


@dataclass(frozen=True)
class Trial:
    """One fit to try.

    Attributes:
        label: What is marked beside it: the diameter in mm, or what it tries.
        x_mm, y_mm: Centre.
        diameter_mm: Of the hole; width of the slot.
        length_mm: Of the slot over all; the diameter of a round hole.
        bearing_mm: Ring marked round it, as wide as what presses on the sheet; 0 without one.
    """

    label: str
    x_mm: float
    y_mm: float
    diameter_mm: float
    length_mm: float
    bearing_mm: float = 0.0

    @property
    def label_y_mm(self) -> float:
        """Base line of its label, below it."""
        return self.y_mm - max(self.diameter_mm, self.bearing_mm) / 2 - _LABEL_LINE * LABEL_MM

    @property
    def is_slot(self) -> bool:
        """Whether it is longer than wide."""
        return self.length_mm > self.diameter_mm


@dataclass(frozen=True, eq=False)
class Coupon:
    """The plate, its lower left corner at 0, 0.

    Attributes:
        width_mm, height_mm: Of the plate.
        nominal_mm: The planned hole.
        ligament_mm: Least metal planned beside a hole; left at the plate's right edge.
        trials: Holes by rising diameter, then the slot, then the hole at the edge.
    """

    width_mm: float
    height_mm: float
    nominal_mm: float
    ligament_mm: float
    trials: tuple[Trial, ...]

    @property
    def holes(self) -> tuple[Trial, ...]:
        """The holes in steps, by rising diameter."""
        return self.trials[:-2]

    def part(self) -> Part:
        """The plate as a part to cut, its slot a counter; holes are numbered in their order."""
        slot = next(trial for trial in self.trials if trial.is_slot)
        plate = Polygon(
            box(0.0, 0.0, self.width_mm, self.height_mm).exterior,
            [slot_area(slot).exterior.coords],
        )
        round_ones = [trial for trial in self.trials if not trial.is_slot]
        holes = tuple(
            RoundHole(trial.x_mm, trial.y_mm, trial.diameter_mm, number)
            for number, trial in enumerate(round_ones, start=1)
        )
        return Part("COUPON", plate, holes)


@dataclass(frozen=True)
class Drop:
    """A place in a counter from which the coupon can be cut.

    Attributes:
        x_mm, y_mm: Where its lower left corner comes to lie in the sign.
        piece: Index of the outline's piece.
        coupon: Sized to it.
    """

    x_mm: float
    y_mm: float
    piece: int
    coupon: Coupon


def coupon(
    plan: Plan,
    ligament_mm: float,
    *,
    step_mm: float = STEP_MM,
    steps: int = STEPS,
    width_mm: float | None = None,
    height_mm: float | None = None,
) -> Coupon:
    """The coupon of a plan.

    Args:
        plan: Its hole, what presses on the sheet, and its process.
        ligament_mm: Least metal planned beside a hole, see `least_ligament`.
        step_mm: Between two diameters.
        steps: Smaller and larger ones than planned, so many of either.
        width_mm: The plate is to be no wider; None: as wide as it needs.
        height_mm: The plate is to be no higher.

    Raises:
        InputError: Steps lead below nothing, or the plate is too small for what it bears.
    """
    nominal = plan.standoff.hole_mm
    if step_mm < LEAST_STEP_MM:
        raise InputError(
            f"steps of {format_length(step_mm)} can't be told apart",
            where="coupon",
            remedy=f"take {format_length(LEAST_STEP_MM)} or more",
        )
    if steps < 1 or nominal - steps * step_mm <= 0:
        raise InputError(
            f"{steps} steps of {format_length(step_mm)} don't fit below a hole of "
            f"{format_length(nominal)}",
            where="coupon",
            remedy="take fewer or smaller steps",
        )
    diameters = [nominal + index * step_mm for index in range(-steps, steps + 1)]
    made = list(_arrangements(plan, diameters, max(ligament_mm, 0.0)))
    most = (width_mm or math.inf, height_mm or math.inf)
    fitting = [c for c in made if c.width_mm <= most[0] + 1e-9 and c.height_mm <= most[1] + 1e-9]
    if not fitting:
        least = min(made, key=lambda item: item.width_mm * item.height_mm)
        raise InputError(
            "the coupon is too small for what it is to try",
            where="coupon",
            remedy=f"make it {format_length(least.width_mm)} x {format_length(least.height_mm)} or "
            "larger, or take fewer steps",
        )
    best = min(fitting, key=lambda item: item.width_mm * item.height_mm)
    return _sized(best, width_mm or best.width_mm, height_mm or best.height_mm)


def planned(plan: Plan, outline: Outline) -> Coupon:
    """The coupon as the plan wants it, with the least metal planned beside any hole.

    Raises:
        InputError: As for `coupon`.
    """
    wish = plan.sections.coupon
    return coupon(
        plan,
        least_ligament(plan, outline),
        step_mm=wish.step_mm,
        steps=wish.steps,
        width_mm=wish.width_mm,
        height_mm=wish.height_mm,
    )


def in_drop(
    plan: Plan, outline: Outline, ligament_mm: float, clear_mm: float, *, steps: int = STEPS
) -> Drop | None:
    """The coupon where it can be cut from the drop of a counter, the largest counter first.

    Args:
        plan: As for `coupon`.
        outline: With its counters.
        ligament_mm: As for `coupon`.
        clear_mm: Left between the plate and the counter's edge: kerfs, pierces.
        steps: As for `coupon`.

    Returns:
        None where no counter is large enough.
    """
    nominal = plan.standoff.hole_mm
    diameters = [nominal + index * STEP_MM for index in range(-steps, steps + 1)]
    made = sorted(_arrangements(plan, diameters, max(ligament_mm, 0.0)), key=_area)
    counters = [
        (Polygon(ring), index)
        for index, piece in enumerate(outline.pieces)
        for ring in piece.polygon.interiors
    ]
    for counter, piece in sorted(counters, key=lambda item: -item[0].area):
        room = counter.buffer(-clear_mm)
        for plate in made:
            corner = _corner_in(room, plate.width_mm, plate.height_mm)
            if corner is not None:
                return Drop(*corner, piece, plate)
    return None


def least_ligament(plan: Plan, outline: Outline) -> float:
    """Least metal between a planned hole and a cut edge; the least allowed if there is no hole.

    Holes that break through the edge are a finding elsewhere and are not counted here.
    """
    if not plan.holes:
        return plan.limits.ligament_mm
    at = np.array([(hole.x_mm, hole.y_mm) for hole in plan.holes])
    radii = np.array([plan.diameter_of(hole) for hole in plan.holes]) / 2
    left = outline.edge_distance(at) - radii
    return (
        float(left[left > 0].min(initial=math.inf))
        if (left > 0).any()
        else (plan.limits.ligament_mm)
    )


def chosen(plan: Plan, tried: Coupon, label: str) -> Plan:
    """The plan with the diameter of the coupon's hole that fitted.

    Args:
        plan: Before.
        tried: The coupon that was cut.
        label: As marked beside the hole that fitted.

    Raises:
        InputError: No hole in steps bears that label.
    """
    for trial in tried.holes:
        if trial.label == label.strip():
            hardware = replace(plan.standoff, hole_mm=trial.diameter_mm)
            return edit.with_standoff(plan, hardware)
    raise InputError(
        f"no hole of the coupon is marked {label.strip()[:20]!r}",
        where="coupon",
        remedy="take one of " + ", ".join(trial.label for trial in tried.holes),
    )


def slip(plan: Plan, tried: Coupon) -> tuple[str, ...]:
    """Lines of the slip on which is recorded what fitted."""
    sizes = ", ".join(trial.label for trial in tried.holes)
    return (
        (
            f"Coupon {tried.width_mm:.1f} x {tried.height_mm:.1f} mm, planned hole "
            f"{tried.nominal_mm:.2f} mm, stud {plan.standoff.stud_mm:.2f} mm"
        ),
        (
            f"Metal {plan.sheet.material.alloy}, {plan.sheet.thickness_mm:.3f} mm, "
            f"cut by {plan.sheet.process}"
        ),
        "Cut it with the same settings as the sign, clean off dross, coat it as the sign is coated",
        f"Smallest hole the stud passes freely: {sizes}   ring it: ______",
        "Measured diameter of that hole: ______   of the hole planned: ______",
        "The cap covers the ring marked round the planned hole: yes / no",
        "The stud slides in the slot from end to end: yes / no",
        f"Ligament of {tried.ligament_mm:.2f} mm at the edge is sound, not burnt or bent: yes / no",
        "Amperage / speed / consumable: ____________   date, name: ____________",
    )


def slot_area(slot: Trial) -> Polygon:
    """The slot with its round ends, along x."""
    reach = (slot.length_mm - slot.diameter_mm) / 2
    line = shapely.LineString([(slot.x_mm - reach, slot.y_mm), (slot.x_mm + reach, slot.y_mm)])
    return line.buffer(slot.diameter_mm / 2, quad_segs=_QUADRANT)


def _arrangements(plan: Plan, diameters: Sequence[float], ligament_mm: float) -> Iterator[Coupon]:
    """The same trials in 1, 2, 3 ... columns."""
    nominal = plan.standoff.hole_mm
    bearing = plan.standoff.pressed_mm if plan.standoff.pressed_mm > nominal else 0.0
    tried = [
        Trial(f"{d:.2f}", 0.0, 0.0, d, d, bearing if math.isclose(d, nominal) else 0.0)
        for d in diameters
    ]
    tried.append(Trial(SLOT, 0.0, 0.0, nominal, _SLOT_WIDTHS * nominal))
    tried.append(Trial(EDGE, 0.0, 0.0, nominal, nominal))
    web = max(
        process.process(plan.sheet.process).least_ligament_mm(plan.sheet.thickness_mm),
        plan.limits.ligament_mm,
    )
    tallest = max(*diameters, bearing)
    wide = max(tallest, _SLOT_WIDTHS * nominal, _LABEL_WIDTHS * LABEL_MM) + 2 * web
    high = tallest + 2 * web + _LABEL_LINE * LABEL_MM
    for columns in range(1, len(tried) + 1):
        rows = math.ceil(len(tried) / columns)
        placed = tuple(
            replace(
                trial,
                x_mm=(index % columns + 0.5) * wide,
                y_mm=(rows - index // columns) * high - tallest / 2 - web,
            )
            for index, trial in enumerate(tried)
        )
        plate = Coupon(0.0, 0.0, nominal, ligament_mm, placed)
        yield _sized(plate, max(columns * wide, _least_width(plate)), rows * high)


def _least_width(plate: Coupon) -> float:
    """Width at which the hole at the edge is where the others leave room for it."""
    edge = plate.trials[-1]
    return edge.x_mm + edge.diameter_mm / 2 + plate.ligament_mm


def _sized(plate: Coupon, width_mm: float, height_mm: float) -> Coupon:
    """The plate of another size, its last hole as near to the right edge as planned."""
    *others, edge = plate.trials
    edge = replace(edge, x_mm=width_mm - plate.ligament_mm - edge.diameter_mm / 2)
    return replace(plate, width_mm=width_mm, height_mm=height_mm, trials=(*others, edge))


def _area(plate: Coupon) -> float:
    return plate.width_mm * plate.height_mm


def _corner_in(room: BaseGeometry, width: float, height: float) -> tuple[float, float] | None:
    """Lower left corner of a place for a rectangle in an area, tried on a grid."""
    if room.is_empty:
        return None
    left, bottom, right, top = room.bounds
    if right - left < width or top - bottom < height:
        return None
    x, y = np.meshgrid(
        np.linspace(left, right - width, _TRIED), np.linspace(bottom, top - height, _TRIED)
    )
    shapely.prepare(room)
    within = shapely.covers(room, shapely.box(x, y, x + width, y + height))
    if not within.any():
        return None
    row, column = np.argwhere(within)[0]
    return float(x[row, column]), float(y[row, column])
