"""What is decided about sections."""

from holeplacer.plan import sections
from holeplacer.plan.sections import SectionsChoice


def test_nothing_is_divided_until_sheets_are_named():
    """No stock is guessed, and every choice is one there is."""
    choice = SectionsChoice()
    assert choice.stock == ()
    assert choice.preparation in sections.PREPARATIONS
    assert choice.turning in sections.TURNINGS
