"""Stud: bent as a cantilever by the weight out on its projection, sheared and pulled besides."""

import math
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from holeplacer.loads.loading import DesignMethod
from holeplacer.resistance import coefficient, given, rule_family, utilisation
from holeplacer.resistance.utilisation import FROM_MEMORY, Given, Utilisation
from holeplacer.standoffs import stud

Held = Literal["fixed-free", "fixed-guided"]
"""At the sheet the stud's end may turn (free), or cap and barrel clamp it upright (guided)."""

_FAMILY_BY_STEM = {
    "steel": "steel",
    "stainless": "stainless",
    "aluminium": "aluminium",
    "brass": "copper",
}

_CLAUSES = {
    "aisc-360": "AISC 360-16 J3.6, J3.7",
    "adm": "Aluminum Design Manual J.3",
    "en-1993-1-8": "EN 1993-1-8 Table 3.4",
    "en-1999": "EN 1999-1-1 Table 8.5",
}


@dataclass(frozen=True)
class StudGrade:
    """A stud under a design method.

    Attributes:
        material: What it is made of, a row of the table of stud materials.
        thread: What its thread leaves of it.
        method: `asd`, `lrfd` or `en`.
    """

    material: stud.StudMaterial
    thread: stud.Thread
    method: DesignMethod

    @property
    def family(self) -> str:
        """Metal family of the material."""
        return _FAMILY_BY_STEM[self.material.name.split("-", maxsplit=1)[0]]

    @property
    def aluminium(self) -> bool:
        """Whether the rules of aluminium count."""
        return self.family == "aluminium"

    @property
    def rules(self) -> str:
        """Rules of fasteners: `aisc-360`, `adm`, `en-1993-1-8` or `en-1999`."""
        if self.method == "en":
            return "en-1999" if self.aluminium else "en-1993-1-8"
        return "adm" if self.aluminium else "aisc-360"

    @property
    def note(self) -> str:
        """What to know about material and rules."""
        memory = f", {FROM_MEMORY}" if self.material.status.startswith("M") else ""
        strength = f"strength of {self.material.title}{memory}"
        borrowed = (
            "no rules of its own for brass: those of steel, by analogy"
            if self.family == "copper"
            else ""
        )
        return utilisation.joined(strength, borrowed)


@lru_cache(maxsize=64)
def grade(material: str, stud_mm: float, method: DesignMethod) -> StudGrade:
    """A stud of a material and nominal diameter.

    Raises:
        InputError: There is no such material, or the diameter is not above 0.
    """
    given.positive(stud_mm, "the stud's diameter in mm")
    return StudGrade(stud.stud_material(material), stud.thread(stud_mm), method)


def bending_mpa(force_n: float, lever_mm: float, diameter_mm: float, held: Held) -> float:
    """Greatest bending stress of a round cantilever, 32 F L/π d^3; half of it if guided.

    Args:
        force_n: Across the stud, at its end.
        lever_mm: L, from where the stud is held in the wall's structure to the sheet's middle.
        diameter_mm: d at the thread's root.
        held: Whether its end may turn.
    """
    share = 1.0 if held == "fixed-free" else 0.5
    return share * 32 * force_n * lever_mm / (math.pi * diameter_mm**3)


def turned_mpa(moment_nmm: float, diameter_mm: float) -> float:
    """Bending stress of a moment on a round stud, 32 M/π d^3."""
    return 32 * moment_nmm / (math.pi * diameter_mm**3)


def deflection_mm(
    force_n: float, lever_mm: float, diameter_mm: float, elastic_mpa: float, held: Held
) -> float:
    """How far its end sinks, F L^3/3 E I; a quarter of it if guided."""
    share = 1.0 if held == "fixed-free" else 0.25
    inertia = math.pi * diameter_mm**4 / 64
    return share * force_n * lever_mm**3 / (3 * elastic_mpa * inertia)


def check_bending(
    item: StudGrade,
    *,
    shear_n: float,
    tension_n: float,
    lever_mm: float,
    moment_nmm: float = 0.0,
    held: Held = "fixed-free",
) -> Utilisation:
    """Stress at the thread's root where the stud leaves the wall, against the allowable yield.

    Args:
        item: The stud.
        shear_n: Weight on it, and other force in the sign's plane; a magnitude.
        tension_n: Along it, a magnitude.
        lever_mm: L: projection, and whatever soft layer of the wall the stud bridges behind it.
        moment_nmm: M that cap and barrel hold the sheet's slope with, the same all along the stud;
            a magnitude.
        held: `fixed-free` is the safe choice.

    Raises:
        InputError: A force is negative, or the lever no length.
    """
    _refuse_negative(shear_n, tension_n)
    given.not_negative(lever_mm, "the stud's lever arm in mm")
    given.not_negative(moment_nmm, "the moment on the stud in N mm")
    root = item.thread.root_mm
    family = rule_family.rule_family(item.family, item.method)
    factor = rule_family.safety_factor(family.rules, "bending", item.method)
    bent = bending_mpa(shear_n, lever_mm, root, held) + turned_mpa(moment_nmm, root)
    pulled = tension_n / (math.pi * root**2 / 4)
    sinks = deflection_mm(shear_n, lever_mm, root, item.material.elastic_mpa, held)
    fy = "fy" if item.method == "en" else "Fy"
    half = "" if held == "fixed-free" else "1/2 "
    return utilisation.of(
        "stud in bending",
        bent + pulled,
        factor.usable(item.material.yield_mpa),
        "MPa",
        formula=f"32 ({half}F L + M)/(π d^3) + 4 T/(π d^2) <= {factor.written(fy)}",
        inputs=(
            Given("F", shear_n, "N", "force across the stud"),
            Given("L", lever_mm, "mm", "lever arm to the sheet"),
            Given("d", root, "mm", "diameter at the thread's root"),
            Given("M", moment_nmm, "Nmm", "moment of cap and barrel on the sheet"),
            Given("T", tension_n, "N", "force along the stud"),
            Given(fy, item.material.yield_mpa, "MPa", "yield stress of the stud"),
            Given(factor.symbol, factor.value, "", "safety factor"),
        ),
        source=f"cantilever, {held}; {factor.source}",
        status=utilisation.worst_status(factor.status, item.material.status, item.thread.status),
        note=utilisation.joined(f"its end sinks {sinks:.2f} mm", item.note),
    )


@lru_cache(maxsize=64)
def strengths_n(item: StudGrade) -> tuple[float, float, tuple[str, ...]]:
    """Usable shear and tension strength of the threaded stud, with the statuses behind them.

    AISC 360 on the nominal area, EN and the Aluminum Design Manual on the thread's.
    """
    factor = rule_family.safety_factor(item.rules, "fastener", item.method)
    fu, thread = item.material.ultimate_mpa, item.thread
    formula = {
        "aisc-360": "aisc fastener",
        "adm": "adm fastener",
        "en-1993-1-8": "en 1993-1-8 fastener",
        "en-1999": "en 1999 fastener",
    }[item.rules]
    known = coefficient.coefficients(formula)
    if item.rules == "adm":
        area = math.pi * thread.root_mm**2 / 4
        shear, tension = known["shear share"].value * fu * area, fu * area
    else:
        gross = item.rules == "aisc-360"
        area = math.pi * thread.stud_mm**2 / 4 if gross else thread.stress_area_mm2
        shear, tension = known["shear"].value * fu * area, known["tension"].value * fu * area
    return (
        factor.usable(shear),
        factor.usable(tension),
        (factor.status, *coefficient.statuses(formula)),
    )


def check_fastener(item: StudGrade, *, shear_n: float, tension_n: float) -> Utilisation:
    """Shear and tension of the stud's thread together, as shares that are added.

    Args:
        item: The stud.
        shear_n: Across it, a magnitude.
        tension_n: Along it, a magnitude.

    Raises:
        InputError: A force is negative.
    """
    _refuse_negative(shear_n, tension_n)
    shear_rd, tension_rd, _ = strengths_n(item)
    demand, _ = interaction(item.rules, shear_n / shear_rd, tension_n / tension_rd)
    return _idle_fastener(item).under(demand, shear_n, tension_n)


@lru_cache(maxsize=64)
def _idle_fastener(item: StudGrade) -> Utilisation:
    """The check of the thread without any force."""
    shear_rd, tension_rd, statuses = strengths_n(item)
    factor = rule_family.safety_factor(item.rules, "fastener", item.method)
    return utilisation.of(
        "stud in shear and tension",
        0.0,
        1.0,
        "",
        formula=interaction(item.rules, 0.0, 0.0)[1],
        inputs=(
            Given("V", 0.0, "N", "force across the stud"),
            Given("T", 0.0, "N", "force along the stud"),
            Given("V.Rd", shear_rd, "N", "shear strength, safety factor in it"),
            Given("T.Rd", tension_rd, "N", "tension strength, safety factor in it"),
            Given("d", item.thread.stud_mm, "mm", "stud diameter"),
            Given("As", item.thread.stress_area_mm2, "mm2", "stress area of the thread"),
            Given("Fu", item.material.ultimate_mpa, "MPa", "tensile strength of the stud"),
            Given(factor.symbol, factor.value, "", "safety factor"),
        ),
        source=_CLAUSES[item.rules],
        status=utilisation.worst_status(*statuses, item.material.status, item.thread.status),
        note=item.note,
    )


def interaction(rules: str, shear_share: float, tension_share: float) -> tuple[float, str]:
    """Shares of shear and tension strength as one share, and how they are joined.

    Args:
        rules: `aisc-360`, `adm`, `en-1993-1-8` or `en-1999`.
        shear_share: Shear over its usable strength.
        tension_share: Tension over its usable strength.

    >>> round(interaction("en-1993-1-8", 0.2, 0.25)[0], 3)
    0.379
    """
    if rules == "adm":
        together = math.hypot(shear_share, tension_share)
        return together, "sqrt((V/V.Rd)^2 + (T/T.Rd)^2) <= 1"
    if rules == "aisc-360":
        # F'nt = 1.3 Fnt - Ω Fnt frv/Fnv <= Fnt, divided by 1.3 Fnt.
        limit = coefficient.value("aisc fastener", "interaction")
        together = (shear_share + tension_share) / limit
        written = f"max(V/V.Rd, T/T.Rd, (V/V.Rd + T/T.Rd)/{limit:g}) <= 1"
        return max(shear_share, tension_share, together), written
    formula = "en 1999 fastener" if rules == "en-1999" else "en 1993-1-8 fastener"
    limit = coefficient.value(formula, "interaction")
    together = shear_share + tension_share / limit
    written = f"max(V/V.Rd + T/({limit:g} T.Rd), T/T.Rd) <= 1"
    return max(together, tension_share), written


def _refuse_negative(shear_n: float, tension_n: float) -> None:
    given.not_negative(shear_n, "the force across the stud in N")
    given.not_negative(tension_n, "the force along the stud in N")
