"""A drawing is what a reader gives, empty until it gives something."""

from holeplacer.artwork.account import ImportAccount
from holeplacer.artwork.drawing import Drawing


def test_an_empty_drawing_states_nothing() -> None:
    """No contours, no units, an account of its own."""
    drawing = Drawing()
    assert (drawing.contours, drawing.loose, drawing.lines, drawing.fills) == ((), (), (), ())
    assert drawing.units is None
    assert drawing.account == ImportAccount()
