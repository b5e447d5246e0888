"""Source: an artwork file taken from disk safely, and what format its bytes really are.

The name of a file promises nothing: format is told by content, and what is not an outline is
named in the refusal, so that the person knows what to ask the customer for.
"""

import os
import stat
import zlib
from enum import Enum
from pathlib import Path

from holeplacer.artwork.artwork import ArtworkFile
from holeplacer.errors import ArtworkError

LARGEST_FILE_MB = 128
"""No lettering outline is larger; what is larger would not read within the time a person waits."""

_MEGABYTE = 1_000_000
_HEAD = 4096
_OPENING = os.O_RDONLY | getattr(os, "O_NONBLOCK", 0) | getattr(os, "O_BINARY", 0)
"""A pipe without a writer must not block; line ends must not be translated."""

_REMEDY = "give a DXF or SVG drawing of the outline"


class Format(Enum):
    """A format that artwork is read from."""

    DXF = "DXF"
    SVG = "SVG"


_STARTS = {
    b"\x89PNG": "a PNG picture",
    b"\xff\xd8\xff": "a JPEG picture",
    b"GIF8": "a GIF picture",
    b"BM": "a BMP picture",
    b"II*\x00": "a TIFF picture",
    b"MM\x00*": "a TIFF picture",
    b"%PDF": "a PDF file",
    b"%!PS": "a PostScript file",
    b"\xc5\xd0\xd3\xc6": "a PostScript file",
    b"PK\x03\x04": "a ZIP archive",
    b"AC10": "a DWG drawing",
    b"\x7fELF": "a program",
    b"MZ": "a program",
}
_DXF_BINARY = b"AutoCAD Binary DXF"
_GZIP = b"\x1f\x8b"
_UTF16 = {b"\xff\xfe": "utf-16-le", b"\xfe\xff": "utf-16-be"}
_UTF16_UNMARKED = {b"<\x00": "utf-16-le", b"\x00<": "utf-16-be"}


def load_file(path: Path) -> ArtworkFile:
    """Read an artwork file whole.

    Only an ordinary file is opened, and opened without waiting, so that a pipe or a device
    neither blocks nor runs for ever.

    Raises:
        ArtworkError: It is not there, not an ordinary file, empty, larger than
            `LARGEST_FILE_MB`, unreadable, or neither DXF nor SVG by its content.
    """
    name = path.name or str(path)
    data = _contents(path, name)
    file = ArtworkFile(name, data)
    sniff(file)
    return file


def sniff(file: ArtworkFile) -> Format:
    """Tell the format by content.

    Raises:
        ArtworkError: It is neither DXF nor SVG; the sentence says what it seems to be.
    """
    head = _unpacked(file, limit=_HEAD)
    if not file.data:
        raise ArtworkError("the file is empty", where=file.name, remedy=_REMEDY)
    if head.startswith(_DXF_BINARY):
        return Format.DXF
    for start, kind in _STARTS.items():
        if head.startswith(start) and not (start in (b"BM", b"MZ", b"AC10") and _is_text(head)):
            raise _refused(file.name, kind)
    if head[:4] == b"RIFF" and head[8:12] == b"WEBP":
        raise _refused(file.name, "a WebP picture")
    text = _as_text(head)
    if text.lstrip().startswith("<"):
        return _markup(file, text)
    if _begins_like_dxf(text):
        return Format.DXF
    if not text.strip():
        raise ArtworkError("the file holds nothing but blanks", where=file.name, remedy=_REMEDY)
    raise ArtworkError("the file is neither DXF nor SVG", where=file.name, remedy=_REMEDY)


def unpacked(file: ArtworkFile) -> bytes:
    """The file's bytes, decompressed if it is gzip (as `.svgz` is).

    Raises:
        ArtworkError: It unpacks to more than `LARGEST_FILE_MB`, or is damaged.
    """
    limit = LARGEST_FILE_MB * _MEGABYTE
    data = _unpacked(file, limit=limit + 1, whole=True)
    if len(data) > limit:
        raise _too_large(file.name, "unpacked it is")
    return data


def _contents(path: Path, name: str) -> bytes:
    try:
        handle = os.open(path, _OPENING)
    except IsADirectoryError as error:
        raise _not_a_file(name, "a directory") from error
    except FileNotFoundError as error:
        raise ArtworkError("there is no such file", where=str(path)) from error
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise ArtworkError(f"the file can't be opened ({reason})", where=name) from error
    status = os.fstat(handle)
    if not stat.S_ISREG(status.st_mode):
        os.close(handle)
        raise _not_a_file(name, _kind_of(status.st_mode))
    with os.fdopen(handle, "rb") as stream:
        limit = LARGEST_FILE_MB * _MEGABYTE
        if status.st_size > limit:
            raise _too_large(name, "it is")
        try:
            data = stream.read(limit + 1)
        except OSError as error:
            raise ArtworkError(f"the file can't be read ({error.strerror})", where=name) from error
    if len(data) > limit:
        raise _too_large(name, "it is")
    return data


def _kind_of(mode: int) -> str:
    if stat.S_ISDIR(mode):
        return "a directory"
    if stat.S_ISFIFO(mode):
        return "a pipe"
    return "a device" if stat.S_ISCHR(mode) or stat.S_ISBLK(mode) else "a socket"


def _unpacked(file: ArtworkFile, *, limit: int, whole: bool = False) -> bytes:
    """At most `limit` bytes, decompressed if need be; `whole` insists on an undamaged end."""
    if not file.data.startswith(_GZIP):
        return file.data if whole else file.data[:limit]
    unzip = zlib.decompressobj(wbits=31)
    try:
        data = unzip.decompress(file.data, limit)
    except zlib.error as error:
        raise ArtworkError("the compressed file is damaged", where=file.name) from error
    if whole and len(data) < limit and not unzip.eof:
        raise ArtworkError("the compressed file is cut short", where=file.name)
    return data


def _markup(file: ArtworkFile, text: str) -> Format:
    """SVG if an `svg` tag is in sight; other markup is named."""
    lower = text.lower()
    if "<html" in lower or "<!doctype html" in lower:
        raise _refused(file.name, "a web page")
    if "<svg" in lower or ":svg" in lower or "<?xml" in lower or lower.lstrip().startswith("<!"):
        return Format.SVG
    raise ArtworkError("the file is XML but not SVG", where=file.name, remedy=_REMEDY)


def _begins_like_dxf(text: str) -> bool:
    """Whether the first lines are group codes with values, as far as section or comment."""
    lines = [line.strip() for line in text.splitlines()[:200]]
    for code, value in zip(lines[::2], lines[1::2], strict=False):
        if code == "0":
            return value.upper() in {"SECTION", "EOF"}
        if code != "999":
            return False
    return False


def _as_text(head: bytes) -> str:
    for marks in (_UTF16, _UTF16_UNMARKED):
        if head[:2] in marks:
            return head.decode(marks[head[:2]], errors="replace").removeprefix("\ufeff")
    return head.decode("utf-8", errors="replace").removeprefix("\ufeff")


def _is_text(head: bytes) -> bool:
    return b"\x00" not in head


def _refused(name: str, kind: str) -> ArtworkError:
    remedy = "trace it to an outline first, then " + _REMEDY if "picture" in kind else _REMEDY
    return ArtworkError(f"the file is {kind}, not an outline", where=name, remedy=remedy)


def _not_a_file(name: str, kind: str) -> ArtworkError:
    return ArtworkError(f"this is {kind}, not a file", where=name, remedy=_REMEDY)


def _too_large(name: str, how: str) -> ArtworkError:
    return ArtworkError(
        f"{how} larger than {LARGEST_FILE_MB} MB, the most that is read",
        where=name,
        remedy="leave out embedded pictures and everything but the outline",
    )
