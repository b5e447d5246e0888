"""The demo without a display."""

import tempfile

from holeplacer.cli import demo


def test_the_demo_writes_its_files_and_is_no_failure(tmp_path, monkeypatch, capsys):
    """The demo sign has something to find, and still ends with 0; its files are named."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    assert demo.run_demo() == 0
    out = capsys.readouterr().out
    (folder,) = tmp_path.iterdir()
    assert len(list(folder.iterdir())) == 5
    assert all(str(path) in out for path in folder.iterdir())
