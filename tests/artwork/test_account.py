"""The import account is a plain value."""

from holeplacer.artwork.account import Entry, ImportAccount


def test_an_empty_account_holds_nothing() -> None:
    """Until something is read, mended or ignored."""
    account = ImportAccount()
    assert (account.read, account.mended, account.ignored) == ((), (), ())


def test_entries_compare_by_value() -> None:
    """So that two readings of one file can be compared."""
    assert Entry("SPLINE", "0", 3) == Entry("SPLINE", "0", 3, None)
    assert Entry("SPLINE", "0") != Entry("SPLINE", "0", xy_mm=(0.0, 0.0))
