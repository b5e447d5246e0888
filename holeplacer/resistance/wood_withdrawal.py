"""Wood withdrawal: a lag or wood screw drawn out of solid wood, by the handbook's formulas.

Figures of the National Design Specification for Wood Construction are allowable ones (ASD), with a
margin of about 4.5 to the mean of tests built in. Under other design methods, whose forces are
larger, they are kept: that is on the safe side. The formulas are inch-only: diameters go in by
25.4 mm exactly, pounds come out by 4.4482216152605 N.
"""

import math
from functools import lru_cache

from holeplacer import units
from holeplacer.errors import InputError
from holeplacer.loads.force import N_PER_POUND
from holeplacer.loads.loading import WoodScrew
from holeplacer.resistance import coefficient, given, utilisation
from holeplacer.resistance.utilisation import Given, Utilisation

_NO_END_GRAIN = "wood screws are not to be pulled out of end grain"
_NO_LATERAL = f"lateral value {utilisation.NOT_ENTERED}"
_SOURCE = {"lag": "NDS 12.2.1", "wood": "NDS 12.2.2"}


def lag_n_per_mm(specific_gravity: float, diameter_mm: float) -> float:
    """W = 1800 G^1.5 D^0.75 lb per inch of thread, side grain, before CD; here N per mm."""
    factor = coefficient.value("lag withdrawal", "factor")
    inches = diameter_mm / units.MM_PER_INCH
    pounds = factor * math.pow(specific_gravity, 1.5) * math.pow(inches, 0.75)
    return pounds * N_PER_POUND / units.MM_PER_INCH


def wood_screw_n_per_mm(specific_gravity: float, diameter_mm: float) -> float:
    """W = 2850 G^2 D lb per inch of thread, side grain, before CD; here N per mm."""
    factor = coefficient.value("wood screw withdrawal", "factor")
    pounds = factor * specific_gravity**2 * diameter_mm / units.MM_PER_INCH
    return pounds * N_PER_POUND / units.MM_PER_INCH


@lru_cache(maxsize=16)  # the same at every standoff
def withdrawal_n(screw: WoodScrew) -> float:
    """W' p: what one screw may be pulled with; 0 for a wood screw in end grain.

    Raises:
        InputError: A figure of the screw is not above 0, or CD more than 1.6.
    """
    gravity = given.positive(screw.specific_gravity, "the wood's specific gravity")
    diameter = given.positive(screw.diameter_mm, "the screw's diameter in mm")
    thread = given.positive(screw.thread_mm, "the thread's length in the wood in mm")
    duration = _load_duration(screw.load_duration)
    if screw.kind == "wood":
        each = 0.0 if screw.end_grain else wood_screw_n_per_mm(gravity, diameter)
    else:
        grain = coefficient.value("lag withdrawal", "end grain") if screw.end_grain else 1.0
        each = grain * lag_n_per_mm(gravity, diameter)
    return each * duration * thread


def combined_n(withdrawal: float, lateral: float, angle_rad: float) -> float:
    """Z' of a force at an angle: Wp Z/(Wp cos^2 α + Z sin^2 α) (NDS 12.4.1; from memory).

    Args:
        withdrawal: Wp, may be pulled with.
        lateral: Z, may be pushed sideways with.
        angle_rad: α of the force from the wood's surface.

    >>> round(combined_n(540.0, 150.0, math.radians(60.0)), 1)
    327.3
    """
    if withdrawal <= 0 or lateral <= 0:
        return 0.0
    below = withdrawal * math.cos(angle_rad) ** 2 + lateral * math.sin(angle_rad) ** 2
    return withdrawal * lateral / below


def check(
    screw: WoodScrew, *, tension_n: float, shear_n: float, lateral_n: float | None
) -> Utilisation:
    """Tension and shear of one screw in wood.

    Args:
        screw: Kind, sizes, wood.
        tension_n: Out of the wood, a magnitude.
        shear_n: Along its surface, a magnitude.
        lateral_n: Allowable lateral value Z', entered; None: not entered, and under any shear the
            utilisation is not known.

    Raises:
        InputError: A force is negative, or a figure of the screw not above 0.
    """
    given.not_negative(tension_n, "the anchor's tension in N")
    given.not_negative(shear_n, "the anchor's shear in N")
    pull = withdrawal_n(screw)
    inputs = _inputs(screw, pull)
    source, kind = _SOURCE[screw.kind], f"{screw.kind} screw"
    refused = _NO_END_GRAIN if screw.kind == "wood" and screw.end_grain else ""
    margin = utilisation.joined("allowable values (ASD)", refused)
    status = utilisation.worst_status(*coefficient.statuses(f"{_TABLE[screw.kind]} withdrawal"))
    certain = shear_n > 0 and lateral_n is None and tension_n > pull
    if shear_n == 0 or certain:
        return utilisation.of(
            f"{kind} in wood",
            tension_n,
            pull,
            "N",
            formula=f"T <= W CD p; {_FORMULA[screw.kind]}",
            inputs=(Given("T", tension_n, "N", "tension of the screw"), *inputs),
            source=source,
            status=status,
            note=utilisation.joined(_NO_LATERAL if certain else "", margin),
        )
    force = math.hypot(tension_n, shear_n)
    angle = math.atan2(tension_n, shear_n)
    if lateral_n is not None:
        given.not_negative(lateral_n, "the screw's lateral value in N")
    known = None if lateral_n is None else combined_n(pull, lateral_n, angle)
    if tension_n == 0 and lateral_n is not None:
        known = lateral_n
    return utilisation.of(
        f"{kind} in wood",
        force,
        known,
        "N",
        formula=f"R <= Z'α; Z'α = Wp Z/(Wp cos^2 α + Z sin^2 α); {_FORMULA[screw.kind]}",
        inputs=(
            Given("R", force, "N", "tension and shear together"),
            Given("α", math.degrees(angle), "deg", "angle of the force from the wood's surface"),
            *inputs,
            *(() if lateral_n is None else (Given("Z", lateral_n, "N", "entered lateral value"),)),
        ),
        source=f"{source}, 12.4",
        status="M",
        note=utilisation.joined("" if lateral_n is not None else _NO_LATERAL, margin),
    )


def share(
    screw: WoodScrew, *, tension_n: float, shear_n: float, lateral_n: float | None
) -> float | None:
    """The utilisation of `check` by itself; None where it is not known.

    It is no sum: a pull beside a force along the surface can use less than either alone, since Z'
    grows with the angle.
    """
    pull = withdrawal_n(screw)
    if shear_n == 0:
        return utilisation.ratio(tension_n, pull)
    if lateral_n is None:
        return utilisation.ratio(tension_n, pull) if tension_n > pull else None
    if tension_n == 0:
        return utilisation.ratio(shear_n, lateral_n)
    known = combined_n(pull, lateral_n, math.atan2(tension_n, shear_n))
    return utilisation.ratio(math.hypot(tension_n, shear_n), known)


def _load_duration(factor: float) -> float:
    largest = coefficient.value("wood connections", "largest load duration")
    if given.positive(factor, "the load duration factor CD") > largest:
        raise InputError(
            f"the load duration factor CD is {factor:g}",
            remedy=f"connections in wood take at most {largest:g}, that of wind",
        )
    return factor


_TABLE = {"lag": "lag", "wood": "wood screw"}
_FORMULA = {"lag": "W = 1800 G^1.5 D^0.75 Ceg", "wood": "W = 2850 G^2 D"}


def _inputs(screw: WoodScrew, pull_n: float) -> tuple[Given, ...]:
    return (
        Given("Wp", pull_n, "N", "may be pulled with"),
        Given("G", screw.specific_gravity, "", "specific gravity of the wood"),
        Given("D", screw.diameter_mm, "mm", "screw diameter"),
        Given("p", screw.thread_mm, "mm", "length of thread in the wood"),
        Given("CD", screw.load_duration, "", "load duration factor, 1.6 for wind"),
    )
