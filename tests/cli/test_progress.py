"""Progress on the terminal."""

import io
import sys

import pytest

from holeplacer.cli.progress import Progress


class Terminal(io.StringIO):
    def isatty(self):
        return True


def test_a_terminal_is_told_and_wiped(monkeypatch):
    """The line shows share and work, and at the end nothing of it is left."""
    monkeypatch.setattr(sys, "stderr", Terminal())
    with Progress() as progress:
        progress(0.5, "placing holes, piece 2 of 9")
        progress(1.5, "done")
    text = sys.stderr.getvalue()
    assert "############............] placing holes, piece 2 of 9" in text
    assert text.endswith("\r" + " " * len("[########################] done") + "\r")


def test_a_file_is_told_nothing(monkeypatch):
    """When standard error is no terminal, nothing is written to it."""
    monkeypatch.setattr(sys, "stderr", io.StringIO())
    with Progress() as progress:
        progress(0.5, "placing holes")
    assert sys.stderr.getvalue() == ""


def test_a_shorter_line_hides_a_longer_one(monkeypatch):
    """What a longer line left on the screen is overwritten."""
    monkeypatch.setattr(sys, "stderr", Terminal())
    progress = Progress()
    progress(0.1, "a very long piece of work")
    progress(0.2, "short")
    last = sys.stderr.getvalue().rsplit("\r", 1)[1]
    assert len(last) == len("[##......................] a very long piece of work")


def test_a_part_shows_its_share_of_the_whole(monkeypatch):
    """Half of what lies between a fifth and three fifths is two fifths."""
    told = []
    monkeypatch.setattr(Progress, "__call__", lambda _, *seen: told.append(seen))
    Progress().within(0.2, 0.6)(0.5, "laying")
    assert told == [(pytest.approx(0.4), "laying")]
