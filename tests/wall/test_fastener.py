"""Fasteners as values."""

from holeplacer.wall.fastener import FASTENER_KINDS, Fastener


def test_what_is_not_said_is_left_to_tables_and_standoff():
    """A new wish is a stud screwed into wood, of the standoff's diameter."""
    wish = Fastener()
    assert (wish.kind, wish.reach) == ("lag screw", "sheet")
    assert wish.diameter_mm is None
    assert wish.embedment_mm is None
    assert wish.kind in FASTENER_KINDS
