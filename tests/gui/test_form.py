"""Rows show limit and error in place; words wrap inside the form."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QPalette
from PySide6.QtWidgets import QApplication, QCheckBox

from holeplacer.gui.form import ActButton, Disclosure, Form, PrimaryButton, quiet
from holeplacer.gui.length_field import LengthField
from holeplacer.gui.theme import Choice


def test_error_is_told_below_its_entry(qtbot):
    """What a length field refuses stands in its row, with a sign, and goes again."""
    form, field = Form(), LengthField("Spacing")
    qtbot.addWidget(form)
    row = form.row("Spacing", field, "greatest way between two holes")
    form.show()
    field.setFocus()
    field.selectAll()
    qtbot.keyClicks(field, "wide")
    qtbot.keyClick(field, Qt.Key.Key_Return)
    assert row.error.isVisible()
    assert row.error.text().startswith("▲ Spacing: ")
    qtbot.keyClick(field, Qt.Key.Key_Escape)
    assert not row.error.isVisible()


def test_label_and_entry_belong_together(qtbot):
    """A screen reader and a mnemonic find the entry by its label."""
    form, box = Form(), QCheckBox()
    qtbot.addWidget(form)
    row = form.row("Mirrored", box)
    assert row.label.buddy() is box
    assert box.accessibleName() == "Mirrored"


def test_a_row_is_hidden_whole(qtbot):
    """Label, entry and note go and come together; an empty note stays away."""
    form, box = Form(), QCheckBox()
    qtbot.addWidget(form)
    row = form.row("Mirrored", box, "left to right")
    form.show()
    row.show(False)
    assert not any(part.isVisible() for part in (row.label, box, row.note))
    row.show(True)
    assert row.label.isVisible()
    assert row.note.isVisible()
    row.say("")
    assert not row.note.isVisible()


def test_words_wrap_within_the_form(qtbot):
    """A long note makes the form higher, not wider."""
    form = Form()
    qtbot.addWidget(form)
    form.wide(quiet("greatest way along a stroke between two neighbouring holes " * 4))
    form.wide(ActButton("accept a ligament of 2.50 mm and an edge distance of 8.20 mm " * 2))
    form.end()
    form.resize(280, 400)
    form.show()
    assert form.width() == 280
    assert form.minimumSizeHint().width() <= 280


def test_primary_button_wears_the_accent(qtbot, theme):
    """It follows the colours in both themes."""
    form, button = Form(), PrimaryButton("Propose holes")
    qtbot.addWidget(form)
    form.wide(button)
    form.show()
    for choice in (Choice.DARK, Choice.LIGHT):
        theme.choose(choice)
        QApplication.processEvents()
        ground = button.palette().color(QPalette.ColorRole.Button)
        assert ground == theme.colours.colour("accent")


def test_act_button_says_its_words(qtbot):
    """Its words are what a screen reader says and what a click does."""
    button = ActButton("a smaller hole, 4.5 mm")
    qtbot.addWidget(button)
    button.show()
    with qtbot.waitSignal(button.clicked):
        qtbot.mouseClick(button, Qt.MouseButton.LeftButton)
    assert button.words == button.accessibleName() == "a smaller hole, 4.5 mm"
    assert button.heightForWidth(60) > button.heightForWidth(400)


def test_disclosure_unfolds(qtbot):
    """What stands below is hidden until it is asked for."""
    form, content = Form(), QCheckBox("inside")
    qtbot.addWidget(form)
    line = Disclosure("Scale by a known distance", content)
    form.wide(line)
    form.wide(content)
    form.show()
    assert not content.isVisible()
    qtbot.mouseClick(line, Qt.MouseButton.LeftButton)
    assert content.isVisible()
