"""Sheet grade: what a limit state needs to know of the sheet, and the rules it is held to."""

from dataclasses import dataclass

from holeplacer.loads.loading import DesignMethod
from holeplacer.resistance import coefficient, given, rule_family
from holeplacer.resistance.rule_family import RuleFamily, SafetyFactor
from holeplacer.resistance.utilisation import FROM_MEMORY, Given
from holeplacer.sheet.metal import Family, Metal

_STEEL_SHEET_RULES = ("aisi-s100",)


@dataclass(frozen=True)
class SheetGrade:
    """A sheet under a design method.

    Attributes:
        family: Of the metal.
        method: `asd`, `lrfd` or `en`.
        thickness_mm: What carries load, without zinc or paint.
        yield_mpa: Yield stress or 0.2 % proof stress.
        ultimate_mpa: Tensile strength.
        poisson: Poisson's ratio.
        from_memory: Names of the figures above that are from memory.

    Raises:
        InputError: A figure is not above 0, or family or method are unknown.
    """

    family: Family
    method: DesignMethod
    thickness_mm: float
    yield_mpa: float
    ultimate_mpa: float
    poisson: float = 0.3
    from_memory: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        """Refuse what no sheet can be."""
        given.positive(self.thickness_mm, "the sheet's thickness in mm")
        given.positive(self.yield_mpa, "the sheet's yield stress in MPa")
        given.positive(self.ultimate_mpa, "the sheet's tensile strength in MPa")
        rule_family.rule_family(self.family, self.method)

    @property
    def rule_family(self) -> RuleFamily:
        """The rules the sheet is held to."""
        return rule_family.rule_family(self.family, self.method)

    @property
    def connection_rules(self) -> str:
        """Rules of its holes: AISC 360 for steel of 3/16 in and more, else those of the sheet."""
        rules = self.rule_family.rules
        thick = self.thickness_mm >= coefficient.value("aisi scope", "thickest")
        return "aisc-360" if thick and rules in _STEEL_SHEET_RULES else rules

    def factor(self, limit_state: str) -> SafetyFactor:
        """The safety factor in a limit state of a hole."""
        return rule_family.safety_factor(self.rule_family.rules, limit_state, self.method)

    def connection_factor(self, limit_state: str) -> SafetyFactor:
        """The same by `connection_rules`."""
        return rule_family.safety_factor(self.connection_rules, limit_state, self.method)

    def given_thickness(self, symbol: str) -> Given:
        """Its thickness, for a formula's inputs."""
        return Given(symbol, self.thickness_mm, "mm", "sheet thickness that carries load")

    def given_yield(self, symbol: str) -> Given:
        """Its yield stress, for a formula's inputs."""
        return Given(symbol, self.yield_mpa, "MPa", self._strength("yield stress", "yield_mpa"))

    def given_ultimate(self, symbol: str) -> Given:
        """Its tensile strength, for a formula's inputs."""
        meaning = self._strength("tensile strength", "ultimate_mpa")
        return Given(symbol, self.ultimate_mpa, "MPa", meaning)

    def _strength(self, meaning: str, field: str) -> str:
        memory = f", {FROM_MEMORY}" if field in self.from_memory else ""
        return f"{meaning} of the sheet{memory}"


def of_metal(metal: Metal, thickness_mm: float, method: DesignMethod) -> SheetGrade:
    """A metal's sheet of nominal thickness, its zinc taken off.

    Args:
        metal: What it is made of.
        thickness_mm: As sold, zinc included.
        method: Design method.

    Raises:
        InputError: Nothing is left to carry load.
    """
    return SheetGrade(
        family=metal.family,
        method=method,
        thickness_mm=metal.bearing_thickness_mm(thickness_mm),
        yield_mpa=metal.yield_mpa,
        ultimate_mpa=metal.ultimate_mpa,
        poisson=metal.poisson,
        from_memory=metal.from_memory,
    )
