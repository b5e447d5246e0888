"""Utilisation: load effect over resistance in one limit state, with everything it came from.

Estimates for judgement, never approval. A missing or zero resistance is never divided by: a missing
one leaves the utilisation open, a zero one under any load is infinite.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache
from typing import NamedTuple

from holeplacer.errors import InputError

FROM_MEMORY = "from memory, verify"
"""Said beside every figure of status M."""

NOT_ENTERED = "not entered: ask the anchor's maker"
"""Said where a resistance is needed that only the maker of the part can give."""

_WORST_FIRST = "MERP"


class Given(NamedTuple):
    """One figure that went into a formula.

    Attributes:
        symbol: As the source writes it.
        value: In `unit`.
        unit: Empty for a pure number.
        meaning: In words.
    """

    symbol: str
    value: float
    unit: str
    meaning: str


@dataclass(frozen=True, slots=True)
class Utilisation:
    """One limit state in one place.

    Attributes:
        check: The limit state, in words.
        demand: Load effect, in `unit`.
        resistance: Allowable (ASD) or design strength (LRFD, EN), in `unit`; None: not known.
        unit: `N`, `MPa`, `mm`, or empty where shares are added.
        utilisation: Demand over resistance; None where the resistance is not known.
        formula: In the source's symbols.
        inputs: What went in, in the formula's order.
        source: Standard and clause.
        status: `P` read on a public page, `R` recomputed, `E` entered by the person, `M` from
            memory: verify. The worst of formula and factor; that of a metal's strength is said
            beside it in `inputs`.
        note: What to know about it; empty where there is nothing.
    """

    check: str
    demand: float
    resistance: float | None
    unit: str
    utilisation: float | None
    formula: str
    inputs: tuple[Given, ...]
    source: str
    status: str
    note: str = ""

    @property
    def caveat(self) -> str:
        """`from memory, verify` where that is so, else empty."""
        return FROM_MEMORY if self.status.startswith("M") else ""

    @property
    def passes(self) -> bool | None:
        """Whether the resistance is at least the demand; None where it is not known."""
        return None if self.utilisation is None else self.utilisation <= 1.0

    def under(self, demand: float, *forces: float) -> "Utilisation":
        """The same resistance under another load effect.

        Args:
            demand: The load effect, a magnitude.
            *forces: Values of the first inputs, those it comes from; none: it is itself the first.

        Raises:
            InputError: The demand is no number, or negative.
            ValueError: The first input is not the demand, and no forces are given.
        """
        _refuse_negative(self.check, demand, self.unit)
        if not forces and self.inputs[0].value != self.demand:
            raise ValueError(f"{self.check}: its first input is not its demand")
        values = forces or (demand,)
        changed = [
            Given(item[0], value, item[2], item[3])
            for item, value in zip(self.inputs, values, strict=False)
        ]
        return Utilisation(  # written out: asked for every hole at every move of one
            self.check,
            demand,
            self.resistance,
            self.unit,
            ratio(demand, self.resistance),
            self.formula,
            (*changed, *self.inputs[len(values) :]),
            self.source,
            self.status,
            self.note,
        )


def of(
    check: str,
    demand: float,
    resistance: float | None,
    unit: str,
    *,
    formula: str,
    inputs: Iterable[Given],
    source: str,
    status: str,
    note: str = "",
) -> Utilisation:
    """A utilisation, its ratio taken.

    Args:
        check: The limit state, in words.
        demand: Load effect, never negative.
        resistance: Allowable or design strength; None: not known.
        unit: Of both.
        formula: In the source's symbols.
        inputs: What went in.
        source: Standard and clause.
        status: Letter, see `Utilisation`.
        note: What to know about it.

    Raises:
        InputError: The demand is no number, or negative.
    """
    _refuse_negative(check, demand, unit)
    return Utilisation(
        check=check,
        demand=demand,
        resistance=resistance,
        unit=unit,
        utilisation=ratio(demand, resistance),
        formula=formula,
        inputs=tuple(inputs),
        source=source,
        status=status,
        note=note,
    )


@cache
def worst_status(*statuses: str) -> str:
    """The letter that trusts least: M before E before R before P.

    A status that names parts, such as `M (cap); P`, counts as the worst letter that stands alone
    in it.

    >>> worst_status("P", "R"), worst_status("P", "P (2.5); M (kt)")
    ('R', 'M')
    """
    letters = {word for status in statuses for word in status.replace(";", " ").split()}
    return next((letter for letter in _WORST_FIRST if letter in letters), "M")


def joined(*notes: str) -> str:
    """Notes as one line, the empty ones left out."""
    return "; ".join(note for note in notes if note)


def governing(utilisations: Iterable[Utilisation]) -> Utilisation | None:
    """The one nearest to failing; one that is not known counts before those that pass.

    Not known is no pass: it comes after what fails and before all else. None of none.
    """
    return max(utilisations, key=lambda item: severity(item.utilisation), default=None)


def _refuse_negative(check: str, demand: float, unit: str) -> None:
    if math.isnan(demand) or demand < 0:
        raise InputError(
            f"the load effect is {demand:g} {unit}".rstrip(),
            where=check,
            remedy="give its magnitude, 0 or more",
        )


def severity(share: float | None) -> float:
    """How near to failing a utilisation is: not known is no pass, and worse than all that pass."""
    return 1.0 + 1e-12 if share is None else share


def ratio(demand: float, resistance: float | None) -> float | None:
    """Demand over resistance; None where that is not known, infinite on a resistance of 0."""
    if resistance is None:
        return None
    if resistance > 0:
        return demand / resistance
    return math.inf if demand > 0 else 0.0
