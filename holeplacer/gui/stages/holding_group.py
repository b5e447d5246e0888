"""Holding group: how the sheet is held, how much it may give, heat, and what the anchors carry."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, QSignalBlocker
from PySide6.QtWidgets import QCheckBox

from holeplacer.gui.quantity_kind import FORCE, NUMBER, TEMPERATURE
from holeplacer.gui.stages.loading_rows import LoadingRows, changed
from holeplacer.gui.stages.stage import Stage

if TYPE_CHECKING:
    from holeplacer.loads.loading import Loading
    from holeplacer.plan.plan import Plan

_SUPPORTS = (("free to turn", "free"), ("clamped by caps", "clamped"))
_DESIGN = (
    ("ASD, allowable", "asd"),
    ("LRFD, factored", "lrfd"),
    ("EN, partial factors", "en"),
)
_SCREWS = (("lag screw", "lag"), ("wood screw", "wood"))
_PRACTICE = "common practice, no source"


def _has_screw(loading: Loading) -> bool:
    return loading.fixing.screw is not None


class HoldingGroup(QObject):
    """Rows of a form."""

    def __init__(self, stage: Stage, rows: LoadingRows) -> None:
        super().__init__(stage)
        self._stage, self._rows = stage, rows
        self._held()
        self._temperature()
        self._anchors()

    def show_plan(self, plan: Plan) -> None:
        """Tick the screw, if there is one; the rows fill themselves."""
        with QSignalBlocker(self._screw):
            self._screw.setChecked(plan.loading.fixing.screw is not None)

    def _held(self) -> None:
        rows = self._rows
        self._stage.form.heading("Sheet and limits")
        rows.choice("Supports", "supports", _SUPPORTS,
                    note="free is the safe choice for deflection")  # fmt: skip
        rows.choice("Design method", "design_method", _DESIGN)
        rows.quantity("Factor on the wind", "wind_factor", NUMBER, empty="by standard and method",
                      when=lambda loading: loading.method not in ("none", "entered"))  # fmt: skip
        rows.length("Deflection limit", "deflection_limit_mm", empty="by the ratios", step_mm=0.5,
                    least_mm=1e-3, most_mm=1e5)  # fmt: skip
        rows.quantity("Span over deflection", "deflection_ratio", NUMBER,
                      when=lambda loading: loading.deflection_limit_mm is None)  # fmt: skip
        rows.quantity(
            "Overhang over deflection", "overhang_ratio", NUMBER,
            note="a cantilever counts as twice its length (IBC Table 1604.3; from memory, verify)",
            when=lambda loading: loading.deflection_limit_mm is None,
        )  # fmt: skip
        rows.tick("Weight", "gravity", "counts")
        rows.tick("Handling", "handling", "by two hands")
        rows.quantity("Handling factor", "handling_factor", NUMBER,
                      note=f"weight times this, for jerks; {_PRACTICE}",
                      when=lambda loading: loading.handling)  # fmt: skip

    def _temperature(self) -> None:
        self._stage.form.heading("Temperature of the metal")
        for name, field in (
            ("Lowest", "lowest_c"), ("Highest", "highest_c"), ("When hung", "installation_c"),
        ):  # fmt: skip
            row = self._rows.quantity(name, f"temperature.{field}", TEMPERATURE)
            row.entry.setAccessibleName(f"{name} temperature of the metal")
        row.say(f"dark sheet in the sun grows far hotter than air; {_PRACTICE}")

    def _anchors(self) -> None:
        rows, form = self._rows, self._stage.form
        form.heading("Anchor of one standoff")
        ask = "ask its maker"
        rows.quantity("Allowable tension", "fixing.tension_n", FORCE, empty=ask)
        rows.quantity("Allowable shear", "fixing.shear_n", FORCE, empty=ask,
                      note="the maker's values in that wall, by the design method")  # fmt: skip
        self._screw = QCheckBox("in solid wood")
        form.row("Screw", self._screw, "withdrawal by the handbook formula")
        self._screw.toggled.connect(self._choose_screw)
        rows.choice("Kind", "fixing.screw.kind", _SCREWS, when=_has_screw)
        rows.length("Screw diameter", "fixing.screw.diameter_mm", most_mm=100.0, least_mm=0.5,
                    step_mm=0.5, when=_has_screw)  # fmt: skip
        rows.length("Thread in the wood", "fixing.screw.thread_mm", most_mm=2000.0, least_mm=0.5,
                    step_mm=5.0, when=_has_screw)  # fmt: skip
        rows.quantity("Specific gravity", "fixing.screw.specific_gravity", NUMBER,
                      note="of the wood, oven dry", when=_has_screw)  # fmt: skip
        rows.quantity("Load duration", "fixing.screw.load_duration", NUMBER,
                      note="CD; 1.6 for wind", when=_has_screw)  # fmt: skip
        rows.tick("End grain", "fixing.screw.end_grain", "along the grain", when=_has_screw)

    def _choose_screw(self, on: bool) -> None:
        from holeplacer.loads.loading import WoodScrew

        plan = self._stage.session.committed
        if plan is not None:
            screw = WoodScrew() if on else None
            text = "Screw into wood" if on else "Take no wood screw"
            self._stage.push(changed(plan, "fixing.screw", screw), text)
