"""Strength: no load effect above the resistance it meets, and every piece held.

Estimates for planning, never approval.
"""

from dataclasses import dataclass
from functools import cached_property, lru_cache

from holeplacer.errors import InputError
from holeplacer.medial_axis.axis import Axis
from holeplacer.outline.outline import Outline
from holeplacer.plan.plan import Plan
from holeplacer.resistance import utilisation
from holeplacer.rules import limit_states, load_effects, spacing, thermal_rooms
from holeplacer.rules.finding import Finding, Place, PlaceKind
from holeplacer.rules.limit_states import LimitState, LimitStates
from holeplacer.rules.load_effects import LoadEffects
from holeplacer.structure.mechanism import Mechanism

NAME = "strength"

LIMIT = 1.0
"""Greatest utilisation."""


@dataclass(frozen=True, eq=False)
class Strength:
    """What loads do to a plan, and how much of every resistance they use. Compared by identity.

    Attributes:
        effects: Deflection, stress and reactions.
        states: Every limit state: the sheet's, then hole by hole.
        carried: The piece that two hands bend most before it hangs; None where not asked for.
        rooms: Movement of every hole by temperature against its room; empty where not asked for.
    """

    effects: LoadEffects
    states: LimitStates
    carried: LimitState | None = None
    rooms: tuple[LimitState, ...] = ()

    @property
    def every(self) -> tuple[LimitState, ...]:
        """Every limit state, rooms for movement last."""
        return (*self.states, *self.rooms)

    @cached_property
    def worst(self) -> LimitState | None:
        """The limit state nearest to failing, one that is not known before those that pass."""
        shares = self.states.shares
        worst = max(
            range(len(shares)), key=lambda at: utilisation.severity(shares[at]), default=None
        )
        return None if worst is None else self.states[worst]

    @cached_property
    def worst_known(self) -> LimitState | None:
        """The same, those that are not known left out."""
        known = {at: share for at, share in enumerate(self.states.shares) if share is not None}
        return self.states[max(known, key=known.__getitem__)] if known else None

    @cached_property
    def not_known(self) -> tuple[LimitState, ...]:
        """Those of one hole whose resistance is not known: it is the same at the others."""
        shares = self.states.shares
        at = next((at for at, share in enumerate(shares) if share is None), None)
        first = () if at is None else self.states.of_same_hole(at)
        return tuple(state for state in first if state.share is None)

    def of_hole(self, number: int) -> tuple[LimitState, ...]:
        """All limit states of one hole."""
        rooms = (state for state in self.rooms if state.hole == number)
        return (*self.states.of_hole(number), *rooms)

    @property
    def mechanisms(self) -> tuple[Mechanism, ...]:
        """Pieces that are not held, or only by their caps."""
        return self.effects.wind[0].mechanisms


def limit(plan: Plan) -> float:  # noqa: ARG001 (every rule has this form)
    """Greatest utilisation: load effect over resistance."""
    return LIMIT


def strength(
    plan: Plan, outline: Outline, axis: Axis, *, wind_only: bool = False
) -> Strength | None:
    """Load effects and utilisation of a plan; None where no wind is chosen.

    Args:
        plan: The plan.
        outline: Its cut outline.
        axis: Medial axis of that outline.
        wind_only: Leave out weight, temperature and handling: for comparing places of holes, never
            to tell a person that a sign bears its loads.

    Raises:
        InputError: A figure of the loads is missing or can't be meant.
    """
    if not load_effects.is_asked(plan):
        return None
    effects = load_effects.load_effects(plan, outline, axis, wind_only=wind_only)
    spans = spacing.spans(plan, outline, axis)
    states = limit_states.limit_states(plan, outline, axis, spans, effects)
    rooms = () if wind_only else thermal_rooms.rooms(plan, outline)
    return Strength(effects, states, limit_states.carried(plan, effects), rooms)


def check(plan: Plan, outline: Outline, axis: Axis) -> tuple[Finding, ...]:
    """Every piece that is not held and every utilisation above 1; notes for what is not known."""
    return judged(plan, outline, axis)[1]


@lru_cache(maxsize=4)  # the rule and the evaluation ask for the same
def judged(plan: Plan, outline: Outline, axis: Axis) -> tuple[Strength | None, tuple[Finding, ...]]:
    """Strength with what is said of it; a figure that is still missing is a finding, too."""
    try:
        found = strength(plan, outline, axis)
    except InputError as error:
        return None, (_unanswered(error),)
    return found, () if found is None else findings(found, outline)


def findings(found: Strength, outline: Outline) -> tuple[Finding, ...]:
    """What is said of a plan's strength: pieces, then what fails, the worst of each kind first."""
    return (
        *(_of_mechanism(item, outline) for item in found.mechanisms),
        *(_of_state(state) for state in _failing(found.states)),
        *_unknown(found.not_known),
        *_too_floppy(found.carried),
        *_too_tight(found.rooms),
    )


def _unanswered(error: InputError) -> Finding:
    """The wind was chosen, but a figure of it is not there, or can't be meant."""
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.PLAN, 0, (0.0, 0.0)),
        value=0.0,
        limit=LIMIT,
        message=f"Strength can't be reckoned: {error}",
        way_out=error.remedy or "enter it, or choose no wind",
        unit="",
    )


def _failing(states: LimitStates) -> list[LimitState]:
    failing = states.where(lambda share: (share or 0.0) > LIMIT)
    return sorted(failing, key=lambda state: -(state.share or 0.0))


def _of_state(state: LimitState) -> Finding:
    result = state.utilisation
    share, resistance = result.utilisation or 0.0, result.resistance or 0.0
    of = f"Hole {state.hole}" if state.hole else "The sheet"
    caveat = f" ({result.caveat})" if result.caveat else ""
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.HOLE if state.hole else PlaceKind.PLAN, state.hole, state.at_mm),
        value=share,
        limit=LIMIT,
        message=(
            f"{of}, {result.check}, {state.case}: {result.demand:.4g} {result.unit} of "
            f"{resistance:.4g} {result.unit}, utilisation {share:.2f}{caveat}"
        ),
        way_out="a shorter spacing, more holes there, thicker sheet, or less wind",
        unit="",
    )


def _of_mechanism(item: Mechanism, outline: Outline) -> Finding:
    """A piece that nothing but its caps holds is worth knowing; one on no or one hole fails."""
    broken = item.certain and item.loose
    steady = "; reckoned as kept from turning by cap and barrel" if item.certain else ""
    return Finding(
        rule=NAME,
        place=Place(
            PlaceKind.PIECE, item.piece + 1, outline.pieces[item.piece].centre_of_gravity_mm
        ),
        value=0.0,
        limit=LIMIT,
        message=f"Piece {item.piece + 1}: {item.why}{'' if broken else steady}",
        way_out="add a hole beside the line through the others, or snug caps and washers",
        unit="",
        broken=broken,
    )


@lru_cache(maxsize=32)
def _note(message: str, way_out: str, at_mm: tuple[float, float]) -> Finding:
    return Finding(
        rule=NAME,
        place=Place(PlaceKind.PLAN, 0, at_mm),
        value=0.0,
        limit=LIMIT,
        message=message,
        way_out=way_out,
        unit="",
        broken=False,
    )


def _too_floppy(state: LimitState | None) -> tuple[Finding, ...]:
    """A note where two hands would bend the sheet for good."""
    share = state.share if state else None
    if state is None or share is None or share <= LIMIT:
        return ()
    return (
        _note(
            f"Carried flat by two hands the sheet bends too far: stress {share:.1f} times what it "
            "may bear",
            "carry it upright, on a board, or with more hands",
            state.at_mm,
        ),
    )


def _too_tight(rooms: tuple[LimitState, ...]) -> tuple[Finding, ...]:
    """A note where heat or cold presses holes on their studs, the worst one with its cure."""
    tight = [state for state in rooms if (state.share or 0.0) > LIMIT]
    if not tight:
        return ()
    worst = max(tight, key=lambda state: state.share or 0.0)
    result = worst.utilisation
    count = f"{len(tight)} holes" if len(tight) > 1 else "one hole"
    return (
        _note(
            f"Heat and cold press {count} on the stud, hole {worst.hole} most: it moves "
            f"{result.demand:.2f} mm, its room is {result.resistance or 0.0:.2f} mm; what that "
            "does to studs and sheet is counted above",
            f"larger holes or slots: {result.note}" if result.note else "larger holes or slots",
            worst.at_mm,
        ),
    )


def _unknown(states: tuple[LimitState, ...]) -> tuple[Finding, ...]:
    """One note for each limit state whose resistance is not known."""
    open_ones = {state.utilisation.check: state for state in states}
    return tuple(
        _note(
            f"{check[:1].upper()}{check[1:]} is not judged: the resistance is "
            f"{utilisation.NOT_ENTERED}",
            "enter the maker's allowable for that wall",
            state.at_mm,
        )
        for check, state in open_ones.items()
    )
