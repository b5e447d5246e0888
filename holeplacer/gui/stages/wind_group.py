"""Wind group: where the wind pressure comes from, and for each way its own fields only."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject
from PySide6.QtWidgets import QWidget

from holeplacer.gui.form import PrimaryButton, WrappedLabel
from holeplacer.gui.quantity_kind import AREA, NUMBER, PRESSURE, SPEED
from holeplacer.gui.stages.loading_rows import LoadingRows
from holeplacer.gui.stages.stage import Stage
from holeplacer.loads import loading as loads

if TYPE_CHECKING:
    from holeplacer.loads.loading import Loading
    from holeplacer.plan.plan import Plan

METHOD_NAMES = {
    "none": "no wind chosen",
    "entered": "entered pressure",
    "asce7-16": "ASCE 7-16",
    "asce7-22": "ASCE 7-22",
    "en1991-1-4": "EN 1991-1-4",
}
HOW_TO_BEGIN = (
    "No wind is chosen, so strength is not reckoned; none is ever guessed.\n"
    "Enter the design pressure for this wall, or choose a standard above and say where the sign "
    "hangs."
)
_EXPOSURES = (("B: town, woods", "B"), ("C: open country", "C"), ("D: flat, by water", "D"))
_WALL_ZONES = (
    ("4: field of the wall", "4"), ("5: corner strip", "5"), ("by place on the wall", "by place"),
)  # fmt: skip
_TERRAINS = (
    ("0: sea or coast", "0"),
    ("I: lake, flat and bare", "I"),
    ("II: low plants, few obstacles", "II"),
    ("III: suburb, village, forest", "III"),
    ("IV: town", "IV"),
)
_SUCTION_ZONES = (
    ("A: edge of a side wall", "A"), ("B: side wall, inner", "B"), ("C: side wall, rear", "C"),
    ("E: lee wall", "E"),
)  # fmt: skip


def _is_asce7(loading: Loading) -> bool:
    return loading.method in ("asce7-16", "asce7-22")


def _is_en1991(loading: Loading) -> bool:
    return loading.method == "en1991-1-4"


def _is_entered(loading: Loading) -> bool:
    return loading.method == "entered"


def _is_standard(loading: Loading) -> bool:
    return _is_asce7(loading) or _is_en1991(loading)


def _goes_by_place(loading: Loading) -> bool:
    return _is_asce7(loading) and loading.asce7.zone == "by place"


class WindGroup(QObject):
    """Rows of a form: method, its fields, and how to begin without one.

    Attributes:
        begin: The primary act while no wind is chosen.
    """

    def __init__(self, stage: Stage, rows: LoadingRows) -> None:
        super().__init__(stage)
        self._stage, self._rows = stage, rows
        stage.form.heading("Wind")
        rows.choice(
            "From", "method", ((METHOD_NAMES[name], name) for name in loads.METHODS)
        )  # fmt: skip
        how = WrappedLabel(HOW_TO_BEGIN)
        self.begin = PrimaryButton("Enter a pressure")
        self.begin.clicked.connect(self._begin)
        for widget in (how, self.begin):
            stage.form.wide(widget)
            rows.only_when(widget, lambda loading: loading.method == "none")
        self.off = self._entered()
        self._asce7()
        self._en1991()
        self._of_both()

    def _entered(self) -> QWidget:
        off = self._rows.quantity(
            "Off the wall", "pressure_out_pa", PRESSURE, empty="such as 20 psf or 1 kPa",
            note="design pressure, its load factor in it", when=_is_entered,
        )  # fmt: skip
        self._rows.quantity(
            "On to the wall", "pressure_in_pa", PRESSURE, empty="as off the wall", when=_is_entered
        )
        return off.entry

    def _asce7(self) -> None:
        rows = self._rows
        rows.quantity(
            "Basic wind speed", "asce7.basic_speed_m_s", SPEED, empty="such as 115 mph",
            note="V of the map for the building's risk category (26.5)", when=_is_asce7,
        )  # fmt: skip
        rows.choice("Exposure", "asce7.exposure", _EXPOSURES, when=_is_asce7)
        rows.tick(
            "Raw exposure B", "asce7.raw_exposure_b", "below 30 ft",
            note="Kz by formula, else at least 0.70, the safe choice: sources differ",
            when=lambda loading: _is_asce7(loading) and loading.asce7.exposure == "B",
        )  # fmt: skip
        rows.length(
            "Mean roof height", "asce7.roof_height_mm", empty="of the building, such as 15 ft",
            when=_is_asce7,
        )  # fmt: skip
        rows.length("Height of the sign", "asce7.sign_height_mm", empty="middle above ground",
                    when=_is_asce7)  # fmt: skip
        rows.choice("Zone of the wall", "asce7.zone", _WALL_ZONES, when=_is_asce7)
        rows.length("Sign to corner", "asce7.corner_distance_mm", empty="edge to wall's corner",
                    when=_goes_by_place)  # fmt: skip
        rows.length("Least width", "asce7.least_width_mm", empty="of the building",
                    when=_goes_by_place)  # fmt: skip
        rows.length("Ground elevation", "asce7.ground_elevation_mm", empty="Ke = 1, always allowed",
                    least_mm=-1e6, most_mm=1e7, when=_is_asce7)  # fmt: skip

    def _en1991(self) -> None:
        rows = self._rows
        rows.quantity(
            "Basic wind velocity", "en1991.basic_speed_m_s", SPEED, empty="such as 25 m/s",
            note="vb of the national annex, factors in it (4.2)", when=_is_en1991,
        )  # fmt: skip
        rows.choice("Terrain", "en1991.terrain", _TERRAINS, when=_is_en1991)
        rows.length("Reference height", "en1991.reference_height_mm", empty="the building's height",
                    when=_is_en1991)  # fmt: skip
        rows.choice("Zone under suction", "en1991.zone", _SUCTION_ZONES, when=_is_en1991)
        rows.quantity(
            "Height over depth", "en1991.height_to_depth", NUMBER,
            note="of the building, along the wind (Table 7.1)", when=_is_en1991,
        )  # fmt: skip

    def _of_both(self) -> None:
        self._rows.quantity(
            "Effective area", "effective_area_mm2", AREA, empty="by the spacing allowed",
            note="wind area of one standoff, for the coefficients", when=_is_standard,
        )  # fmt: skip

    def _begin(self) -> None:
        plan: Plan | None = self._stage.session.committed
        if plan is None:
            return
        from holeplacer.gui.stages.loading_rows import changed

        self._stage.push(changed(plan, "method", "entered"), "Choose from: entered pressure")
        self._rows.show_plan(self._stage.session.plan or plan)
        self.off.setFocus()
