"""Constant: one coefficient of a wind standard, as its table prints it."""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources
from holeplacer.loads.step import Step

_MM_PER = {"ft": 304.8, "m": 1000.0}


@dataclass(frozen=True)
class Constant:
    """One row of `resources/tables/wind_constants.csv`.

    Attributes:
        value: In `unit`.
        unit: As the standard has it; empty for a plain number.
        note: What it is.
        source: Standard and clause.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    value: float
    unit: str
    note: str
    source: str
    status: str

    @property
    def mm(self) -> float:
        """A length in feet or metres, as millimetres."""
        return self.value * _MM_PER[self.unit]

    @property
    def length(self) -> str:
        """A length in feet or metres for reading, both ways: `3 ft (0.914 m)`.

        >>> constant("asce7", "sign_gap").length
        '3 ft (0.914 m)'
        """
        other = "m" if self.unit == "ft" else "ft"
        return f"{self.value:g} {self.unit} ({self.mm / _MM_PER[other]:.3g} {other})"

    def step(self, symbol: str, meaning: str = "") -> Step:
        """The step that shows this plain number."""
        said = f"{meaning}: {self.note}" if meaning else self.note
        return Step(symbol, self.value, "", said, self.source, self.status)


@cache
def constant(standard: str, name: str) -> Constant:
    """One coefficient.

    Args:
        standard: `asce7` or `en1991`.
        name: Its name in the table.

    Raises:
        KeyError: The table has none of that name.
    """
    for row in resources.table("wind_constants"):
        if row["standard"] == standard and row["name"] == name:
            return Constant(
                float(row["value"]), row["unit"], row["note"], row["source"], row["status"]
            )
    raise KeyError(f"{standard} {name}")
