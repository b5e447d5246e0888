"""Round steps for rulers and grid: tens of millimetres, or inches with fractions and feet."""

import math
from dataclasses import dataclass
from fractions import Fraction

from holeplacer.units import MM_PER_INCH, LengthUnit

_INCHES = (
    Fraction(1, 64), Fraction(1, 32), Fraction(1, 16), Fraction(1, 8), Fraction(1, 4),
    Fraction(1, 2), Fraction(1), Fraction(2), Fraction(3), Fraction(6), Fraction(12),
    Fraction(24), Fraction(60), Fraction(120), Fraction(600), Fraction(1200),
)  # fmt: skip
_INCH_PARTS = {2, 3, 4, 5, 6, 8, 10, 12, 16}


@dataclass(frozen=True)
class Steps:
    """Distances of the marks.

    Attributes:
        unit: What the figures are in.
        fine_mm: Between neighbouring marks.
        strong_every: Each so-many-th mark is strong and bears a figure.
    """

    unit: LengthUnit
    fine_mm: float
    strong_every: int

    @property
    def strong_mm(self) -> float:
        """Between marks that bear a figure."""
        return self.fine_mm * self.strong_every

    def figure(self, mark: int) -> str:
        """The figure of a mark, counted in fine steps from zero, without its unit."""
        if self.unit is LengthUnit.MM:
            return f"{round(mark * self.fine_mm, 3):g}".replace("-", "−")
        inches = Fraction(mark) * Fraction(self.fine_mm / MM_PER_INCH).limit_denominator(64)
        whole, part = divmod(abs(inches), 1)
        words = [str(whole)] if whole or not part else []
        if part:
            words.append(f"{part.numerator}/{part.denominator}")
        return ("−" if inches < 0 else "") + " ".join(words)

    def marks(self, low_mm: float, high_mm: float) -> range:
        """Numbers of the marks between two coordinates."""
        return range(math.ceil(low_mm / self.fine_mm), math.floor(high_mm / self.fine_mm) + 1)

    def is_strong(self, mark: int) -> bool:
        """Whether the mark bears a figure."""
        return mark % self.strong_every == 0


def steps(px_per_mm: float, unit: LengthUnit, *, fine_px: float, strong_px: float) -> Steps:
    """Steps whose fine marks are at least `fine_px` apart and whose figures `strong_px`."""
    if unit is LengthUnit.INCH:
        return _inches(px_per_mm, fine_px, strong_px)
    strong = _ten_step(strong_px / px_per_mm)
    for parts in (10, 5, 4, 2):
        if strong / parts * px_per_mm >= fine_px and _is_round(strong / parts):
            return Steps(unit, strong / parts, parts)
    return Steps(unit, strong, 1)


def _ten_step(least: float) -> float:
    power = 10.0 ** math.floor(math.log10(least))
    return next(power * factor for factor in (1.0, 2.0, 5.0, 10.0) if power * factor >= least)


def _is_round(step: float) -> bool:
    digits = step / 10.0 ** math.floor(math.log10(step) + 1e-9)
    return any(abs(digits - round_one) < 1e-6 for round_one in (1.0, 2.0, 5.0))


def _inches(px_per_mm: float, fine_px: float, strong_px: float) -> Steps:
    px = px_per_mm * MM_PER_INCH
    strong = next((step for step in _INCHES if float(step) * px >= strong_px), _INCHES[-1])
    fine = next(
        step for step in _INCHES
        if step == strong or (float(step) * px >= fine_px and strong / step in _INCH_PARTS)
    )  # fmt: skip
    return Steps(LengthUnit.INCH, float(fine) * MM_PER_INCH, int(strong / fine))
