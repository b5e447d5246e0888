"""Both colour sets are complete, readable and can be switched."""

import pytest
from PySide6.QtGui import QColor, QFont, QPalette

from holeplacer.gui import theme as themes
from holeplacer.gui.theme import DARK, LIGHT, Choice

TEXT_ON = [
    ("text", "window"), ("text", "base"), ("text", "raised"), ("quiet_text", "window"),
    ("quiet_text", "base"), ("on_accent", "accent"), ("alert", "window"), ("alert", "base"),
    ("alert", "ground"), ("limit", "ground"), ("ruler_text", "ruler"), ("ring", "ground"),
]  # fmt: skip
MARKS_ON = [
    ("accent", "window"), ("accent", "metal"), ("accent", "ground"), ("alert", "metal"),
    ("axis", "metal"), ("cut_edge", "metal"), ("cut_edge", "ground"), ("ring", "metal"),
    ("limit", "clear_width"),
]  # fmt: skip


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(("mark", "ground"), TEXT_ON)
def test_words_can_be_read(colours, mark, ground):
    """Words have a contrast of at least 4.5 : 1 (WCAG 2.1, 1.4.3)."""
    assert themes.contrast(getattr(colours, mark), getattr(colours, ground)) >= 4.5


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
@pytest.mark.parametrize(("mark", "ground"), MARKS_ON)
def test_marks_can_be_seen(colours, mark, ground):
    """Marks have a contrast of at least 3 : 1 (WCAG 2.1, 1.4.11)."""
    assert themes.contrast(getattr(colours, mark), getattr(colours, ground)) >= 3.0


def test_contrast_of_black_and_white():
    """The scale's ends are those of the definition."""
    assert themes.contrast("#000000", "#ffffff") == pytest.approx(21.0)
    assert themes.contrast("#777777", "#777777") == pytest.approx(1.0)


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_accent_and_alert_stay_apart_without_red_or_green(colours):
    """Accent and alert differ in blue and yellow, which most colour-blind people see."""
    accent, alert = QColor(colours.accent), QColor(colours.alert)
    assert accent.blue() - accent.red() > 60
    assert alert.red() - alert.blue() > 60


@pytest.mark.parametrize("colours", [LIGHT, DARK], ids=["light", "dark"])
def test_every_colour_is_one(colours):
    """No name is misspelt, no value missing."""
    for name in themes.names():
        assert colours.colour(name).isValid(), name


def test_choosing_dark_changes_palette_and_tells(theme, qapp, qtbot):
    """Dark works where the platform offers none of its own."""
    with qtbot.waitSignal(theme.changed):
        theme.choose(Choice.DARK)
    assert theme.dark
    assert theme.colours is DARK
    assert qapp.palette().color(QPalette.ColorRole.Window) == QColor(DARK.window)
    theme.choose(Choice.LIGHT)
    assert qapp.palette().color(QPalette.ColorRole.Window) == QColor(LIGHT.window)


def test_figures_are_of_one_width():
    """The font asks for tabular figures."""
    even = themes.with_even_figures(QFont())
    assert even.featureValue(QFont.Tag("tnum")) == 1
