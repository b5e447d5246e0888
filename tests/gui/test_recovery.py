"""What is unsaved survives a crash, is offered once, and is gone after a good end."""

import subprocess
import sys
import textwrap

import pytest

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import PlanFileError
from holeplacer.gui import recovery
from holeplacer.gui.document import Document
from holeplacer.gui.recovery import Recovery
from holeplacer.gui.session import Session
from holeplacer.plan import edit, plan_file
from holeplacer.plan.plan import Plan
from tests.gui.conftest import SIGN

CRASH = """
import os, sys
from pathlib import Path
from PySide6.QtCore import QCoreApplication
from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.gui.document import Document
from holeplacer.gui.recovery import Recovery
from holeplacer.gui.session import Session
from holeplacer.plan import edit
from holeplacer.plan.plan import Plan
from PySide6.QtGui import QGuiApplication
app = QGuiApplication([])
session = Session()
document = Document(session)
kept = Recovery(session, document, Path(sys.argv[1]))
session.start(Plan(ArtworkFile("harbour.svg", b"<svg/>")))
session.push(edit.with_hole_added(session.committed, 12, 34), "Add hole 1")
kept.keep()
kept._workers.wait()
os.kill(os.getpid(), 9)
"""


class Kept:
    """A session with its document and recovery."""

    def __init__(self, folder):
        self.session = Session()
        self.document = Document(self.session)
        self.recovery = Recovery(self.session, self.document, folder)
        self.recovery._timer.setInterval(1)

    def change(self):
        self.session.start(Plan(ArtworkFile("sign.svg", SIGN.encode())))
        self.session.push(edit.with_hole_added(self.session.committed, 300, 100), "Add hole 1")

    def end(self):
        assert self.session.evaluator.wait(20_000)
        self.recovery.close()


@pytest.fixture
def folder(tmp_path):
    return tmp_path / "unsaved"


@pytest.fixture
def kept(qtbot, folder):
    made = Kept(folder)
    yield made
    made.end()


def file_of(kept):
    return kept.recovery.folder / "plan.holeplan"


def test_a_change_is_kept_by_itself(kept, qtbot):
    """Shortly after a change the plan is on disk, whole."""
    kept.change()
    qtbot.waitUntil(file_of(kept).is_file, timeout=10_000)
    data = file_of(kept).read_bytes()
    assert plan_file.plan_from_bytes(data, "kept") == kept.session.committed


def test_a_saved_plan_is_not_kept(kept, qtbot, tmp_path):
    """After saving nothing is left to recover."""
    kept.change()
    qtbot.waitUntil(file_of(kept).is_file, timeout=10_000)
    kept.document.save(tmp_path / "sign.holeplan")
    qtbot.waitUntil(lambda: not file_of(kept).exists(), timeout=10_000)


def test_a_running_window_is_not_offered(kept, folder, qtbot):
    """A second window does not take what the first still holds."""
    kept.change()
    qtbot.waitUntil(file_of(kept).is_file, timeout=10_000)
    second = Kept(folder)
    assert second.recovery.leftovers() == ()
    second.end()


def test_a_good_end_leaves_nothing(kept, folder, qtbot):
    """Closing removes the window's folder."""
    kept.change()
    qtbot.waitUntil(file_of(kept).is_file, timeout=10_000)
    kept.recovery.close()
    assert list(folder.iterdir()) == []


def test_what_the_pause_holds_back_is_kept_at_once(kept):
    """Asked to, the plan is on disk when the call returns."""
    kept.recovery._timer.setInterval(3_600_000)
    kept.change()
    assert not file_of(kept).exists()
    kept.recovery.keep_now()
    assert plan_file.plan_from_bytes(file_of(kept).read_bytes(), "kept") == kept.session.committed


def test_nothing_is_kept_after_a_good_end(kept, folder):
    """A window closed with changes given up keeps nothing as the program ends."""
    kept.change()
    kept.recovery.close()
    kept.recovery.keep_now()
    assert not folder.exists() or list(folder.iterdir()) == []


def test_what_is_given_up_is_forgotten(kept, qtbot):
    """Until the next change, which is kept again."""
    kept.change()
    qtbot.waitUntil(file_of(kept).is_file, timeout=10_000)
    kept.recovery.let_go()
    assert not file_of(kept).exists()
    kept.session.push(edit.with_hole_added(kept.session.committed, 200, 100), "Add hole 2")
    qtbot.waitUntil(file_of(kept).is_file, timeout=10_000)


def test_after_a_crash_the_plan_comes_back(kept, folder, qtbot):
    """A program killed with unsaved changes: the next one offers and recovers them."""
    done = subprocess.run([sys.executable, "-c", textwrap.dedent(CRASH), str(folder)], timeout=60)
    assert done.returncode == -9
    (left,) = kept.recovery.leftovers()
    assert left.name == "harbour.svg"
    assert left.path is None
    kept.recovery.recover(left)
    assert [(hole.x_mm, hole.y_mm) for hole in kept.session.plan.holes] == [(12, 34)]
    assert kept.document.modified
    assert kept.recovery.leftovers() == ()
    assert file_of(kept).is_file()


def test_thrown_away_is_gone(kept, folder, qtbot):
    """What is discarded is not offered again."""
    left = folder / "old"
    left.mkdir(parents=True)
    (left / "plan.holeplan").write_bytes(b"{}")
    (found,) = kept.recovery.leftovers()
    assert found.name == "unnamed plan"
    with pytest.raises(PlanFileError):
        kept.recovery.recover(found)
    kept.recovery.discard(found)
    assert kept.recovery.leftovers() == ()


def test_a_disk_that_refuses_is_told_once(kept, qtbot, monkeypatch):
    """If the plan can't be kept the person is told, but not every two seconds."""
    told = []
    kept.recovery.failed.connect(told.append)

    def refuse(_path, _data):
        raise OSError("no space left")

    monkeypatch.setattr(recovery, "_save", refuse)
    kept.change()
    qtbot.waitUntil(lambda: bool(told), timeout=10_000)
    kept.recovery.keep()
    kept.recovery._workers.wait()
    qtbot.wait(50)
    assert len(told) == 1
    assert "no space left" in told[0]
