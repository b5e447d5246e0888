"""Every act is in a menu, has a key where it is frequent, and is enabled when it can be done."""

import pytest
from PySide6.QtGui import QKeySequence

from holeplacer.gui.theme import Choice
from holeplacer.plan import edit
from holeplacer.units import LengthUnit


def actions(bench):
    """All actions of the menu bar by their text without mnemonic and ellipsis."""
    found = {}
    menus = list(bench.window.titles)
    while menus:
        for action in menus.pop().actions():
            if action.menu() is not None:
                menus.append(action.menu())
            elif action.text():
                found[action.text().replace("&", "").rstrip(" …")] = action
    return found


@pytest.mark.parametrize(
    ("name", "key"),
    [
        ("Open", QKeySequence.StandardKey.Open),
        ("Save plan", QKeySequence.StandardKey.Save),
        ("Undo", QKeySequence.StandardKey.Undo),
        ("Redo", QKeySequence.StandardKey.Redo),
        ("Select all holes", QKeySequence.StandardKey.SelectAll),
        ("Zoom in", QKeySequence.StandardKey.ZoomIn),
        ("Delete", QKeySequence.StandardKey.Delete),
        ("How to work with this", QKeySequence.StandardKey.HelpContents),
    ],
)
def test_standard_keys(bench, name, key):
    """What every platform has a key for has that key."""
    wanted = QKeySequence.keyBindings(key)
    assert set(wanted) <= set(actions(bench)[name].shortcuts())


def test_no_key_twice(bench):
    """A key does one thing."""
    keys = [key.toString() for action in actions(bench).values() for key in action.shortcuts()]
    assert [key for key in keys if keys.count(key) > 1] == []


def test_every_menu_has_mnemonics(bench):
    """No two entries of a menu share their mnemonic letter."""
    for menu in bench.window.titles:
        letters = [
            action.text()[action.text().index("&") + 1].lower()
            for action in menu.actions()
            if "&" in action.text()
        ]
        assert len(letters) == len(set(letters)), (menu.title(), letters)


def test_nothing_to_do_without_a_plan(bench):
    """What needs a plan is disabled until there is one."""
    assert not actions(bench)["Propose holes"].isEnabled()
    assert not actions(bench)["Save plan"].isEnabled()
    assert actions(bench)["Open"].isEnabled()


def test_undo_names_its_step(opened):
    """The menu says what is undone."""
    opened.session.push(edit.with_hole_added(opened.session.committed, 300, 100), "Add hole 1")
    (undo,) = [action for name, action in actions(opened).items() if name.startswith("Undo")]
    assert undo.text() == "&Undo Add hole 1"
    undo.trigger()
    assert opened.session.plan.holes == ()


def test_hole_acts_need_a_selection(opened):
    """Deleting and fixing are enabled by a selection, and act on it."""
    opened.session.push(edit.with_hole_added(opened.session.committed, 300, 100), "Add hole 1")
    assert not actions(opened)["Delete"].isEnabled()
    opened.session.select_holes({1})
    actions(opened)["Fix or free"].trigger()
    assert opened.session.plan.holes[0].fixed
    actions(opened)["Delete"].trigger()
    assert opened.session.plan.holes == ()


def test_units_and_colours_are_ticked(opened, settings):
    """Choosing ticks the choice; colours are remembered."""
    actions(opened)["Inches"].trigger()
    assert opened.session.unit is LengthUnit.INCH
    opened.session.set_unit(LengthUnit.MM)
    assert actions(opened)["Millimetres"].isChecked()
    actions(opened)["Dark"].trigger()
    assert opened.window.theme.choice is Choice.DARK
    assert settings.value("theme") == "dark"


def test_stages_and_docks_by_key(opened):
    """Alt with a number goes to a stage; docks can be hidden and shown."""
    actions(opened)["3 Standoffs"].trigger()
    assert opened.rail.currentRow() == 2
    form = opened.form_dock.toggleViewAction()
    form.trigger()
    assert not opened.form_dock.isVisible()
    form.trigger()
    assert opened.form_dock.isVisible()


def test_help_opens_beside_the_work(bench):
    """Help is a window of its own and does not block."""
    actions(bench)["How to work with this"].trigger()
    window = bench.menus._help_window
    assert window.isVisible()
    window.close()


def test_strength_can_be_kept_on_the_sign(blown):
    """Ticked, it stays whichever stage is open; its tables have entries of their own."""
    named = actions(blown)
    blown.rail.setCurrentRow(0)
    assert not blown.strength_layer.legend.isVisible()
    named["Strength on the sign"].trigger()
    assert blown.strength_layer.legend.isVisible()
    named["Strength on the sign"].trigger()
    assert not blown.strength_layer.legend.isVisible()
    assert {"Reactions", "How it is reckoned"} <= named.keys()
