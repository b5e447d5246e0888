"""Whole, damaged and broken-off files."""

import ezdxf
import pytest
from dxf_drafts import circle, drafted, ends_of_lines, entries, line, read, saved, section, tags

from holeplacer.errors import ArtworkError

LINES = "".join(line(i, 0, i, 9) for i in range(20))


def test_missing_end_mark_is_done_without():
    """A file whose last section is closed is read, and the account says what was missing."""
    drawing = read(drafted(LINES, end=""))
    assert len(ends_of_lines(drawing)) == 20
    assert entries(drawing.account.mended) == {
        ("the end mark of the file was missing", "the file"): 1
    }


def test_missing_end_of_section_is_done_without():
    """An end mark without the end of the section before it is mended too."""
    data = drafted(LINES).replace(b"0\nENDSEC\n0\nEOF", b"0\nEOF")
    drawing = read(data)
    assert len(ends_of_lines(drawing)) == 20
    assert "ENTITIES section" in drawing.account.mended[0].what


@pytest.mark.parametrize("version", ["R12", "R2000", "R2018"])
def test_a_cut_file_is_never_half_a_sign(version):
    """Wherever among its entities a file is cut, it is refused; after them it reads whole."""
    doc = ezdxf.new(version)
    for i in range(20):
        doc.modelspace().add_circle((i, 0), 1)
    data = saved(doc)
    begin = data.index(b"ENTITIES")
    end = data.index(b"ENDSEC", begin)
    for length in range(begin + 12, end, 53):
        with pytest.raises(ArtworkError, match="breaks off"):
            read(data[:length])
    assert len(read(data[: end + 7]).contours) == 20
    with pytest.raises(ArtworkError, match="breaks off"):
        read(data[: begin // 2])


def test_damage_after_the_drawing_is_passed_over():
    """Rubbish in a section that holds no entities costs nothing but a line in the account."""
    data = drafted(LINES, end=section("OBJECTS", "rubbish\nrubbish\n") + tags(0, "EOF"))
    drawing = read(data)
    assert len(ends_of_lines(drawing)) == 20
    assert any("passed over" in entry.what for entry in drawing.account.mended)


def test_sections_given_twice_are_one():
    """Two ENTITIES sections are read together."""
    data = section("ENTITIES", line(0, 0, 1, 1)) + section("ENTITIES", line(2, 2, 3, 3))
    assert len(ends_of_lines(read((data + tags(0, "EOF")).encode()))) == 2


@pytest.mark.parametrize(
    ("data", "sentence"),
    [
        (b"", "breaks off in its first lines"),
        (b"0\nEOF\n", "breaks off in its first lines"),
        (drafted(""), "nothing is drawn"),
        (section("HEADER", tags(9, "$ACADVER", 1, "AC1009")).encode() + b"0\nEOF\n", "no ENTITIES"),
        (b"0\nSECTION\n" + b"\n" * 1000, "breaks off"),
        (b"0\n" * 1000, "breaks off"),
        (b"0\nSECTION\n2\nENTITIES\n" + b"x" * 100_000, "breaks off"),
        (bytes(range(256)) * 10, "breaks off"),
        (circle().encode(), "breaks off"),
    ],
    ids=["nothing", "eof", "empty", "header", "newlines", "zeros", "long", "bytes", "bare"],
)
def test_files_without_a_drawing_are_one_sentence(data, sentence):
    """Whatever else the bytes are, the answer is one sentence that names the file."""
    with pytest.raises(ArtworkError, match=sentence) as caught:
        read(data)
    assert str(caught.value).startswith("sign.dxf: ")
