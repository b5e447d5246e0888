"""Combination: self-weight and wind together, each with its factor.

ASCE 7 2.4.1 (`asd`): D, D + 0.6W, 0.6D + 0.6W. ASCE 7 2.3.1 (`lrfd`): 1.4D, 1.2D + 1.0W,
0.9D + 1.0W. EN 1990 Eq. 6.10 (`en`): 1.35G, 1.35G + 1.5Q, 1.0G + 1.5Q. The wind's factor depends on
where the wind comes from as well: ASCE 7's is at strength level, EN 1991-1-4's is characteristic,
and an entered design pressure has its factor in it already.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from holeplacer import resources
from holeplacer.loads.loading import DesignMethod, Loading

Purpose = Literal["strength", "deflection"]

_LETTERS: dict[DesignMethod, tuple[str, str]] = {
    "asd": ("D", "W"),
    "lrfd": ("D", "W"),
    "en": ("G", "Q"),
}


@dataclass(frozen=True)
class WindFactor:
    """The factor on the nominal wind.

    Attributes:
        value: The factor.
        source: Standard and clause, or `entered`.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify; `E` entered.
        entered: The person's own.
    """

    value: float
    source: str
    status: str
    entered: bool


@dataclass(frozen=True)
class Combination:
    """One combination of actions.

    Attributes:
        name: As its standard writes it: `0.6D + 0.6W`.
        purpose: What is compared under it: `strength` or `deflection`.
        dead: Factor on self-weight.
        wind: Factor on the nominal wind (`NominalPressure`, `DesignPressure.nominal_out_pa`);
            0 where it doesn't act. `DesignPressure.out_pa` has the strength factor in it.
        source: Of the combination; where the wind acts, of its factor too.
        status: Of both.
    """

    name: str
    purpose: Purpose
    dead: float
    wind: float
    source: str
    status: str


def wind_factor(loading: Loading, purpose: Purpose = "strength") -> WindFactor:
    """The factor on the wind by where it comes from and how it is compared.

    An entered factor holds for strength and, where it is less than the table's, for deflection.

    Args:
        loading: Method, design method, and the entered factor if there is one.
        purpose: What is compared.
    """
    if loading.method in ("none", "entered"):
        return WindFactor(1.0, "in the entered pressure", "E", entered=True)
    standard = "en1991" if loading.method == "en1991-1-4" else "asce7"
    wanted = (standard, loading.design_method, purpose)
    row = next(
        row
        for row in resources.table("wind_factors")
        if (row["standard"], row["design_method"], row["purpose"]) == wanted
    )
    tabled = float(row["factor"])
    own = loading.wind_factor
    if own is not None and (purpose == "strength" or own < tabled):
        return WindFactor(own, "entered", "E", entered=True)
    return WindFactor(tabled, row["source"], row["status"], entered=False)


@lru_cache(maxsize=64)
def combinations(loading: Loading) -> tuple[Combination, ...]:
    """Every combination of the design method, strength first; without wind only self-weight.

    >>> [row.name for row in combinations(Loading(method="asce7-16"))][:3]
    ['D', 'D + 0.6W', '0.6D + 0.6W']
    """
    rows = [
        row
        for row in resources.table("load_combinations")
        if row["design_method"] == loading.design_method
        and not (row["wind"] == "yes" and loading.method == "none")
    ]
    return tuple(_combination(row, loading) for row in rows)


@dataclass(frozen=True)
class Factor:
    """A factor on an action.

    Attributes:
        value: The factor.
        source: Standard and clause.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    value: float
    source: str
    status: str


@lru_cache(maxsize=64)
def dead_factor(loading: Loading) -> Factor:
    """The greatest factor on self-weight of any combination for strength.

    It goes beside every wind, too, which is on the safe side where a standard asks less there.
    """
    rows = [row for row in combinations(loading) if row.purpose == "strength"]
    most = max(rows, key=lambda row: row.dead)
    return Factor(most.dead, most.source, most.status)


@lru_cache(maxsize=64)
def thermal_factor(loading: Loading) -> Factor:
    """The factor on what change of temperature does, for strength."""
    row = next(
        row
        for row in resources.table("thermal_factors")
        if row["design_method"] == loading.design_method
    )
    return Factor(float(row["factor"]), row["source"], row["status"])


def _combination(row: Mapping[str, str], loading: Loading) -> Combination:
    purpose: Purpose = "strength" if row["purpose"] == "strength" else "deflection"
    dead, source, status = float(row["dead"]), row["source"], row["status"]
    if row["wind"] == "no":
        name = _name(loading.design_method, dead, 0.0)
        return Combination(name, purpose, dead, 0.0, source, status)
    factor = wind_factor(loading, purpose)
    if factor.source != source:
        source = f"{source}; wind: {factor.source}"
    if factor.status != status:
        status = f"{status} (combination); {factor.status} (wind)"
    name = _name(loading.design_method, dead, factor.value)
    return Combination(name, purpose, dead, factor.value, source, status)


def _name(design_method: DesignMethod, dead: float, wind: float) -> str:
    weight, air = _LETTERS[design_method]
    name = _term(design_method, dead, weight)
    return f"{name} + {_term(design_method, wind, air)}" if wind else name


def _term(design_method: DesignMethod, factor: float, letter: str) -> str:
    if design_method == "asd" and factor == 1.0:
        return letter
    text = f"{factor:.4g}"
    return f"{text if '.' in text else text + '.0'}{letter}"
