"""Rule family: which published rules a sheet is held to, and the factors they ask.

By the metal's family and the design method. Where no published rule covers a metal the one that is
borrowed is named, and so is that it is borrowed.
"""

from dataclasses import dataclass
from functools import cache

from holeplacer import resources
from holeplacer.errors import InputError
from holeplacer.loads.loading import DesignMethod
from holeplacer.sheet.metal import Family


@dataclass(frozen=True)
class RuleFamily:
    """Rules of one metal family under one design method.

    Attributes:
        family: Of the metal.
        method: `asd`, `lrfd` or `en`.
        rules: Their key: `aisi-s100`, `asce-8`, `adm`, `en-1993-1-3`, `en-1993-1-4`, `en-1999`.
        title: For reading.
        analogy: The rules are borrowed from another metal.
        note: Said beside every result; may be empty.
        source: Standard.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    family: Family
    method: DesignMethod
    rules: str
    title: str
    analogy: bool
    note: str
    source: str
    status: str


@dataclass(frozen=True)
class SafetyFactor:
    """Between a nominal strength and what may be used of it.

    Attributes:
        method: `asd`, `lrfd` or `en`.
        symbol: Ω, φ or γ, as the source writes it.
        value: The factor.
        source: Standard and clause.
        status: `P` read on a public page, `R` recomputed, `M` from memory: verify.
    """

    method: str
    symbol: str
    value: float
    source: str
    status: str

    def usable(self, nominal: float) -> float:
        """Allowable (nominal / Ω) or design strength (φ nominal, nominal / γM)."""
        return nominal * self.value if self.method == "lrfd" else nominal / self.value

    def written(self, nominal: str) -> str:
        """The same in symbols.

        >>> SafetyFactor("asd", "Ω", 3.0, "", "P").written("Pnov")
        'Pnov/Ω'
        """
        return f"{self.symbol} {nominal}" if self.method == "lrfd" else f"{nominal}/{self.symbol}"


@cache
def rule_families() -> tuple[RuleFamily, ...]:
    """Every family under every method, in the table's order."""
    return tuple(
        RuleFamily(
            family=row["family"],  # type: ignore[arg-type]  # the table's test holds it to Family
            method=row["method"],  # type: ignore[arg-type]  # and this to DesignMethod
            rules=row["rules"],
            title=row["title"],
            analogy=row["analogy"] == "yes",
            note=row["note"],
            source=row["source"],
            status=row["status"],
        )
        for row in resources.table("rule_families")
    )


@cache
def rule_family(family: str, method: str) -> RuleFamily:
    """The rules of a metal family under a design method.

    Raises:
        InputError: There is no such family or method.
    """
    for item in rule_families():
        if (item.family, item.method) == (family, method):
            return item
    raise InputError(
        f"there are no rules for {family!r} by {method!r}",
        remedy="take steel, stainless, aluminium or copper, by asd, lrfd or en",
    )


@cache
def safety_factor(rules: str, limit_state: str, method: str) -> SafetyFactor:
    """The factor that those rules ask in a limit state.

    Raises:
        InputError: They have none for it.
    """
    for row in resources.table("safety_factors"):
        if (row["rules"], row["limit_state"], row["method"]) == (rules, limit_state, method):
            return SafetyFactor(
                method=method,
                symbol=row["symbol"],
                value=float(row["value"]),
                source=f"{row['source']} {row['clause']}",
                status=row["status"],
            )
    raise InputError(f"{rules} has no factor for {limit_state} by {method}")
