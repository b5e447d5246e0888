"""Files are opened and saved, and what is unsaved is known."""

import pytest

from holeplacer.gui.document import Document
from holeplacer.gui.session import Session
from holeplacer.plan import edit, plan_file


@pytest.fixture
def document(qtbot):
    made = Document(Session())
    yield made
    assert made._session.evaluator.wait(20_000)


@pytest.fixture
def session(document):
    return document._session


@pytest.fixture
def opened(document, session, qtbot, sign_file):
    with qtbot.waitSignal(session.opened, timeout=20_000):
        document.open(sign_file)
    return document


def change(session):
    session.push(edit.with_hole_added(session.committed, 300, 100), "Add hole 1")


def test_artwork_begins_a_plan(opened, session, sign_file):
    """The artwork is whole in the plan; nothing is unsaved yet."""
    assert session.plan.artwork.name == opened.name == "sign.svg"
    assert session.plan.artwork.data == sign_file.read_bytes()
    assert opened.source == sign_file
    assert opened.path is None
    assert not opened.modified


def test_save_and_open_again(opened, session, qtbot, tmp_path):
    """A saved plan comes back equal, and is clean until the next change."""
    change(session)
    assert opened.modified
    with qtbot.waitSignals([opened.changed, opened.was_opened]):
        assert opened.save(tmp_path / "sign.holeplan")
    assert not opened.modified
    saved = session.plan
    change(session)
    assert opened.modified
    with qtbot.waitSignal(session.opened, timeout=20_000):
        opened.open(tmp_path / "sign.holeplan")
    assert session.plan == saved
    assert opened.path == tmp_path / "sign.holeplan"
    assert not opened.modified


def test_undo_to_the_saved_state_is_clean(opened, session, tmp_path):
    """Undoing what was done since saving leaves nothing unsaved."""
    opened.save(tmp_path / "sign.holeplan")
    change(session)
    session.undo_stack.undo()
    assert not opened.modified


def test_demo_is_no_recent_file(document, session, qtbot):
    """The demo opens and is not remembered."""
    with (
        qtbot.assertNotEmitted(document.was_opened),
        qtbot.waitSignal(session.opened, timeout=20_000),
    ):
        document.open_demo()
    assert document.name.endswith(".svg")


@pytest.mark.parametrize("name", ["missing.svg", "missing.holeplan", "", "bad.holeplan"])
def test_what_cannot_be_opened_is_told(opened, session, qtbot, tmp_path, name):
    """A missing file, a folder, a broken plan: one sentence, and what is open stays."""
    (tmp_path / "bad.holeplan").write_bytes(b"{")
    plan = session.plan
    with qtbot.waitSignal(opened.failed, timeout=20_000) as told:
        opened.open(tmp_path / name)
    assert str(told.args[0]).endswith(".")
    assert session.plan is plan


def test_what_cannot_be_saved_is_told(opened, session, qtbot, tmp_path):
    """A folder that is not there: told, and still unsaved."""
    change(session)
    with qtbot.waitSignal(opened.failed):
        assert not opened.save(tmp_path / "nowhere" / "sign.holeplan")
    assert opened.modified
    assert opened.path is None


def test_a_recovered_plan_is_unsaved(document, session, sign_file, qtbot):
    """What a crash left counts as unsaved until it is saved."""
    with qtbot.waitSignal(session.opened, timeout=20_000):
        document.open(sign_file)
    plan = plan_file.plan_from_bytes(plan_file.plan_bytes(session.plan), "kept")
    document.recover(plan, None)
    assert document.modified
