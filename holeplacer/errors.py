"""Every error a person can meet, as one tree.

    HoleplacerError          what, where, what to do
    ├── ArtworkError         the artwork can't be read or used
    │   └── UnitsMissing     the drawing states no units and none were given
    ├── PlanFileError        a plan file can't be read or written
    ├── InputError           a value typed by a person can't be used
    ├── ExportError          a drawing or list could not be written, or failed its read-back
    └── Cancelled            the person stopped the work

Bad input is an error, a bad design is a finding, mended input is a note: never mixed.
"""


class HoleplacerError(Exception):
    """Root of the tree: one clear sentence made of what, where and what to do.

    Attributes:
        what: What is wrong, in a few words.
        where: The file, layer, field or place it concerns; may be empty.
        remedy: What the person can do about it; may be empty.
    """

    def __init__(self, what: str, *, where: str = "", remedy: str = "") -> None:
        """Keep the three parts; `str()` joins them to one sentence."""
        super().__init__(what)
        self.what = what
        self.where = where
        self.remedy = remedy

    def __str__(self) -> str:
        """Join to `where: what; remedy`, ended with a full stop."""
        sentence = f"{self.where}: {self.what}" if self.where else self.what
        return f"{sentence}; {self.remedy}." if self.remedy else f"{sentence}."


class ArtworkError(HoleplacerError):
    """The artwork can't be read or used."""


class UnitsMissing(ArtworkError):  # noqa: N818 (says what is the matter, not that it is an error)
    """The drawing states no units and none were given."""


class PlanFileError(HoleplacerError):
    """A plan file can't be read or written."""


class InputError(HoleplacerError):
    """A value typed by a person can't be used."""


class ExportError(HoleplacerError):
    """A drawing or list could not be written, or failed its read-back."""


class Cancelled(HoleplacerError):  # noqa: N818 (a decision of the person, not a fault)
    """The person stopped the work."""
