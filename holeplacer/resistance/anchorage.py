"""Anchorage: what holds the standoff in its wall, by the anchor maker's values.

Nothing is assumed of an anchor that nobody has named: without the maker's value the utilisation is
open, and says so. Where one value is known and is by itself too little, it fails for certain.
"""

from typing import Literal

from holeplacer.loads.loading import WallFixing
from holeplacer.resistance import coefficient, given, utilisation, wood_withdrawal
from holeplacer.resistance.utilisation import NOT_ENTERED, Given, Utilisation

Interaction = Literal["straight", "aci-318"]
"""How tension and shear are joined: shares added up to 1.0, or up to 1.2 as ACI 318 17.8 allows for
anchors in concrete that were designed by it."""


def check(
    fixing: WallFixing, *, tension_n: float, shear_n: float, interaction: Interaction = "straight"
) -> Utilisation:
    """Tension and shear of one standoff's anchor.

    A screw in wood goes by the handbook; its lateral value is the fixing's `shear_n`.

    Args:
        fixing: What may be carried.
        tension_n: Out of the wall, a magnitude; 0 where the standoff is pushed on to it.
        shear_n: Along the wall, a magnitude.
        interaction: `straight` is the safe choice.

    Raises:
        InputError: A force or value is negative.
    """
    if fixing.screw is not None:
        return wood_withdrawal.check(
            fixing.screw, tension_n=tension_n, shear_n=shear_n, lateral_n=fixing.shear_n
        )
    given.not_negative(tension_n, "the anchor's tension in N")
    given.not_negative(shear_n, "the anchor's shear in N")
    missing = _missing(fixing, tension_n, shear_n)
    limit = coefficient.value("anchors", "aci limit") if interaction == "aci-318" else 1.0
    concrete = interaction == "aci-318"
    demand = _together(fixing, tension_n, shear_n, interaction)
    unknown = bool(missing) and demand <= 1.0
    if unknown:
        demand = tension_n if fixing.tension_n is None else shear_n
    return utilisation.of(
        "anchor in the wall",
        demand,
        None if unknown else 1.0,
        "N" if unknown else "",
        formula=f"N/Nn + V/Vn <= {limit:g}"
        + ("; a share of 0.2 or less does not reduce the other" if concrete else ""),
        inputs=(
            Given("N", tension_n, "N", "tension of the anchor"),
            Given("V", shear_n, "N", "shear of the anchor"),
            *_entered("Nn", fixing.tension_n, "entered tension value"),
            *_entered("Vn", fixing.shear_n, "entered shear value"),
        ),
        source="anchor maker's values as entered; "
        + ("ACI 318-19 17.8" if concrete else "shares added"),
        status=coefficient.statuses("anchors")[0] if concrete else "E",
        note=f"{missing} {NOT_ENTERED}" if missing else "",
    )


def share(fixing: WallFixing, *, tension_n: float, shear_n: float) -> float | None:
    """The utilisation of `check` by itself, shares added; None where it is not known."""
    if fixing.screw is not None:
        return wood_withdrawal.share(
            fixing.screw, tension_n=tension_n, shear_n=shear_n, lateral_n=fixing.shear_n
        )
    together = _share(tension_n, fixing.tension_n) + _share(shear_n, fixing.shear_n)
    return None if together <= 1.0 and _missing(fixing, tension_n, shear_n) else together


def _missing(fixing: WallFixing, tension_n: float, shear_n: float) -> str:
    """Which value is needed and was not entered; empty where none is."""
    nothing = fixing.tension_n is None and fixing.shear_n is None
    names = [
        name
        for name, value, force in (
            ("tension value", fixing.tension_n, tension_n),
            ("shear value", fixing.shear_n, shear_n),
        )
        if value is None and (force > 0 or nothing)
    ]
    return " and ".join(names)


def _together(
    fixing: WallFixing, tension_n: float, shear_n: float, interaction: Interaction
) -> float:
    """Shares of tension and shear as one, so that 1.0 is the limit; not entered counts nothing."""
    tension = _share(tension_n, fixing.tension_n)
    shear = _share(shear_n, fixing.shear_n)
    if interaction == "straight":
        return tension + shear
    if min(tension, shear) <= coefficient.value("anchors", "aci neglect"):
        return max(tension, shear)
    return max(tension, shear, (tension + shear) / coefficient.value("anchors", "aci limit"))


def _share(force_n: float, value_n: float | None) -> float:
    if force_n == 0 or value_n is None:
        return 0.0
    value = given.not_negative(value_n, "the anchor's entered value in N")
    return force_n / value if value > 0 else float("inf")


def _entered(symbol: str, value_n: float | None, meaning: str) -> tuple[Given, ...]:
    return () if value_n is None else (Given(symbol, value_n, "N", meaning),)
