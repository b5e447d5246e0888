"""Opening, saving and exporting ask what they must, and nothing more."""

from pathlib import Path

import pytest
from PySide6.QtWidgets import QFileDialog, QMessageBox

from holeplacer.plan import edit

SAVE, DISCARD, CANCEL = (
    QMessageBox.StandardButton.Save,
    QMessageBox.StandardButton.Discard,
    QMessageBox.StandardButton.Cancel,
)


@pytest.fixture
def chosen(monkeypatch):
    """Names that file dialogs give, in order; an unexpected dialog fails the test."""
    names: list[str] = []

    def give(*_args):
        assert names, "a dialog that was not expected"
        return names.pop(0), ""

    monkeypatch.setattr(QFileDialog, "getOpenFileName", give)
    monkeypatch.setattr(QFileDialog, "getSaveFileName", give)
    return names


def change(bench):
    bench.session.push(edit.with_hole_added(bench.session.committed, 300, 100), "Add hole 1")


def test_open_asks_for_a_file(bench, qtbot, chosen, sign_file, settings):
    """The chosen file is opened; its folder is where the next dialog begins."""
    chosen.append(str(sign_file))
    with qtbot.waitSignal(bench.session.opened, timeout=20_000):
        bench.files.ask_open()
    assert settings.value("folder") == str(sign_file.parent)


def test_giving_up_a_dialog_does_nothing(opened, chosen):
    """An empty answer opens, saves and exports nothing."""
    change(opened)
    chosen.extend(["", "", "", ""])
    opened.files.ask_open()
    assert not opened.files.save()
    opened.files.ask_export_drawing()
    opened.files.ask_export_schedule()
    assert opened.document.modified


def test_first_save_asks_where_then_no_more(opened, chosen, tmp_path):
    """The suffix is added; the second save needs no question."""
    change(opened)
    chosen.append(str(tmp_path / "shop"))
    assert opened.files.save()
    assert (tmp_path / "shop.holeplan").is_file()
    change(opened)
    assert opened.files.save()
    assert not opened.document.modified


@pytest.mark.parametrize("answer", [DISCARD, CANCEL])
def test_unsaved_changes_are_asked_for(opened, answers, qtbot, sign_file, answer):
    """Discarding opens the other file, cancelling stays."""
    change(opened)
    before = opened.session.plan
    answers.append(answer)
    opened.files.open_file(sign_file)
    if answer is DISCARD:
        qtbot.waitUntil(lambda: opened.session.plan is not before, timeout=20_000)
    else:
        qtbot.wait(100)
        assert opened.session.plan is before


def test_save_in_answer_to_the_question(opened, answers, chosen, tmp_path):
    """Save asks where, saves, and lets go; giving that up stays."""
    change(opened)
    answers.append(SAVE)
    chosen.append("")
    assert not opened.files.may_leave()
    answers.append(SAVE)
    chosen.append(str(tmp_path / "shop.holeplan"))
    assert opened.files.may_leave()
    assert Path(tmp_path / "shop.holeplan").is_file()


def test_nothing_unsaved_nothing_asked(opened):
    """A clean plan is left without a question."""
    assert opened.files.may_leave()


def test_export_without_holes_is_told(opened, qtbot):
    """No dialog for nothing: the status line says what to do."""
    with qtbot.waitSignal(opened.session.notice) as told:
        opened.files.ask_export_drawing()
    assert "Propose" in told.args[0]


def test_export_adds_its_suffix(opened, chosen, qtbot, tmp_path):
    """A name without suffix gets the right one."""
    change(opened)
    chosen.append(str(tmp_path / "cut"))
    with qtbot.waitSignal(opened.exporter.written, timeout=30_000) as told:
        opened.files.ask_export_drawing()
    assert told.args == [tmp_path / "cut.dxf"]


def test_files_in_the_way_are_asked_about(divided, answers, qtbot, tmp_path, monkeypatch):
    """What lies in the folder stays unless the person lets it be replaced."""
    monkeypatch.setattr(QFileDialog, "getExistingDirectory", lambda *_args: str(tmp_path))
    own = tmp_path / "whole.dxf"
    own.write_text("mine")
    laid = divided.divider.division.layout
    answers.append(CANCEL)
    divided.files.ask_cut_folder(laid)
    assert own.read_text() == "mine"
    assert [path.name for path in tmp_path.glob("*.dxf")] == ["whole.dxf"]
    answers.append(QMessageBox.StandardButton.Yes)
    with qtbot.waitSignal(divided.exporter.written, timeout=60_000):
        divided.files.ask_cut_folder(laid)
    assert own.read_text() != "mine"


def test_without_sheets_there_is_no_folder_to_write(opened, qtbot):
    """No dialog for nothing."""
    with qtbot.waitSignal(opened.session.notice) as told:
        opened.files.ask_cut_folder(None)
    assert "Enter a sheet" in told.args[0]
