"""What of sections is drawn."""

import pytest

from holeplacer.gui.sections_shown import SectionsShown
from holeplacer.plan.seam import Seam

WAY = (Seam(0.0, 0.0, 0.0, 10.0),)


@pytest.fixture
def shown(session):
    return SectionsShown.of(session)


def test_there_is_one_for_each_session(session, shown):
    """Asked again, it is the same."""
    assert SectionsShown.of(session) is shown


def test_sheets_are_seen_while_the_stage_is_open(shown):
    """The choice is kept over a visit elsewhere."""
    shown.set_on_sheets(True)
    assert not shown.on_sheets
    shown.set_open(True)
    assert shown.on_sheets
    shown.set_open(False)
    assert not shown.on_sheets
    assert shown.wants_sheets


def test_leaving_the_stage_ends_looking_and_placing(shown, session):
    """Neither another way nor a pick is left behind."""
    shown.set_open(True)
    shown.look_at("straight split", WAY)
    shown.place_seam(lambda place: None)
    assert (shown.looked_at, shown.other_seams, shown.placing) == ("straight split", WAY, True)
    assert session.pick is not None
    shown.set_open(False)
    assert (shown.looked_at, shown.other_seams, shown.placing) == ("", (), False)
    assert session.pick is None


def test_a_picked_place_is_handed_over(shown, session):
    """Once; then nothing is placed any more."""
    got = []
    shown.place_seam(got.append)
    session.give_point(3.0, 4.0)
    assert got == [(3.0, 4.0)]
    assert not shown.placing


def test_it_tells_only_what_changed(shown, qtbot):
    """Saying the same again is silent."""
    shown.set_open(True)
    told = []
    shown.changed.connect(lambda: told.append(1))
    shown.set_open(True)
    shown.look_at("", ())
    assert told == []
    shown.look_at("a", WAY)
    assert told == [1]


def test_another_document_begins_with_the_sign(shown, session, strokes):
    """Sheets of the last one are not looked at."""
    shown.set_open(True)
    shown.set_on_sheets(True)
    session.start(strokes.plan)
    assert not shown.on_sheets
