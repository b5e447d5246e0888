"""Fasteners as values."""

from holeplacer.wall.fastener import FASTENER_KINDS, Fastener


def test_what_is_not_said_is_left_to_tables_and_standoff():
    """A new wish is a stud screwed into wood, of the standoff's diameter."""
    wish = Fastener()
    assert (wish.kind, wish.reach) == ("lag screw", "sheet")
    assert wish.diameter_mm is None
    assert wish.embedment_mm is None
    assert wish.kind in FASTENER_KINDS


def test_a_screw_with_a_stud_is_bought_as_a_hanger_bolt():
    """One that ends in the barrel is a screw; anchors and bolts keep their name."""
    assert Fastener().title == "hanger bolt"
    assert Fastener("wood screw", "barrel").title == "wood screw"
    assert Fastener("through bolt").title == "through bolt"
