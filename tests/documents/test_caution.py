"""Cautions."""

from holeplacer.documents import caution


def test_the_caution_defers_to_code_and_engineer():
    """Both forms call the figures estimates and name who decides."""
    for text in (caution.SHORT, " ".join(caution.FULL)):
        assert all(word in text for word in ("stimates", "ocal code", "licensed engineer"))
    assert "60 ft" in " ".join(caution.FULL)


def test_the_short_form_is_one_line_without_commas_that_split_a_table():
    """It fits one line of a terminal result and has no line break."""
    assert "\n" not in caution.SHORT
    assert len(caution.SHORT) < 180


def test_every_danger_of_the_work_is_named():
    """Drilling, power lines, height, lifting, fire, fume, eyes and hands."""
    text = " ".join(caution.FULL)
    for word in ("wires", "power lines", "fall protection", "two people", "watch for fire",
                 "fume", "eyes", "hands"):  # fmt: skip
        assert word in text
