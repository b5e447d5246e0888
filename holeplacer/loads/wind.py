"""Wind: the design pressure off the wall and on to it, by whichever way it was chosen.

The pressures that a structure is compared under have their factor in them (`out_pa`, `in_pa`); what
the standard gives before it stands beside them (`nominal_out_pa`, `nominal_in_pa`). An entered
pressure is a design pressure: both are the same.
"""

from dataclasses import dataclass

from holeplacer.loads import asce7, combination, en1991, step, validity
from holeplacer.loads.loading import Loading
from holeplacer.loads.step import Condition, NominalPressure, Step


@dataclass(frozen=True)
class DesignPressure:
    """Wind on the sign, both ways, with all that led to it.

    Attributes:
        out_pa, in_pa: Off the wall and on to it, positive magnitudes, at the level of the design
            method: the factor on the wind is in them.
        nominal_out_pa, nominal_in_pa: Before that factor: strength level (ASCE 7), characteristic
            (EN 1991-1-4), or as entered.
        factor: On the wind, for strength.
        steps: Every coefficient, in order.
        conditions: What must be true for them to hold.
    """

    out_pa: float
    in_pa: float
    nominal_out_pa: float
    nominal_in_pa: float
    factor: float
    steps: tuple[Step, ...]
    conditions: tuple[Condition, ...]


def design_pressure(
    loading: Loading, *, effective_area_mm2: float, gap_mm: float | None = None
) -> DesignPressure:
    """The design pressure for an effective area.

    Args:
        loading: What was decided; with method `none` both pressures are 0 and nothing is shown.
        effective_area_mm2: Effective wind area of what is designed (`effective_area`); an entered
            one goes before it. An entered pressure doesn't depend on it.
        gap_mm: Between wall and sheet, for the conditions of ASCE 7; None: unknown.

    Raises:
        InputError: A figure is missing or can't be meant, or the place is beyond the standard.
    """
    validity.checked(loading)
    if loading.method == "none":
        return DesignPressure(0.0, 0.0, 0.0, 0.0, 1.0, (), ())
    area_mm2 = loading.effective_area_mm2 or effective_area_mm2
    nominal = _nominal(loading, area_mm2, gap_mm)
    if loading.method == "entered":
        return _factored(nominal, 1.0, nominal.steps)
    factor = combination.wind_factor(loading)
    k = factor.value
    steps = (
        *nominal.steps,
        Step("k", k, "", "factor on the wind", factor.source, factor.status, factor.entered),
        _design_step("w out", k * nominal.out_pa, "off the wall"),
        _design_step("w in", k * nominal.in_pa, "on to the wall"),
    )
    return _factored(nominal, k, steps)


def _nominal(loading: Loading, area_mm2: float, gap_mm: float | None) -> NominalPressure:
    match loading.method:
        case "asce7-16" | "asce7-22":
            return asce7.wall_pressure(
                loading.asce7, loading.method, effective_area_mm2=area_mm2, gap_mm=gap_mm
            )
        case "en1991-1-4":
            return en1991.wall_pressure(loading.en1991, loaded_area_mm2=area_mm2)
        case _:
            return _entered(loading)


def _entered(loading: Loading) -> NominalPressure:
    out_pa = step.asked(
        loading.pressure_out_pa, "pressure off the wall", "enter it, such as 20 psf or 1 kPa"
    )
    in_pa = out_pa if loading.pressure_in_pa is None else loading.pressure_in_pa
    same = " (as off it)" if loading.pressure_in_pa is None else ""
    steps = (
        step.given("w out", out_pa, "Pa", "design pressure off the wall"),
        step.given("w in", in_pa, "Pa", f"design pressure on to the wall{same}"),
    )
    level = Condition(
        "The entered pressure has its load factor in it, at the level of the design method.",
        None,
        "common practice, no source",
        "M",
    )
    return NominalPressure(out_pa, in_pa, steps, (level,))


def _design_step(symbol: str, pa: float, way: str) -> Step:
    return Step(symbol, pa, "Pa", f"design pressure {way}, factor × pressure", "product", "R")


def _factored(nominal: NominalPressure, factor: float, steps: tuple[Step, ...]) -> DesignPressure:
    return DesignPressure(
        factor * nominal.out_pa,
        factor * nominal.in_pa,
        nominal.out_pa,
        nominal.in_pa,
        factor,
        steps,
        nominal.conditions,
    )
