"""Strength words: stresses, load effects and statuses as the window says them."""

from __future__ import annotations

import math
from typing import TYPE_CHECKING

from holeplacer.loads.force import format_force
from holeplacer.loads.quantity import decimals
from holeplacer.resistance.utilisation import FROM_MEMORY, NOT_ENTERED, Utilisation
from holeplacer.units import LengthUnit, format_length

if TYPE_CHECKING:
    from holeplacer.rules.limit_states import LimitState
    from holeplacer.rules.strength import Strength

MPA_PER_KSI = 4448.2216152605 / 25.4**2
_NMM_PER_LBIN = 4.4482216152605 * 25.4
_STATUSES = {
    "P": "read on a public page",
    "R": "recomputed",
    "E": "entered by you",
}


def format_stress(mpa: float, unit: LengthUnit) -> str:
    """A stress for reading: `82 MPa` or `11.9 ksi`."""
    if unit is LengthUnit.INCH:
        return f"{decimals(mpa / MPA_PER_KSI, 2 if abs(mpa) < 10 * MPA_PER_KSI else 1)} ksi"
    return f"{decimals(mpa, 1 if abs(mpa) < 100 else 0)} MPa"


def format_effect(value: float | None, of: str, unit: LengthUnit) -> str:
    """A load effect or a resistance in its unit; `not entered` words where it is not known."""
    if value is None:
        return NOT_ENTERED
    if math.isinf(value):
        return "∞"
    match of:
        case "N":
            return format_force(value, unit)
        case "MPa":
            return format_stress(value, unit)
        case "mm":
            return format_length(value, unit)
        case "Nmm" | "N mm":
            if unit is LengthUnit.INCH:
                return f"{decimals(value / _NMM_PER_LBIN, 1)} lb in"
            return f"{decimals(value / 1000, 2)} N m"
        case _:
            return f"{value:.4g} {of}".rstrip()


def share_words(share: float | None) -> str:
    """A utilisation: two decimals, never rounded down to the limit."""
    if share is None:
        return "not known"
    if math.isinf(share):
        return "∞"
    return f"{share:.2f}" if not 1.0 < share < 1.005 else "1.01"


def status_words(status: str) -> str:
    """A status in words; what is from memory anywhere in it says so."""
    letters = set(status.replace(";", " ").replace(",", " ").split())
    if "M" in letters or not letters:
        return FROM_MEMORY
    said = [words for letter, words in _STATUSES.items() if letter in letters]
    return ", ".join(said) or FROM_MEMORY


def inputs_words(item: Utilisation, unit: LengthUnit) -> str:
    """What went into a formula, one after another: `t = 1.5 mm (thickness)`."""
    return "; ".join(
        f"{given.symbol} = {format_effect(given.value, given.unit, unit)} ({given.meaning})"
        for given in item.inputs
    )


def worst_known(found: Strength) -> LimitState | None:
    """The limit state with the greatest utilisation among those whose resistance is known."""
    return found.worst_known


def not_known(found: Strength) -> tuple[str, ...]:
    """Checks whose resistance is not known, each once."""
    return tuple(dict.fromkeys(state.utilisation.check for state in found.not_known))
