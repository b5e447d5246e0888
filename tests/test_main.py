"""Window or command line."""

import sys
import types

import pytest

from holeplacer import __main__ as main
from holeplacer.cli import commands, demo


@pytest.fixture
def called(monkeypatch):
    """What was called with what, in place of the real things."""
    calls = []
    window = types.ModuleType("holeplacer.gui.application")
    window.run = lambda given: calls.append(("window", given)) or 7
    monkeypatch.setitem(sys.modules, "holeplacer.gui.application", window)
    monkeypatch.setattr("holeplacer.gui.application", window, raising=False)
    monkeypatch.setattr(commands, "run", lambda given: calls.append(("verb", given)) or 1)
    monkeypatch.setattr(demo, "run_demo", lambda: calls.append(("demo", [])) or 0)
    for name in ("DISPLAY", "WAYLAND_DISPLAY", "QT_QPA_PLATFORM"):
        monkeypatch.delenv(name, raising=False)
    return calls


@pytest.fixture
def display(monkeypatch):
    monkeypatch.setenv("DISPLAY", ":7")


def test_nothing_given_opens_the_window(called, display):
    """With a display and no argument the window opens, and its status is the program's."""
    assert main.main([]) == 7
    assert called == [("window", [])]


def test_a_file_opens_in_the_window(called, display, tmp_path):
    """One file that is no verb opens in the window."""
    path = tmp_path / "show"
    path.write_text("")
    assert main.main([str(path)]) == 7
    assert called == [("window", [str(path)])]


@pytest.mark.parametrize(
    "given", [["show", "a.svg"], ["--help"], ["propose"], ["missing.svg"], ["a" * 5000]]
)
def test_verbs_and_options_are_the_command_line_s(called, display, given):
    """A verb, an option or what is no file never opens the window."""
    assert main.main(given) == 1
    assert called == [("verb", given)]


def test_a_verb_is_a_verb_even_where_a_file_has_its_name(called, display, tmp_path, monkeypatch):
    """A file named like a verb does not stand in its way."""
    monkeypatch.chdir(tmp_path)
    (tmp_path / "check").write_text("")
    main.main(["check"])
    assert called == [("verb", ["check"])]


def test_without_a_display_the_demo_is_done(called, capsys):
    """No argument, no display: the demo, and a line that says why."""
    assert main.main([]) == 0
    assert called == [("demo", [])]
    assert "no display" in capsys.readouterr().err


def test_without_a_display_a_file_is_refused(called, capsys, tmp_path):
    """There is nothing to open it in; the verbs are pointed at."""
    path = tmp_path / "a.svg"
    path.write_text("")
    assert main.main([str(path)]) == 2
    assert called == []
    assert "--help" in capsys.readouterr().err


def test_missing_window_libraries_are_one_sentence(called, display, capsys, monkeypatch):
    """Where Qt can't be loaded, the sentence says what to install."""
    monkeypatch.setitem(sys.modules, "holeplacer.gui.application", None)
    monkeypatch.delattr("holeplacer.gui.application", raising=False)
    assert main.main([]) == 2
    assert capsys.readouterr().err.count("\n") == 1


@pytest.mark.parametrize("name", ["WAYLAND_DISPLAY", "QT_QPA_PLATFORM"])
def test_other_displays_count(called, monkeypatch, name):
    """Wayland, or a platform named for Qt, is a display too."""
    monkeypatch.setenv(name, "wayland")
    assert main.has_display()


@pytest.mark.parametrize("platform", ["offscreen", "minimal"])
def test_a_platform_nobody_sees_is_no_display(called, monkeypatch, platform):
    """With Qt told to draw into memory, a window would wait for nobody."""
    monkeypatch.setenv("DISPLAY", ":0")
    monkeypatch.setenv("QT_QPA_PLATFORM", platform)
    assert not main.has_display()
