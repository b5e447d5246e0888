"""Documents written, and what must not be overwritten by them."""

import os

import pytest

from holeplacer.documents import write
from holeplacer.errors import ExportError


def test_a_document_is_written_and_proven(tmp_path):
    """What the check sees is what came back from the disk."""
    seen = []
    write.replace_file(tmp_path / "a.csv", b"content", check=seen.append)
    assert seen == [b"content"]
    assert (tmp_path / "a.csv").read_bytes() == b"content"


def test_a_protected_file_is_not_overwritten(tmp_path):
    """Neither the artwork itself nor another name for it is a target."""
    artwork, other = tmp_path / "sign.dxf", tmp_path / "same.dxf"
    artwork.write_bytes(b"artwork")
    other.hardlink_to(artwork)
    for path in (artwork, other, tmp_path / "." / "sign.dxf"):
        with pytest.raises(ExportError, match="overwrite"):
            write.replace_file(path, b"new", protected=[artwork])
        with pytest.raises(ExportError, match="overwrite"):
            write.refuse_target(path, [artwork])
    assert artwork.read_bytes() == b"artwork"


@pytest.mark.skipif(os.geteuid() == 0, reason="nothing is closed to the superuser")
def test_a_closed_folder_is_told_beforehand(tmp_path):
    """A folder that may not be written to is refused before any work is done."""
    tmp_path.chmod(0o500)
    try:
        with pytest.raises(ExportError, match="may not be written"):
            write.refuse_target(tmp_path / "a.csv")
        with pytest.raises(ExportError, match="can't be written"):
            write.replace_file(tmp_path / "a.csv", b"")
    finally:
        tmp_path.chmod(0o700)
