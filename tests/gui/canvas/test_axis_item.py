"""The medial axis on the canvas."""

from PySide6.QtCore import QRectF

from holeplacer.gui.canvas.axis_item import AxisItem


def test_it_shows_only_while_it_helps(strokes):
    """Hidden at first, seen during a drag or when the person wants it always."""
    item = AxisItem()
    item.show_axis(strokes.axis)
    assert not item.isVisible()
    item.set_helping(True)
    assert item.isVisible()
    item.set_helping(False)
    assert not item.isVisible()
    item.set_always(True)
    item.set_helping(False)
    assert item.isVisible()
    assert item.always


def test_its_extent_is_that_of_all_branches(strokes):
    """From the ring's axis on top to the stroke's below."""
    item = AxisItem()
    item.show_axis(strokes.axis)
    assert item.boundingRect().contains(QRectF(20, 100, 1170, 320))


def test_no_axis_is_nothing():
    """Before there is one, nothing is drawn."""
    item = AxisItem()
    item.show_axis(None)
    assert item.boundingRect().isEmpty()
