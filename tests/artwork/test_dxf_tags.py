"""Splitting DXF files into tags."""

import numpy as np
import pytest
from dxf_drafts import drafted, ends_of_lines, line, read, tags

from holeplacer.artwork import dxf_tags
from holeplacer.artwork.dxf_tags import tags_of
from holeplacer.errors import ArtworkError

PLAIN = drafted(line(0, 0, 10, 5))


@pytest.mark.parametrize(
    "data",
    [
        PLAIN,
        PLAIN.replace(b"\n", b"\r\n"),
        PLAIN.replace(b"\n", b"\r"),
        b"\xef\xbb\xbf" + PLAIN,
        PLAIN.decode().encode("utf-16"),
        b"\r\n\r\n" + PLAIN,
        PLAIN.rstrip(),
        b"999\nmade by hand\n" + PLAIN,
        PLAIN.replace(b"\n10\n", b"\n 10 \n").replace(b"\n0\n", b"\n\t0\n"),
        PLAIN.replace(b"\n10\n", b"\n  10\n").replace(b"\n5\n", b"\n  5,0  \n"),
        PLAIN.replace(b"\n10\n", b"\n0010\n"),
    ],
    ids=["lf", "crlf", "cr", "bom", "utf16", "blank", "cut", "comment", "tabs", "comma", "zeros"],
)
def test_ways_of_writing_the_same_file(data):
    """Line ends, marks, blanks and decimal commas do not change what is read."""
    assert ends_of_lines(read(data)).tolist() == [[0, 0, 10, 5]]


@pytest.mark.parametrize(
    ("code", "value"), [("ten", 10), ("10.0", 10), ("1 0", 10), ("", 10), ("9999999999", 10)]
)
def test_damage_is_named_by_its_line(code, value):
    """A line that should hold a group code and does not is named, with what it holds."""
    data = drafted(line(0, 0, 1, 1) + tags(code, value))
    row = data.split(b"\n").index(code.encode()) + 1
    with pytest.raises(ArtworkError, match=f"line {row} should hold a group code"):
        read(data)


def test_values_that_are_no_numbers_are_nan():
    """One spoiled number among many costs no other; a blank is no number."""
    found = tags_of(tags(40, 1.5, 40, "x", 40, "", 40, "1e3", 40, "2,5", 40, "nan").encode())
    numbers = found.numbers(np.arange(6))
    assert np.array_equal(numbers, [1.5, np.nan, np.nan, 1000, 2.5, np.nan], equal_nan=True)


def test_two_numbers_in_one_value_do_not_shift_the_others():
    """A value of two numbers is none, and its neighbours keep theirs."""
    found = tags_of(tags(40, 1, 40, "2 3", 40, 4).encode())
    numbers = found.numbers(np.arange(3))
    assert np.array_equal(numbers, [1, np.nan, 4], equal_nan=True)


@pytest.mark.parametrize(
    ("version", "page", "encoded"),
    [
        ("AC1009", "ANSI_1252", "Größe".encode("cp1252")),
        ("AC1015", "ANSI_1251", "Вывеска".encode("cp1251")),
        ("AC1015", "ANSI_932", "看板".encode("cp932")),
        ("AC1027", "ANSI_1252", "看板".encode()),
        ("AC1015", "ANSI_1252", b"\\U+770B\\U+677F"),
    ],
)
def test_text_follows_the_code_page(version, page, encoded):
    """Layer names come out as they were meant, whatever the version wrote them in."""
    header = tags(9, "$ACADVER", 1, version, 9, "$DWGCODEPAGE", 3, page)
    data = drafted(line(0, 0, 1, 1, on="NAME"), header=header).replace(b"NAME", encoded)
    names = [name for name, _, _ in read(data).layers]
    assert names[1] in {"Größe", "Вывеска", "看板"}


def test_spoiled_text_stays_printable():
    """Bytes that fit no encoding never become lone surrogates."""
    header = tags(9, "$ACADVER", 1, "AC1027")
    data = drafted(line(0, 0, 1, 1, on="NAME"), header=header).replace(b"NAME", b"\xff\\U+D800")
    name = read(data).layers[1][0]
    assert name.encode("utf-8").decode() == name


def test_many_lines_cross_the_boundaries_of_a_portion(monkeypatch):
    """Group codes are found however many lines there are."""
    monkeypatch.setattr(dxf_tags, "_LINES_AT_ONCE", 1000)
    data = drafted("".join(line(i, 0, i + 1, 1) for i in range(2000)))
    assert np.array_equal(ends_of_lines(read(data))[:, 0], np.arange(2000))
