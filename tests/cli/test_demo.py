"""The demo without a display."""

import tempfile

from holeplacer.cli import demo


def test_the_demo_writes_its_files_and_is_no_failure(tmp_path, monkeypatch, capsys):
    """The demo sign has something to find, and still ends with 0; its files are named."""
    monkeypatch.setattr(tempfile, "tempdir", str(tmp_path))
    assert demo.run_demo() == 0
    out = capsys.readouterr().out
    (folder,) = tmp_path.iterdir()
    written = [path for path in folder.rglob("*") if path.is_file()]
    assert len(written) == 5 + len(list((folder / "cut").iterdir()))
    assert {"whole.dxf", "sheet-1.dxf", "cut-list.pdf"} <= {path.name for path in written}
    assert all(str(path) in out for path in written)
