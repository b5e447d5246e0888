"""What the pipeline did, in entries a person can read."""

from holeplacer.artwork.account import Entry
from holeplacer.artwork.accounting import (
    MOST_PLACES,
    ignored_by_chaining,
    mapped,
    mended_by_chaining,
    mended_by_uniting,
    placed_entries,
)
from holeplacer.artwork.chaining import Chained, OpenChain
from holeplacer.artwork.uniting import United


def test_gaps_are_told_with_width_and_place_the_widest_first() -> None:
    """Small ones in micrometres."""
    chains = Chained(gaps=(((1.0, 2.0), 0.004), ((3.0, 4.0), 0.08)), repeated=((5.0, 6.0),))
    assert mended_by_chaining(chains) == [
        Entry("segment drawn twice, dropped once", "", 1, (5.0, 6.0)),
        Entry("gap of 0.08 mm joined", "", 1, (3.0, 4.0)),
        Entry("gap of 4 µm joined", "", 1, (1.0, 2.0)),
    ]


def test_open_contours_and_branches_are_told_with_their_place() -> None:
    """And the layer the open one is on."""
    chains = Chained(
        open=(OpenChain("letters", "SPLINE", (1.0, 2.0), 3.25),), branches=(((7.0, 8.0), 3),)
    )
    assert ignored_by_chaining(chains) == [
        Entry("open contour (SPLINE), left out: gap of 3.25 mm", "letters", 1, (1.0, 2.0)),
        Entry(
            "3 lines meet here, the contours through it are ambiguous and left out",
            "",
            1,
            (7.0, 8.0),
        ),
    ]


def test_many_places_are_counted_together() -> None:
    """So that a bad file gives a list that can still be read, and no count is lost."""
    places = [(float(i), 0.0) for i in range(MOST_PLACES + 7)]
    entries = placed_entries("crumb", places)
    assert len(entries) == MOST_PLACES + 1
    assert entries[-1] == Entry("crumb", "", 7)
    chains = Chained(
        gaps=tuple((place, 0.05) for place in places),
        open=tuple(OpenChain("", "LINE", place, 1.0) for place in places),
    )
    for told in (mended_by_chaining(chains), ignored_by_chaining(chains)):
        assert sum(entry.count for entry in told) == len(places)


def test_uniting_tells_overlaps_crumbs_and_touching_points() -> None:
    """Each at its place."""
    united = United((), overlaps=((1.0, 1.0),), crumbs=((2.0, 2.0),), touching=((3.0, 3.0),))
    assert [entry.xy_mm for entry in mended_by_uniting(united)] == [(1, 1), (2, 2), (3, 3)]


def test_entries_move_with_the_sign() -> None:
    """Those without a place stay as they are."""
    entries = (Entry("a", "", 2, (1.0, 2.0)), Entry("b", ""))
    moved = mapped(entries, lambda place: (place[0] * 10, place[1]))
    assert moved == (Entry("a", "", 2, (10.0, 2.0)), Entry("b", ""))
