"""The account shows all that was read, mended and ignored, and goes to places."""

import pytest

from holeplacer.artwork.account import Entry, ImportAccount
from holeplacer.gui.stages.account_list import AccountList

ACCOUNT = ImportAccount(
    read=(Entry("SPLINE", "layer Letters", 214),),
    mended=(Entry("gap joined", "x 120.3, y 88.0 mm", 2, (120.3, 88.0)),),
    ignored=(Entry("TEXT", "layer Notes", 3), Entry("open contour", "", 1, (5.0, 6.0))),
)


@pytest.fixture
def accounts(qtbot):
    made = AccountList()
    qtbot.addWidget(made)
    made.resize(280, 200)
    made.show()
    made.show_account(ACCOUNT, ())
    return made


def group(accounts, row):
    return accounts.topLevelItem(row)


def test_three_groups_with_their_counts(accounts):
    """Entities, not lines, are counted."""
    heads = [(group(accounts, row).text(0), group(accounts, row).text(1)) for row in range(3)]
    assert heads == [("Read", "214"), ("Mended", "2"), ("Ignored", "4")]


def test_what_needs_a_look_is_unfolded(accounts):
    """Mended and ignored are open, what was simply read is not."""
    assert not group(accounts, 0).isExpanded()
    assert group(accounts, 1).isExpanded()
    assert group(accounts, 2).isExpanded()


def test_an_entry_with_a_place_jumps(accounts, qtbot):
    """It is marked, and choosing it tells its place; one without does nothing."""
    item = group(accounts, 1).child(0)
    assert item.text(0).startswith("→ gap joined")
    with qtbot.waitSignal(accounts.place_wanted) as told:
        accounts.itemActivated.emit(item, 0)
    assert told.args == [120.3, 88.0]
    with qtbot.assertNotEmitted(accounts.place_wanted):
        accounts.itemActivated.emit(group(accounts, 2).child(0), 0)


def test_changes_of_the_outline_are_a_fourth(accounts):
    """What offset and bosses did stands in a group of its own, while there is any."""
    accounts.show_account(ACCOUNT, (Entry("counter closed", "by the offset of 3 mm"),))
    assert group(accounts, 3).child(0).text(0) == "counter closed, by the offset of 3 mm"
    accounts.show_account(ACCOUNT, ())
    assert accounts.topLevelItemCount() == 3


def test_as_high_as_needed(accounts):
    """Unfolding makes it higher, up to a limit."""
    before = accounts.height()
    group(accounts, 0).setExpanded(True)
    assert accounts.height() > before
    many = ImportAccount(ignored=tuple(Entry(f"TEXT {n}", "", 1) for n in range(200)))
    accounts.show_account(many, ())
    assert accounts.height() < 300


def test_entries_that_say_the_same_are_one_line(accounts, qtbot):
    """With their number; unfolded it lists the places, each of which jumps."""
    places = [(10.0, 5.0), (20.0, 6.5), None]
    united = tuple(Entry("shapes united", "", 2, place) for place in places)
    accounts.show_account(ImportAccount(mended=(*united, Entry("gap joined", ""))), ())
    assert group(accounts, 1).childCount() == 2
    line = group(accounts, 1).child(0)
    assert (line.text(0), line.text(1), line.isExpanded()) == ("shapes united", "6", False)
    assert [line.child(row).text(0) for row in range(3)] == [
        "→ x 10.0, y 5.0 mm", "→ x 20.0, y 6.5 mm", "elsewhere",
    ]  # fmt: skip
    with qtbot.waitSignal(accounts.place_wanted) as told:
        accounts.itemActivated.emit(line.child(1), 0)
    assert told.args == [20.0, 6.5]
    with qtbot.assertNotEmitted(accounts.place_wanted):
        accounts.itemActivated.emit(line, 0)
