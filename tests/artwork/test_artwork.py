"""A file is kept as it came."""

from svg_drafts import read, svg


def test_a_file_compares_by_name_and_bytes() -> None:
    """It is part of the plan, which compares by value."""
    assert svg("<g/>") == svg("<g/>")
    assert svg("<g/>") != svg("<a/>")


def test_artwork_is_compared_by_identity() -> None:
    """It holds arrays."""
    one, other = (read('<rect width="9" height="9"/>') for _ in range(2))
    assert one != other
