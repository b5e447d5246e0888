"""The files opened last, newest first, without those that are gone."""

import pytest

from holeplacer.gui.recent_files import MOST, RecentFiles


@pytest.fixture
def recent(qtbot, settings):
    made = RecentFiles(settings)
    qtbot.addWidget(made)
    return made


@pytest.fixture
def files(tmp_path):
    paths = [tmp_path / f"sign {n}.svg" for n in range(MOST + 3)]
    for path in paths:
        path.write_text("")
    return paths


def test_newest_first_each_once(recent, files):
    """Opening a file again moves it up."""
    for path in (*files[:3], files[0]):
        recent.add(path)
    assert recent.paths() == (files[0], files[2], files[1])


def test_no_more_than_fit(recent, files):
    """The oldest drop out."""
    for path in files:
        recent.add(path)
    assert recent.paths() == tuple(reversed(files[-MOST:]))


def test_missing_files_drop_out(recent, files):
    """A file that was deleted is not offered."""
    recent.add(files[0])
    recent.add(files[1])
    files[1].unlink()
    assert recent.paths() == (files[0],)


def test_menu_opens_and_clears(recent, files, qtbot):
    """Choosing an entry asks for its file; the last entry empties the list."""
    recent.add(files[0])
    recent.aboutToShow.emit()
    first, *_, last = recent.actions()
    with qtbot.waitSignal(recent.wanted) as told:
        first.trigger()
    assert told.args == [files[0]]
    last.trigger()
    assert recent.paths() == ()
    recent.aboutToShow.emit()
    assert [action.isEnabled() for action in recent.actions()] == [False]


def test_survives_a_restart(recent, files, settings, qtbot):
    """A list of one file is read back as a list."""
    recent.add(files[0])
    settings.sync()
    again = RecentFiles(settings)
    qtbot.addWidget(again)
    assert again.paths() == (files[0],)
