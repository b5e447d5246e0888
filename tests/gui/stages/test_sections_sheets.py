"""Sections on their sheets, in the form."""

import pytest

from holeplacer.cutting import hand_layout
from holeplacer.gui.sections_shown import SectionsShown


@pytest.fixture
def group(laid):
    return laid.sheets


def test_every_sheet_is_listed_with_its_scrap(group, divider):
    """Size, sections, share."""
    lines = group._sheets.text().splitlines()
    assert len(lines) == len(divider.division.layout.sheets)
    assert lines[0].startswith("sheet 1: 700 × 500 mm, ")
    assert lines[0].endswith("% scrap")


def test_one_button_goes_to_the_sheets_and_back(group, session, refresh, laid):
    """It says where it leads."""
    group.look.click()
    assert SectionsShown.of(session).on_sheets
    refresh(laid)
    assert group.look.text() == "Back to the sign"
    group.look.click()
    assert not SectionsShown.of(session).on_sheets


def test_what_was_placed_by_hand_stays_or_is_let_go(group, laid, session, divider, refresh):
    """Acts appear once there is something; collisions are said."""
    assert group.anew.isHidden()
    layout = divider.division.layout
    number = layout.placed[0].section
    moved = hand_layout.moved(layout, number, -400.0, 0.0)
    divider.place_by_hand(moved, number, "Move", session.new_gesture())
    refresh(laid)
    assert "1 section was placed by hand" in group._hands.text()
    assert "past the edge" in group._wrong.text()
    assert laid.open_findings() == 1
    group.all_anew.click()
    assert session.committed.laid == ()
    refresh(laid)
    assert group._wrong.text() == ""
    assert group.anew.isHidden()
