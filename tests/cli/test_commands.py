"""Every way a command line can end."""

import io
import os
import sys

import click
import pytest

from holeplacer.cli import commands
from holeplacer.errors import ArtworkError

SQUARE = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="800mm" height="60mm" viewBox="0 0 800 60">'
    '<path d="M0,0H800V60H0Z"/></svg>'
)
UNITLESS = "0\nSECTION\n2\nENTITIES\n0\nCIRCLE\n8\n0\n10\n0\n20\n0\n40\n9\n0\nENDSEC\n0\nEOF\n"


@pytest.fixture
def folder(tmp_path, monkeypatch, saved_plan):
    """A working folder with good and bad input."""
    (tmp_path / "bar.svg").write_text(SQUARE)
    (tmp_path / "picture.png").write_bytes(b"\x89PNG\r\n\x1a\n" + bytes(99))
    (tmp_path / "unitless.dxf").write_text(UNITLESS)
    plan = saved_plan.read_bytes()
    (tmp_path / "good.holeplan").write_bytes(plan)
    (tmp_path / "cut-short.holeplan").write_bytes(plan[: len(plan) // 2])
    monkeypatch.chdir(tmp_path)
    return tmp_path


@pytest.mark.parametrize(
    ("arguments", "says"),
    [
        (["propose", "missing.svg"], "no such file"),
        (["propose", "."], "directory"),
        (["propose", "picture.png"], "PNG"),
        (["propose", "unitless.dxf"], "--units mm"),
        (["propose", "bar.svg", "--units", "ells"], "--units"),
        (["propose", "bar.svg", "--width", "wide"], "--width"),
        (["propose", "bar.svg", "--width", "9" * 9999], "--width"),
        (["propose", "bar.svg", "--width", "1m", "--height", "1m"], "--width and --height"),
        (["propose", "bar.svg", "--spacing", "-3"], "--spacing"),
        (["propose", "bar.svg", "--count", "0"], "--count"),
        (["propose", "bar.svg", "--hole", "900m"], "possible"),
        (["propose", "bar.svg", "--dxf", "bar.svg"], "overwrite"),
        (["propose", "bar.svg", "--save", "bar.svg"], "overwrite"),
        (["propose", "bar.svg", "--csv", "x", "--report", "./x"], "same file"),
        (["propose", "bar.svg", "--dxf", "missing/x.dxf"], "folder"),
        (["propose", "bar.svg", "--layer", "no such layer"], "layer"),
        (["check", "bar.svg"], "not a plan"),
        (["check", "missing.holeplan"], "can't be read"),
        (["check", "cut-short.holeplan"], "damaged"),
        (["make", "missing.holeplan", "--to", "out"], "can't be read"),
        (["make", "good.holeplan"], "--to"),
        (["make", "good.holeplan", "--to", "bar.svg"], "folder"),
        (["frobnicate"], "neither a verb nor a file"),
    ],
)  # fmt: skip
def test_what_can_not_be_used_ends_with_2_and_one_sentence(folder, capsys, arguments, says):
    """Whatever is wrong with input or arguments is one line on standard error."""
    before = {path: path.read_bytes() for path in folder.iterdir()}
    status = commands.run(arguments)
    out, err = capsys.readouterr()
    assert (status, out) == (2, "")
    assert err.count("\n") == 1
    assert says in err
    assert {path: path.read_bytes() for path in folder.iterdir()} == before


@pytest.mark.parametrize("verb", commands.VERBS)
def test_every_verb_explains_itself(capsys, verb):
    """Its help has an example, and no option is left unexplained."""
    assert commands.run([verb, "--help"]) == 0
    assert f"holeplacer {verb} " in capsys.readouterr().out
    command = commands._verb(verb)
    options = [item for item in command.params if isinstance(item, click.Option)]
    assert all(option.help for option in options)


def test_help_names_the_verbs_in_the_order_of_the_job(capsys):
    """A newcomer sees an example of the whole job, the verbs and the exit statuses."""
    assert commands.run(["--help"]) == 0
    out = capsys.readouterr().out
    assert out.index("  show ") < out.index("  propose ") < out.index("  make ")
    assert "Ends with 0" in out


def test_the_version_is_said(capsys):
    """`--version` is one line."""
    assert commands.run(["--version"]) == 0
    assert capsys.readouterr().out.startswith("holeplacer 0.")


@pytest.mark.parametrize(
    ("error", "status", "says"),
    [
        (ArtworkError("is torn", where="a.svg", remedy="mend it"), 2, "a.svg: is torn; mend it."),
        (click.UsageError("Too\nmany."), 2, "Too many; see holeplacer --help."),
        (click.ClickException("No."), 2, "No."),
        (KeyboardInterrupt(), 130, "Stopped."),
        (click.Abort(), 130, "Stopped."),
        (OSError(28, "No space left"), 2, "The result can't be printed: no space left."),
        (MemoryError(), 2, "There is not enough memory"),
        (ZeroDivisionError("by nought"), 2, "A fault of the program (ZeroDivisionError: by nought"),
    ],
)
def test_every_failure_is_a_status_and_a_sentence(monkeypatch, error, status, says):
    """Errors of ours, of arguments, of the system and of the program end in one line each."""

    def fail():
        raise error

    monkeypatch.setattr(sys, "stdout", io.StringIO())
    monkeypatch.setattr(sys, "stderr", io.StringIO())
    assert commands.guarded(fail) == status
    assert sys.stderr.getvalue().startswith(says)
    assert sys.stderr.getvalue().count("\n") == 1


def test_a_closed_pipe_ends_as_the_shell_expects(monkeypatch):
    """Nobody reads: no message, and the status of a program ended by a closed pipe."""
    read, write = os.pipe()
    os.close(read)
    with os.fdopen(write, "w") as pipe:
        monkeypatch.setattr(sys, "stdout", pipe)
        monkeypatch.setattr(sys, "stderr", io.StringIO())
        assert commands.guarded(lambda: pipe.write("x" * 100_000)) == 141
        assert sys.stderr.getvalue() == ""
