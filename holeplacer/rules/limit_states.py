"""Limit states: every load effect of a plan beside the resistance it meets.

One entry for each limit state and hole, worst case taken, and one for each of the whole sign. The
formulas and their sources are those of `resistance`; here is said which force goes into which.
"""

from bisect import bisect_right
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cache, cached_property, lru_cache, partial
from itertools import accumulate, chain
from typing import overload

from holeplacer.loads import combination
from holeplacer.loads.loading import Loading
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan, SheetChoice
from holeplacer.resistance import bending, deflection, sheet_grade
from holeplacer.resistance.sheet_grade import SheetGrade
from holeplacer.resistance.utilisation import Utilisation
from holeplacer.rules import hole_states, span_deflection
from holeplacer.rules.hole_states import HoleStates
from holeplacer.rules.load_effects import CARRIED, LoadEffects
from holeplacer.rules.spacing import Spans
from holeplacer.rules.span_deflection import SideDeflection


@dataclass(frozen=True)
class LimitState:
    """One limit state in one place of a plan.

    While a hole is dragged all of them are asked for their share many times a second, and few for
    more: what a share comes from is worked out when it is wanted.

    Attributes:
        hole: Number of the hole it is about; 0: of the sheet.
        at_mm: Where.
        case: The load case that governs it.
        share: Load effect over resistance; None where the resistance is not known.
        reckoned: Gives `utilisation`.
    """

    hole: int
    at_mm: tuple[float, float]
    case: str
    share: float | None
    reckoned: Callable[[], Utilisation] = field(repr=False, compare=False)

    @cached_property
    def utilisation(self) -> Utilisation:
        """Load effect, resistance, and all they came from."""
        return self.reckoned()

    @classmethod
    def of(
        cls, hole: int, at_mm: tuple[float, float], case: str, result: Utilisation
    ) -> "LimitState":
        """One that is worked out already."""
        return cls(hole, at_mm, case, result.utilisation, lambda: result)


class LimitStates(Sequence[LimitState]):
    """All limit states of a plan: the sheet's first, then hole by hole in the plan's order.

    The shares are there at once; a limit state is put together when it is asked for.

    Attributes:
        shares: Of each; None where the resistance is not known.
    """

    def __init__(
        self,
        of_sheet: Sequence[LimitState],
        of_holes: Sequence[Sequence[float | None]] = (),
        numbers: Sequence[int] = (),
        at_hole: Callable[[int], Sequence[LimitState]] = lambda _: (),
    ) -> None:
        """Take the sheet's own, the shares and numbers of holes, what puts a hole's together."""
        self._places = {number: place for place, number in enumerate(numbers)}
        self._of_sheet, self._at_hole = tuple(of_sheet), cache(at_hole)
        self.shares = tuple(
            chain((state.share for state in self._of_sheet), chain.from_iterable(of_holes))
        )
        lengths = (len(self._of_sheet), *map(len, of_holes))
        self._first = tuple(accumulate(lengths, initial=0))

    def __len__(self) -> int:
        return len(self.shares)

    @overload
    def __getitem__(self, index: int) -> LimitState: ...

    @overload
    def __getitem__(self, index: slice) -> tuple[LimitState, ...]: ...

    def __getitem__(self, index: int | slice) -> LimitState | tuple[LimitState, ...]:
        if isinstance(index, slice):
            return tuple(self[at] for at in range(*index.indices(len(self))))
        at = range(len(self))[index]
        return self.of_same_hole(at)[at - self._first[self._place(at)]]

    def __iter__(self) -> Iterator[LimitState]:
        yield from self._of_sheet
        for place in self._places.values():
            yield from self._at_hole(place)

    def of_hole(self, number: int) -> tuple[LimitState, ...]:
        """All those of one hole; 0: of the sheet alone."""
        place = self._places.get(number)
        own = () if place is None else self._at_hole(place)
        return (*(state for state in self._of_sheet if state.hole == number), *own)

    def _place(self, at: int) -> int:
        return bisect_right(self._first, at) - 1

    def of_same_hole(self, at: int) -> Sequence[LimitState]:
        """All those of the hole that one is of, or of the sheet."""
        place = self._place(at)
        return self._at_hole(place - 1) if place else self._of_sheet

    def where(self, chosen: Callable[[float | None], bool]) -> tuple[LimitState, ...]:
        """Those whose share is chosen."""
        return tuple(self[at] for at, share in enumerate(self.shares) if chosen(share))


def limit_states(
    plan: Plan, outline: Outline, axis: Axis, spans: Spans, effects: LoadEffects
) -> LimitStates:
    """All limit states.

    Args:
        plan: The plan; a wind is chosen.
        outline: Its cut outline.
        axis: Medial axis of its cut outline.
        spans: How its holes stand along the axis.
        effects: What its loads do.
    """
    sheet = grade(plan.sheet, plan.loading)
    of_sheet = tuple(_of_sheet(plan, axis, spans, effects, sheet))
    if not plan.holes:
        return LimitStates(of_sheet)
    holes = hole_states.hole_states(plan, outline, axis, spans, effects, sheet)
    numbers = [hole.number for hole in plan.holes]
    return LimitStates(of_sheet, holes.shares, numbers, partial(_at_hole, plan, holes))


def _at_hole(plan: Plan, holes: HoleStates, index: int) -> tuple[LimitState, ...]:
    hole, shares = plan.holes[index], holes.shares[index]
    return tuple(
        LimitState(hole.number, (hole.x_mm, hole.y_mm), case, share, reckoned)
        for (case, reckoned), share in zip(holes.found(index), shares, strict=True)
    )


def carried(plan: Plan, effects: LoadEffects) -> LimitState | None:
    """The piece that two hands bend most, carrying it flat; None where that was not asked for.

    It stands apart from the others: a sheet that can't be carried so may be carried otherwise, and
    hang as well as any.
    """
    if not effects.carried:
        return None
    held = max(effects.carried, key=lambda piece: piece.stress_mpa)
    result = bending.check(grade(plan.sheet, plan.loading), held.stress_mpa)
    return LimitState.of(0, held.stress_at_mm, CARRIED, result)


@lru_cache(maxsize=8)
def grade(sheet: SheetChoice, loading: Loading) -> SheetGrade:
    """The sheet as the limit states see it.

    Raises:
        InputError: Nothing of its thickness carries load.
    """
    return sheet_grade.of_metal(sheet.material, sheet.thickness_mm, loading.design_method)


# --- the sheet ---


def _of_sheet(
    plan: Plan, axis: Axis, spans: Spans, effects: LoadEffects, sheet: SheetGrade
) -> Iterator[LimitState]:
    worst = max(effects.wind, key=lambda response: response.max_stress_mpa)
    result = bending.check(sheet, worst.max_stress_mpa)
    yield LimitState.of(0, worst.stress_at_mm, worst.name, result)
    worst = max(effects.wind, key=lambda response: response.max_deflection_mm)
    # Stiffness is judged under a lighter wind than strength, where the standard says so.
    share = combination.wind_factor(plan.loading, "deflection").value / effects.pressure.factor
    limit_mm = plan.loading.deflection_limit_mm
    if limit_mm is not None:
        result = deflection.check_limit(share * worst.max_deflection_mm, limit_mm)
        yield LimitState.of(0, worst.at_mm, worst.name, result)
        return
    sides = span_deflection.side_deflections(axis, spans, effects.grillage.ways, worst)
    most = max(sides, key=lambda side: _allowed_share(side, plan.loading), default=None)
    if most is not None:
        number = plan.holes[most.hole].number
        result = _of_side(most, plan.loading, share)
        yield LimitState.of(number, most.at_mm, worst.name, result)


def _allowed_share(side: SideDeflection, loading: Loading) -> float:
    return side.deflection_mm * _ratio(side, loading) / _length_mm(side)


def _of_side(side: SideDeflection, loading: Loading, share: float) -> Utilisation:
    return deflection.check_ratio(
        share * side.deflection_mm, _length_mm(side), _ratio(side, loading), overhang=side.overhang
    )


def _ratio(side: SideDeflection, loading: Loading) -> float:
    return loading.overhang_ratio if side.overhang else loading.deflection_ratio


def _length_mm(side: SideDeflection) -> float:
    return side.length_mm if side.overhang else 2 * side.length_mm
