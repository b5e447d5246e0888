"""Tags: a DXF file as pairs of a group code and a value, kept as arrays over its bytes.

A drawing may hold a million loose lines, which is twelve million tags; a library's object for
each of its entities would cost minutes and gigabytes (ezdxf 1.4.5, measured: 34 s and 1.1 GB on
an idle machine). So lines are found and group codes are read with numpy, and values stay bytes
until somebody asks for them.
"""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from holeplacer.artwork import dxf_binary
from holeplacer.errors import ArtworkError

Indices = NDArray[np.intp]
Floats = NDArray[np.float64]

_LARGEST_CODE = 1071
_NO_CODE = -999
_LINES_AT_ONCE = 1_000_000
_CODE_WIDTH = 6
_UTF8_SINCE = "AC1021"
_USUAL_PAGE = "ANSI_1252"
_MARKS = {b"\xff\xfe": "utf-16", b"\xfe\xff": "utf-16"}


@dataclass(frozen=True, eq=False)
class Tags:
    """All tags of a file, as far as it is sound.

    Attributes:
        data: Bytes with lines ended by a line feed.
        code: (n,) group codes.
        start: (n,) where each value starts in `data`.
        end: (n,) where it ends.
        encoding: Of text values.
        damage: What is wrong after the last tag; "" if the file ends where a line does.
    """

    data: bytes
    code: NDArray[np.int16]
    start: NDArray[np.int32]
    end: NDArray[np.int32]
    encoding: str
    damage: str

    def raw(self, tags: Indices) -> list[bytes]:
        """Values as bytes without surrounding blanks."""
        data = self.data
        spans = zip(self.start[tags].tolist(), self.end[tags].tolist(), strict=True)
        return [data[start:end].strip() for start, end in spans]

    def text(self, tag: int) -> str:
        """One value as text."""
        return self.decoded(self.data[self.start[tag] : self.end[tag]].strip())

    def decoded(self, value: bytes) -> str:
        r"""Text of a value: in the file's encoding, `\U+XXXX` and `\M+nXXXX` resolved."""
        text = value.decode(self.encoding, errors="replace")
        if "\\" in text:
            # The DXF library is slow to load, and few files need it to be read.
            from ezdxf.lldxf.encoding import decode_dxf_unicode, decode_mif_to_unicode

            text = decode_mif_to_unicode(decode_dxf_unicode(text))
        return text.encode("utf-8", errors="replace").decode("utf-8")

    def numbers(self, tags: Indices) -> Floats:
        """Values as floats, NaN where they are no numbers; a decimal comma is taken as a point."""
        start = self.start[tags]
        length = self.end[tags] - start + 1
        if len(tags) == 0 or length.min() == 1:
            return self._one_by_one(tags)
        first = np.cumsum(length) - length
        at = np.arange(length.sum(), dtype=np.int32)
        at += np.repeat((start - first).astype(np.int32), length)
        characters = np.frombuffer(self.data, dtype=np.uint8)
        at[-1] = min(at[-1], len(characters) - 1)
        written = characters[at]
        if written.max() <= ord("0"):
            return np.zeros(len(tags))
        try:
            values = np.fromstring(written.tobytes(), dtype=float, sep="\n")
        except (ValueError, DeprecationWarning):
            return self._one_by_one(tags)
        return values if len(values) == len(tags) else self._one_by_one(tags)

    def _one_by_one(self, tags: Indices) -> Floats:
        """Slower, for values that are not all numbers."""
        return np.array([_number(value) for value in self.raw(tags)], dtype=float)


def tags_of(data: bytes) -> Tags:
    """Split a DXF file, text or binary, into its tags.

    Raises:
        ArtworkError: A binary file is damaged or too large.
    """
    if dxf_binary.is_binary(data):
        return _split(dxf_binary.as_text(data), "utf-8")
    if data[:2] in _MARKS:
        return _split(data.decode(_MARKS[data[:2]], errors="replace").encode("utf-8"), "utf-8")
    return _split(data.removeprefix(b"\xef\xbb\xbf"), None)


def _split(data: bytes, encoding: str | None) -> Tags:
    data = data.lstrip(b"\r\n")
    if b"\r" in data:
        data = data.replace(b"\r\n", b"\n").replace(b"\r", b"\n")
    characters = np.frombuffer(data, dtype=np.uint8)
    ends = np.flatnonzero(characters == ord("\n")).astype(np.int32)
    if len(data) and not data.endswith(b"\n"):
        ends = np.append(ends, np.int32(len(data)))
    starts = np.empty_like(ends)
    starts[:1], starts[1:] = 0, ends[:-1] + 1
    whole = len(ends) // 2 * 2
    code = _codes(data, characters, starts[:whole:2], ends[:whole:2])
    damage = "" if whole == len(ends) else f"it ends after the group code in line {whole + 1}"
    bad = np.flatnonzero(code == _NO_CODE)
    sound = int(bad[0]) if len(bad) else len(code)
    if len(bad):
        line = 2 * sound
        held = data[starts[line] : ends[line]][:30].decode("utf-8", errors="replace")
        damage = f"line {line + 1} should hold a group code but holds {held!r}"
    start, end = starts[1:whole:2][:sound].copy(), ends[1:whole:2][:sound].copy()
    return Tags(data, code[:sound], start, end, encoding or _encoding(data), damage)


def _codes(
    data: bytes,
    characters: NDArray[np.uint8],
    starts: NDArray[np.int32],
    ends: NDArray[np.int32],
) -> NDArray[np.int16]:
    """Group codes of lines, `_NO_CODE` where a line holds none."""
    codes = np.empty(len(starts), dtype=np.int16)
    padded = np.append(characters, np.zeros(_CODE_WIDTH, dtype=np.uint8))
    for first in range(0, len(starts), _LINES_AT_ONCE):
        part = slice(first, first + _LINES_AT_ONCE)
        codes[part] = _codes_at_once(padded, starts[part], ends[part])
    for index in np.flatnonzero(codes == _NO_CODE).tolist():
        codes[index] = _odd_code(data[starts[index] : ends[index]])
        if codes[index] == _NO_CODE:
            break
    return codes


def _codes_at_once(
    padded: NDArray[np.uint8], starts: NDArray[np.int32], ends: NDArray[np.int32]
) -> NDArray[np.int32]:
    """Codes written plainly: blanks, then digits."""
    value = np.zeros(len(starts), dtype=np.int32)
    digits = np.zeros(len(starts), dtype=np.int8)
    plain = ends - starts <= _CODE_WIDTH
    for offset in range(_CODE_WIDTH):
        inside = starts + offset < ends
        character = padded[starts + offset]
        digit = character - np.uint8(ord("0"))
        is_digit = inside & (digit < 10)
        value = np.where(is_digit, value * 10 + digit, value)
        digits += is_digit
        plain &= is_digit | ~inside | ((character == ord(" ")) & (digits == 0))
    return np.where(plain & (digits > 0) & (value <= _LARGEST_CODE), value, _NO_CODE)


def _odd_code(line: bytes) -> int:
    """A code with a sign, tabs or trailing blanks."""
    try:
        code = int(line)
    except ValueError:
        return _NO_CODE
    return code if -5 <= code <= _LARGEST_CODE else _NO_CODE


def _number(value: bytes) -> float:
    for text in (value, value.replace(b",", b".")):
        try:
            return float(text)
        except ValueError:
            continue
    return float("nan")


def _encoding(data: bytes) -> str:
    """Encoding by the header: UTF-8 since version 2007, a code page before."""
    head = data[:20_000]
    version = _header_value(head, b"$ACADVER")
    if version >= _UTF8_SINCE:
        return "utf-8"
    page = _header_value(head, b"$DWGCODEPAGE")
    if page in ("", _USUAL_PAGE):
        return "cp1252"
    from ezdxf.tools.codepage import toencoding  # slow to load, and few files need it

    return toencoding(page)


def _header_value(head: bytes, name: bytes) -> str:
    lines = head.partition(name + b"\n")[2].split(b"\n", 2)
    return lines[1].strip().decode("ascii", errors="replace") if len(lines) > 2 else ""


def broken_off(tags: Tags, where: str) -> ArtworkError:
    """The error for a file that ends or is damaged within a part that is needed."""
    reason = f" ({tags.damage})" if tags.damage else ""
    return ArtworkError(
        f"the file breaks off in its {where}{reason}",
        remedy="ask for a complete copy, or save the drawing again",
    )
