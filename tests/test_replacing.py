"""Files replaced whole or not at all."""

import os
import signal
import subprocess
import sys
import time

import pytest

from holeplacer import replacing
from holeplacer.errors import ExportError, PlanFileError


def left_over(folder):
    return sorted(path.name for path in folder.iterdir())


def test_a_new_file_is_written_and_proven(tmp_path):
    """What the check sees is what came back from the disk."""
    seen = []
    replacing.replace_file(tmp_path / "a.csv", b"content", ExportError, check=seen.append)
    assert seen == [b"content"]
    assert (tmp_path / "a.csv").read_bytes() == b"content"
    assert left_over(tmp_path) == ["a.csv"]


def test_a_failed_check_leaves_the_old_file(tmp_path):
    """If the read-back fails, nothing is replaced and nothing is left lying about."""
    path = tmp_path / "a.dxf"
    path.write_bytes(b"old")

    def refuse(data):
        raise ExportError("is not the sign")

    with pytest.raises(ExportError, match="is not the sign"):
        replacing.replace_file(path, b"new", ExportError, check=refuse)
    assert path.read_bytes() == b"old"
    assert left_over(tmp_path) == ["a.dxf"]


@pytest.mark.parametrize("when", ["write", "check"])
def test_a_process_killed_midway_leaves_the_old_file(tmp_path, when):
    """Killed while writing or proving, the old file is still whole."""
    path = tmp_path / "a.dxf"
    path.write_bytes(b"old")
    waits = {
        "write": "import os; os.fsync = lambda _: (print('now', flush=True), time.sleep(60))",
        "check": "",
    }[when]
    program = (
        "import time, pathlib, sys\n"
        f"{waits}\n"
        "from holeplacer import replacing\n"
        "from holeplacer.errors import ExportError\n"
        "def check(data): print('now', flush=True); time.sleep(60)\n"
        "path, data = pathlib.Path(sys.argv[1]), b'new' * 100000\n"
        "replacing.replace_file(path, data, ExportError, check=check)\n"
    )
    process = subprocess.Popen([sys.executable, "-c", program, path], stdout=subprocess.PIPE)
    assert process.stdout.readline() == b"now\n"
    process.send_signal(signal.SIGKILL)
    process.wait(timeout=10)
    process.stdout.close()
    assert path.read_bytes() == b"old"


def test_permissions_and_links_stay(tmp_path):
    """The file a link leads to is replaced, with its permissions; the link stays a link."""
    real, link = tmp_path / "real.csv", tmp_path / "link.csv"
    real.write_bytes(b"old")
    real.chmod(0o640)
    link.symlink_to(real)
    replacing.replace_file(link, b"new", ExportError)
    assert link.is_symlink()
    assert real.read_bytes() == b"new"
    assert real.stat().st_mode & 0o777 == 0o640


def test_a_new_file_has_the_usual_permissions(tmp_path):
    """A new file is not more private than the person's other files."""
    (tmp_path / "usual").write_bytes(b"")
    replacing.replace_file(tmp_path / "a.csv", b"", ExportError)
    assert (tmp_path / "a.csv").stat().st_mode == (tmp_path / "usual").stat().st_mode


@pytest.mark.parametrize("name", ["missing/a.csv", "", "a\0b", "loop", "fifo", "x" * 300])
def test_a_target_that_is_no_file_is_refused(tmp_path, name):
    """No folder, a folder, a NUL, a loop of links, a pipe, an endless name: one sentence each."""
    (tmp_path / "loop").symlink_to(tmp_path / "loop")
    os.mkfifo(tmp_path / "fifo")
    path = tmp_path / name if name else tmp_path
    with pytest.raises(ExportError) as caught:
        replacing.replace_file(path, b"new", ExportError)
    assert str(caught.value).count("\n") == 0
    assert left_over(tmp_path) == ["fifo", "loop"]


def test_a_full_disk_is_an_error_and_leaves_the_old_file(tmp_path):
    """When the disk is full the old file stays, and the sentence says why."""
    path = tmp_path / "a.csv"
    path.write_bytes(b"old")
    program = (
        "import pathlib, resource, signal, sys\n"
        "from holeplacer import replacing\n"
        "from holeplacer.errors import ExportError\n"
        "signal.signal(signal.SIGXFSZ, signal.SIG_IGN)\n"
        "resource.setrlimit(resource.RLIMIT_FSIZE, (1000, 1000))\n"
        "try: replacing.replace_file(pathlib.Path(sys.argv[1]), b'new' * 1000, ExportError)\n"
        "except ExportError as error: print(error)\n"
    )
    done = subprocess.run([sys.executable, "-c", program, path], capture_output=True, text=True)
    assert "can't be written: file too large" in done.stdout
    assert path.read_bytes() == b"old"
    assert left_over(tmp_path) == ["a.csv"]


def test_bytes_that_come_back_changed_are_noticed(tmp_path, monkeypatch):
    """A disk that gives back something else is caught before the old file goes."""
    path = tmp_path / "a.csv"
    path.write_bytes(b"old")
    monkeypatch.setattr(type(path), "read_bytes", lambda self: b"garbled")
    with pytest.raises(ExportError, match="changed"):
        replacing.replace_file(path, b"new", ExportError)
    monkeypatch.undo()
    assert path.read_bytes() == b"old"


def test_the_error_is_of_the_kind_asked_for(tmp_path):
    """A plan's failure is a plan's error, a drawing's a drawing's, in the same words."""
    for kind in (ExportError, PlanFileError):
        with pytest.raises(kind, match="the folder does not exist; create it or choose another"):
            replacing.replace_file(tmp_path / "missing" / "a", b"", kind)


def test_what_a_killed_process_left_goes_after_a_day(tmp_path):
    """Stale new files of the same name go at the next writing, young and foreign ones stay."""
    names = {
        ".a[1].csv.0123abcd.part": 25,  # left by a process killed yesterday
        ".a[1].csv.0123abce.part": 1,  # perhaps another process is writing it now
        ".a[1].csv.old.part": 100,  # not of this program's making
        ".a1.csv.0123abcd.part": 100,  # another file's
        "b.csv": 100,
    }
    for name, hours in names.items():
        (tmp_path / name).write_bytes(b"half")
        at = time.time() - hours * 3600
        os.utime(tmp_path / name, (at, at))
    replacing.replace_file(tmp_path / "a[1].csv", b"new", ExportError)
    assert left_over(tmp_path) == sorted({*names, "a[1].csv"} - {".a[1].csv.0123abcd.part"})


@pytest.mark.parametrize("letter", ["x", "é", "字"])
def test_the_longest_name_a_system_takes_is_written(tmp_path, letter):
    """The new file's own name is never too long where the target's is not."""
    path = tmp_path / (letter * (255 // len(letter.encode())))
    replacing.replace_file(path, b"new", ExportError)
    assert left_over(tmp_path) == [path.name]
