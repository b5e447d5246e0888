"""Metal group: the metal's figures, with where they come from; changed ones make it one's own."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from functools import partial
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from holeplacer.errors import HoleplacerError
from holeplacer.gui.form import Disclosure, Form, Row, WrappedLabel, quiet
from holeplacer.gui.own_stock import OwnStock
from holeplacer.gui.quantity_field import QuantityField
from holeplacer.gui.quantity_kind import NUMBER, QuantityKind
from holeplacer.gui.stages.keep_row import KeepRow
from holeplacer.gui.stages.stage import Choice, Stage
from holeplacer.loads.quantity import Quantity, decimals
from holeplacer.units import LengthUnit

if TYPE_CHECKING:
    from holeplacer.plan.plan import Plan
    from holeplacer.sheet.metal import Family, Metal

_MPA_PER_KSI = 6.894757293
_KG_M3_PER_LB_FT3 = 16.01846337
_MICRO = 1e-6
_PER_FAHRENHEIT = 1.8

_STRESS = Quantity(
    noun="a stress",
    example="228 MPa or 33 ksi",
    factors={"mpa": 1.0, "n/mm2": 1.0, "gpa": 1e3, "ksi": _MPA_PER_KSI, "psi": _MPA_PER_KSI / 1e3},
)
_DENSITY = Quantity(
    noun="a density",
    example="7850 kg/m3 or 490 lb/ft3",
    factors={"kg/m3": 1.0, "g/cm3": 1e3, "lb/ft3": _KG_M3_PER_LB_FT3},
)
_EXPANSION = Quantity(
    noun="a thermal expansion",
    example="11.7e-6 /K or 6.5e-6 /F",
    factors={"/k": 1.0, "/c": 1.0, "/f": _PER_FAHRENHEIT, "um/mk": _MICRO, "µm/mk": _MICRO},
)


def _show_stress(mpa: float, unit: LengthUnit) -> str:
    if unit is LengthUnit.MM:
        return f"{decimals(mpa, 1)} MPa"
    return f"{decimals(mpa / _MPA_PER_KSI, 1)} ksi"


def _show_density(kg_m3: float, unit: LengthUnit) -> str:
    if unit is LengthUnit.MM:
        return f"{decimals(kg_m3, 1)} kg/m³"
    return f"{decimals(kg_m3 / _KG_M3_PER_LB_FT3, 1)} lb/ft³"


def _show_expansion(per_k: float, unit: LengthUnit) -> str:
    if unit is LengthUnit.MM:
        return f"{decimals(per_k / _MICRO, 2)}e-6 /K"
    return f"{decimals(per_k / _MICRO / _PER_FAHRENHEIT, 2)}e-6 /F"


STRESS = QuantityKind(_STRESS.value, _show_stress, ("mpa", "ksi"))
DENSITY = QuantityKind(_DENSITY.value, _show_density, ("kg/m3", "lb/ft3"))
EXPANSION = QuantityKind(_EXPANSION.value, _show_expansion, ("/k", "/f"))

_FIGURES: tuple[tuple[str, str, QuantityKind], ...] = (
    ("Density", "density_kg_m3", DENSITY),
    ("Elastic modulus", "elastic_mpa", STRESS),
    ("Poisson's ratio", "poisson", NUMBER),
    ("Expansion", "expansion_per_k", EXPANSION),
    ("Yield stress", "yield_mpa", STRESS),
    ("Tensile strength", "ultimate_mpa", STRESS),
)
_FAMILIES = tuple((name, name) for name in ("steel", "stainless", "aluminium", "copper"))


class MetalGroup(QObject):
    """Rows of a form, folded away until they are wanted."""

    def __init__(self, stage: Stage, stock: OwnStock) -> None:
        super().__init__(stage)
        self._stage, self._stock = stage, stock
        content = Form()
        layout = content.layout()
        if layout is not None:  # it stands inside another form, whose margins are enough
            layout.setContentsMargins(0, 0, 0, 0)
        self.unfold = Disclosure("Strength, stiffness, expansion", content)
        stage.form.wide(self.unfold)
        stage.form.wide(content)
        self._fields: dict[str, QuantityField] = {}
        for name, figure, kind in _FIGURES:
            field = QuantityField(name, kind)
            row = content.row(name, field)
            field.entered.connect(partial(self._enter, row, name, figure, kind))
            self._fields[figure] = field
        self._family = Choice()
        content.row("Designed as", self._family, "whose strength rules it is held to")
        self._source: WrappedLabel = quiet()
        content.wide(self._source)
        self.keeping = KeepRow(content, "metal")
        self._family.chosen.connect(self._choose_family)
        self.keeping.named.connect(self._rename)
        self.keeping.keep_wanted.connect(self._keep)
        self.keeping.forget_wanted.connect(self._forget)

    def show_plan(self, plan: Plan) -> None:
        """Show the metal of a plan."""
        metal, unit = plan.sheet.material, self._stage.session.unit
        for figure, field in self._fields.items():
            field.set_value(getattr(metal, figure), unit)
        self._family.offer(_FAMILIES, metal.family)
        self._source.say("\n".join(self._lines(metal)))
        own = plan.sheet.own_metal
        kept = next((item for item in self._stock.metals() if item.name == metal.name), None)
        self.keeping.show_item(
            own.name if own is not None else None, kept=kept is not None, same=kept == own
        )

    def _lines(self, metal: Metal) -> list[str]:
        """Shear modulus, source, and which figures are from memory."""
        lines = [f"Shear modulus {_show_stress(metal.shear_mpa, self._stage.session.unit)}"]
        if metal.coating_mm:
            zinc = self._stage.shown(metal.coating_mm)
            lines.append(f"{zinc} of its thickness is zinc and carries nothing")
        lines.append(f"{metal.source[:1].upper()}{metal.source[1:]}")
        names = [
            _in_a_sentence(name) for name, figure, _ in _FIGURES if figure in metal.from_memory
        ]
        if "shear_mpa" in metal.from_memory:
            names.append("shear modulus")
        return [*lines, f"From memory, verify: {', '.join(names)}"] if names else lines

    # --- acts ---

    def _enter(
        self, row: Row, name: str, figure: str, kind: QuantityKind, value: float | None
    ) -> None:
        if value is None:
            return
        text = f"Set {_in_a_sentence(name)} to {kind.show(value, self._stage.session.unit)}"
        self._change(lambda metal: metal.with_figure(figure, value), text, row.error.say)

    def _choose_family(self, family: Family) -> None:
        self._change(
            lambda metal: replace(metal, family=family), f"Design as {family}", lambda _: None
        )

    def _rename(self, name: str) -> None:
        self._change(
            lambda metal: replace(metal, name=name),
            f"Call the metal {name}",
            self.keeping.tell,
        )

    def _change(
        self, change: Callable[[Metal], Metal], text: str, tell: Callable[[str], None]
    ) -> None:
        """Commit the metal changed, as one's own."""
        from holeplacer.plan import edit, validity

        plan = self._stage.session.committed
        if plan is None:
            return
        try:
            made = validity.checked_metal(change(plan.sheet.material.as_own()))
            sheet = replace(plan.sheet, metal=made.name, own_metal=made)
            changed = validity.checked(edit.with_sheet(plan, sheet))
        except HoleplacerError as error:
            tell(str(error))
            return
        tell("")
        self._stage.push(changed, text)

    def _keep(self) -> None:
        plan = self._stage.session.committed
        if plan is None or plan.sheet.own_metal is None:
            return
        try:
            self._stock.keep_metal(plan.sheet.own_metal)
        except HoleplacerError as error:
            self.keeping.tell(str(error))
            return
        self.keeping.tell("")

    def _forget(self) -> None:
        plan = self._stage.session.committed
        if plan is not None:
            self._stock.forget_metal(plan.sheet.metal)


def _in_a_sentence(name: str) -> str:
    """Small, but for a person's name."""
    return name if name.startswith("Poisson") else name.lower()
