"""Files are taken from disk safely and told apart by content."""

import gzip
import os
import socket
from pathlib import Path

import pytest

from holeplacer.artwork import source
from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.artwork.source import Format, load_file, sniff, unpacked
from holeplacer.errors import ArtworkError

SVG = b'<svg xmlns="http://www.w3.org/2000/svg"/>'
DXF = b"  0\nSECTION\n  2\nENTITIES\n  0\nENDSEC\n  0\nEOF\n"


def file(data: bytes) -> ArtworkFile:
    return ArtworkFile("sign", data)


@pytest.mark.parametrize(
    ("data", "expected"),
    [
        (SVG, Format.SVG),
        (b"\xef\xbb\xbf" + SVG, Format.SVG),
        (b"\n  <?xml version='1.0'?>" + SVG, Format.SVG),
        (b"<!DOCTYPE svg []>" + SVG, Format.SVG),
        (SVG.decode().encode("utf-16"), Format.SVG),
        (SVG.decode().encode("utf-16-le"), Format.SVG),
        (b'<s:svg xmlns:s="http://www.w3.org/2000/svg"/>', Format.SVG),
        (gzip.compress(SVG, mtime=0), Format.SVG),
        (DXF, Format.DXF),
        (b"\xef\xbb\xbf" + DXF, Format.DXF),
        (DXF.replace(b"\n", b"\r"), Format.DXF),
        (b"999\nmade by hand\n" + DXF, Format.DXF),
        (b"AutoCAD Binary DXF\r\n\x1a\x00", Format.DXF),
    ],
)
def test_format_is_told_by_content(data: bytes, expected: Format) -> None:
    """Byte order marks, blanks, comments, encodings and compression hide nothing."""
    assert sniff(file(data)) is expected


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", "sign: the file is empty; give a DXF or SVG drawing of the outline."),
        (b" \n\n ", "sign: the file holds nothing but blanks"),
        (b"\x89PNG\r\n\x1a\n", "sign: the file is a PNG picture, not an outline; trace it"),
        (b"\xff\xd8\xff\xe0", "a JPEG picture"),
        (b"RIFF\x00\x00\x00\x00WEBPVP8", "a WebP picture"),
        (b"BM\x00\x00\x00\x00", "a BMP picture"),
        (b"%PDF-1.7", "sign: the file is a PDF file, not an outline; give a DXF or SVG"),
        (b"PK\x03\x04", "a ZIP archive"),
        (b"AC1032\x00\x00", "a DWG drawing"),
        (b"<!DOCTYPE html><html><svg/></html>", "a web page"),
        (b"<kml></kml>", "the file is XML but not SVG"),
        (b"BM, a memo", "the file is neither DXF nor SVG"),
        (b"  0\nHELLO\n", "the file is neither DXF nor SVG"),
    ],
)
def test_what_is_no_outline_is_named(data: bytes, sentence: str) -> None:
    """The refusal says what the file seems to be, and what to ask for."""
    with pytest.raises(ArtworkError) as refusal:
        sniff(file(data))
    assert sentence in str(refusal.value)


def test_an_ordinary_file_is_read_whole(tmp_path: Path) -> None:
    """Name and bytes come in as they are, whatever the suffix."""
    path = tmp_path / "letters.txt"
    path.write_bytes(SVG)
    assert load_file(path) == ArtworkFile("letters.txt", SVG)


def test_a_directory_a_pipe_and_a_socket_are_refused_at_once(tmp_path: Path) -> None:
    """Nothing that is not an ordinary file is waited for."""
    os.mkfifo(tmp_path / "pipe")
    with pytest.raises(ArtworkError, match="pipe: this is a pipe, not a file"):
        load_file(tmp_path / "pipe")
    with pytest.raises(ArtworkError, match="this is a directory, not a file"):
        load_file(tmp_path)
    with pytest.raises(ArtworkError, match="null: this is a device, not a file"):
        load_file(Path("/dev/null"))
    with socket.socket(socket.AF_UNIX) as listener:
        listener.bind(str(tmp_path / "socket"))
        with pytest.raises(ArtworkError, match="can't be opened"):
            load_file(tmp_path / "socket")


def test_a_missing_file_is_named_with_its_path(tmp_path: Path) -> None:
    """The whole path is shown, since the mistake is usually in the folder."""
    with pytest.raises(ArtworkError, match=r"nowhere/sign\.svg: there is no such file"):
        load_file(tmp_path / "nowhere" / "sign.svg")


def test_a_name_no_file_can_have_is_an_error_not_a_crash() -> None:
    """A zero byte in a name."""
    with pytest.raises(ArtworkError, match="can't be opened"):
        load_file(Path("si\x00gn"))


def test_a_sparse_giant_is_refused_by_its_size(tmp_path: Path) -> None:
    """A file of 3 GiB that takes no room on the disk is never read."""
    path = tmp_path / "giant.svg"
    with path.open("wb") as stream:
        stream.truncate(3 << 30)
    with pytest.raises(ArtworkError, match=r"giant\.svg: it is larger than 128 MB"):
        load_file(path)


def test_compressed_files_are_unpacked_within_bounds(monkeypatch: pytest.MonkeyPatch) -> None:
    """Whole ones come out whole; bombs, damaged and cut ones are refused."""
    whole = gzip.compress(SVG, mtime=0)
    assert unpacked(file(whole)) == SVG
    assert unpacked(file(SVG)) == SVG
    with pytest.raises(ArtworkError, match="cut short"):
        unpacked(file(whole[:-12]))
    with pytest.raises(ArtworkError, match="damaged"):
        unpacked(file(whole[:12] + b"\xff\xff\xff" + whole[15:]))
    monkeypatch.setattr(source, "LARGEST_FILE_MB", 1)
    with pytest.raises(ArtworkError, match="unpacked it is larger than 1 MB"):
        unpacked(file(gzip.compress(SVG + b" " * 2_000_000, mtime=0)))
