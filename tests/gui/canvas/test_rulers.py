"""Rulers along the canvas."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QWidget

from holeplacer.gui.canvas.rulers import Ruler, RulerCorner
from holeplacer.gui.theme import DARK, LIGHT
from holeplacer.units import LengthUnit


@pytest.fixture
def ruler(qtbot):
    home = QWidget()
    qtbot.addWidget(home)
    made = Ruler(Qt.Orientation.Horizontal, LIGHT, home)
    made.resize(600, 24)
    home.show()
    yield made
    home.close()


def inked(ruler, row):
    """Pixels of one row that bear a mark."""
    image = ruler.grab().toImage()
    ground = QColor(LIGHT.ruler)
    return [x for x in range(image.width()) if image.pixelColor(x, row) != ground]


def test_marks_stand_at_their_coordinates(ruler):
    """Zero at pixel 50, two pixels a millimetre: figures each 50 mm, fine marks each 5."""
    ruler.show_range(50.0, 2.0, LengthUnit.MM)
    assert (ruler.steps.strong_mm, ruler.steps.fine_mm) == (50.0, 5.0)
    assert [x for x in inked(ruler, 15) if x % 100 == 50] == [50, 150, 250, 350, 450, 550]
    assert set(range(0, 600, 10)) <= set(inked(ruler, 21))


def test_marks_can_be_kept_within_ends(ruler):
    """No marks beyond a lane's own height."""
    ruler.show_range(50.0, 2.0, LengthUnit.MM, ends_px=(100.0, 300.0))
    assert min(inked(ruler, 21)) >= 100
    assert max(inked(ruler, 21)) <= 300


def test_the_pointer_is_marked_and_goes(ruler):
    """The accent's triangle follows the pointer."""
    ruler.show_range(0.0, 2.0, LengthUnit.MM)

    def accents():
        image = ruler.grab().toImage()
        return [x for x in range(600) if image.pixelColor(x, 18) == QColor(LIGHT.accent)]

    ruler.show_pointer(333.0)
    assert accents()
    assert abs(sum(accents()) / len(accents()) - 333.0) <= 1.0
    ruler.show_pointer(None)
    assert accents() == []


def test_inches_change_the_marks(ruler):
    """Steps are fractions of an inch then."""
    ruler.show_range(0.0, 2.0, LengthUnit.INCH)
    assert ruler.steps.strong_mm == pytest.approx(2 * 25.4)


def test_it_wears_another_theme(ruler):
    """Ground of the dark set."""
    ruler.wear_colours(DARK)
    assert ruler.grab().toImage().pixelColor(1, 1) == QColor(DARK.ruler)


def test_the_corner_names_the_unit(qtbot):
    """Something else is written for inches than for millimetres."""
    home = QWidget()
    qtbot.addWidget(home)
    corner = RulerCorner(LIGHT, home)
    corner.resize(24, 24)
    millimetres = corner.grab().toImage()
    corner.show_unit(LengthUnit.INCH)
    assert corner.grab().toImage() != millimetres
