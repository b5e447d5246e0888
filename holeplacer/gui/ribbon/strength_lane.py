"""Strength lane: the ribbon's second trace, the deflection, while strength is drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from PySide6.QtCore import QObject

from holeplacer.gui.ribbon.view import RibbonView
from holeplacer.gui.session import Session
from holeplacer.gui.strength_shown import StrengthShown, round_up

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import NDArray

    from holeplacer.gui.ribbon.trace import Trace
    from holeplacer.rules.strength import Strength

_ROOM = 2.5
"""Limits that are further above the deflections than this stay out of sight."""


class StrengthLane(QObject):
    """Hands the ribbon the deflection of the response that is drawn."""

    def __init__(self, session: Session, ribbon: RibbonView) -> None:
        super().__init__(ribbon)
        self._session, self._ribbon = session, ribbon
        self._shown = StrengthShown.of(session)
        self._empty = True
        self._full = 0.0
        self._shown.changed.connect(self.refresh)
        session.evaluation_changed.connect(self._gone)

    def refresh(self) -> None:
        """Show the deflection drawn now, or none."""
        found = self._shown.drawn
        if found is None:
            self._gone()
            return
        self._empty = False
        self._ribbon.show_more((self._trace(found),))

    def _gone(self) -> None:
        if self._shown.drawn is None and not self._empty:
            self._empty = True
            self._ribbon.show_more(())

    def _trace(self, found: Strength) -> Trace:
        import numpy as np  # with the first result, not with the window

        from holeplacer.gui.ribbon.deflection_trace import FAR_MM, DeflectionTrace
        from holeplacer.rules import spacing, span_deflection

        plan, layout = self._session.plan, self._session.layout
        response, ways = self._shown.chosen_of(found), found.effects.grillage.ways
        allowed: tuple[NDArray[np.float64], ...] = ()
        said, limit = "", None
        if plan is not None and layout is not None:
            limit = plan.loading.deflection_limit_mm
            if limit is None:
                spans = spacing.spans(plan, layout.outline, layout.axis)
                ratio, tip = plan.loading.deflection_ratio, plan.loading.overhang_ratio
                found_allowed = span_deflection.allowed_mm(
                    layout.axis, spans, ways, span_ratio=ratio, overhang_ratio=tip
                )
                allowed = tuple(np.minimum(part, FAR_MM) for part in found_allowed)
                said = f"≤ span/{ratio:g}"
        return DeflectionTrace(
            name="deflection",
            values=tuple(abs(part) for part in response.deflection_mm),
            at_blob={},
            limit=limit,
            at_least=False,
            ways=ways,
            allowed=allowed,
            said=said,
            top=self._top(allowed, limit),
        )

    def _top(self, allowed: tuple[NDArray[np.float64], ...], limit: float | None) -> float:
        """The canvas's scale, or as much more as brings the limits into the lane.

        While a hole is dragged it only grows, or the whole ribbon were painted at each crossing.
        """
        import numpy as np

        from holeplacer.gui.ribbon.deflection_trace import FAR_MM

        top = self._shown.top("deflection")
        most = limit or 0.0
        if allowed:
            every = np.concatenate(allowed)
            most = float(every[every < FAR_MM].max(initial=most))
        held = self._session.plan is not self._session.committed
        self._full = max(top, min(round_up(most), _ROOM * top), self._full if held else 0.0)
        return self._full
