"""Accounting: what chaining, nesting and uniting did, as entries of the import account."""

from collections.abc import Callable, Sequence

from holeplacer.artwork.account import Entry
from holeplacer.artwork.chaining import Chained
from holeplacer.artwork.uniting import United
from holeplacer.units import format_length

Place = tuple[float, float]

MOST_PLACES = 50
"""Places of one kind that are listed singly; the rest are counted together."""


def placed_entries(what: str, places: Sequence[Place], where: str = "") -> list[Entry]:
    """One entry for each place, the rest beyond `MOST_PLACES` in one."""
    entries = [Entry(what, where, 1, place) for place in places[:MOST_PLACES]]
    if len(places) > MOST_PLACES:
        entries.append(Entry(what, where, len(places) - MOST_PLACES))
    return entries


def mended_by_chaining(chained: Chained) -> list[Entry]:
    """Gaps joined and duplicates dropped, the widest gaps first."""
    entries = placed_entries("segment drawn twice, dropped once", chained.repeated)
    gaps = sorted(chained.gaps, key=lambda gap: -gap[1])
    for place, width in gaps[:MOST_PLACES]:
        entries.append(Entry(f"gap of {_tiny(width)} joined", "", 1, place))
    if len(gaps) > MOST_PLACES:
        narrower = f"gap of at most {_tiny(gaps[MOST_PLACES][1])} joined"
        entries.append(Entry(narrower, "", len(gaps) - MOST_PLACES))
    return entries


def ignored_by_chaining(chained: Chained) -> list[Entry]:
    """Open contours with the size and place of the gap, and ambiguous branch points."""
    entries = [
        Entry(
            f"open contour ({chain.kind}), left out: gap of {_tiny(chain.gap)}",
            chain.layer,
            1,
            chain.end,
        )
        for chain in chained.open[:MOST_PLACES]
    ]
    if len(chained.open) > MOST_PLACES:
        entries.append(Entry("open contour, left out", "", len(chained.open) - MOST_PLACES))
    for place, number in chained.branches[:MOST_PLACES]:
        what = f"{number} lines meet here, the contours through it are ambiguous and left out"
        entries.append(Entry(what, "", 1, place))
    return entries


def mended_by_uniting(united: United) -> list[Entry]:
    """Overlaps united, crumbs dropped, and where pieces only touch."""
    return [
        *placed_entries("overlapping shapes united", united.overlaps),
        *placed_entries("area narrower than the tolerance dropped", united.crumbs),
        *placed_entries("contours touch in a single point, kept as they are", united.touching),
    ]


def mapped(entries: Sequence[Entry], to_sign: Callable[[Place], Place]) -> tuple[Entry, ...]:
    """Entries with their places on the sign."""
    return tuple(
        entry
        if entry.xy_mm is None
        else Entry(entry.what, entry.where, entry.count, to_sign(entry.xy_mm))
        for entry in entries
    )


def _tiny(mm: float) -> str:
    """A gap's width: small ones in micrometres."""
    return format_length(mm) if mm >= 0.01 else f"{mm * 1000:.2g} µm"
