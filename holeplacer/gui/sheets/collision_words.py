"""What collides on a sheet, in the few words that stand beside a section."""

from __future__ import annotations

from typing import TYPE_CHECKING

from holeplacer.units import LengthUnit, format_length

if TYPE_CHECKING:
    from collections.abc import Iterator

    from holeplacer.cutting.hand_layout import Collision


def collision_words(
    item: Collision, apart_mm: float, unit: LengthUnit
) -> Iterator[tuple[int, str]]:
    """Number of each section that takes part, and what is said beside it."""
    if item.other is None:
        yield item.section, f"{format_length(-item.gap_mm, unit)} past what may be cut"
        return
    for one, two in ((item.section, item.other), (item.other, item.section)):
        if item.overlap_mm2 > 0 or item.gap_mm == 0:
            yield one, f"overlaps section {two}"
        else:
            gap = format_length(item.gap_mm, unit)
            yield one, f"{gap} from section {two}, at least {format_length(apart_mm, unit)}"
