"""Records and columns of their values."""

import numpy as np
from dxf_drafts import circle, drafted, line, tags

from holeplacer.artwork.dxf_records import records_of
from holeplacer.artwork.dxf_tags import tags_of


def records(text):
    return records_of(tags_of(drafted(text)))


def test_columns_keep_to_their_record():
    """A value missing in one record is not borrowed from the next."""
    found = records(tags(0, "CIRCLE", 10, 1) + circle(2, 0, 7))
    chosen = found.named("CIRCLE")
    assert np.array_equal(found.column(chosen, 40), [np.nan, 7], equal_nan=True)
    assert found.column(chosen, 10).tolist() == [1, 2]
    assert found.column(chosen, 999, 5).tolist() == [5, 5]


def test_rows_collect_what_repeats():
    """All values of a code come with the record they are of."""
    found = records(tags(0, "A", 10, 1, 10, 2, 0, "A", 0, "A", 10, 3))
    rows = found.rows(found.named("A"), 10)
    assert rows.first.tolist() == [0, 2, 2, 3]
    assert [rows.of(index).tolist() for index in range(3)] == [[1, 2], [], [3]]


def test_flags_survive_nonsense():
    """Flags that are no numbers, or endless, count as none or as large as a flag can be."""
    found = records(tags(0, "A", 70, "x", 0, "A", 70, "1e400", 0, "A", 70, 1e300, 0, "A", 70, -3))
    assert found.flags(found.named("A"), 70).tolist() == [0, 0, 2**31, -3]


def test_names_are_capitals():
    """Entities written in small letters are the same entities."""
    found = records(line(0, 0, 1, 1).replace("LINE", "line"))
    assert len(found.named("LINE")) == 1


def test_texts_of_many_records():
    """Text values come one for each record, empty where there is none."""
    found = records(tags(0, "A", 2, "x", 0, "A", 0, "A", 2, " y "))
    assert found.texts(found.named("A"), 2) == ["x", "", "y"]
    assert found.text(int(found.named("A")[2]), 2) == "y"
