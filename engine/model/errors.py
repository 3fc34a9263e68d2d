"""What can go wrong, each a sentence for the person.

    SpineryError
    ├── InputError          a file or an argument from outside cannot be used
    │   ├── ListError       ... a list of games
    │   ├── PictureError    ... a picture
    │   ├── CaseError       ... a case kind
    │   └── FontError       ... a font
    ├── CollectionError     the folder on disk cannot be read or written
    │   ├── ReadOnlyError   ... because another program has it open
    │   ├── DamagedError    ... because its file is damaged or gone
    │   ├── ChangedError    ... because its file was changed by something else meanwhile
    │   └── UnconfirmedError    ... was written, but the disk did not confirm it
    ├── PrinterError        a printer is not there, or does not print
    └── RefusedError        asked for something the state of the work does not allow

Every one carries where it happened (a file, a game, a field), what is wrong there, and
what to do about it. ``str`` gives the whole sentence, the form in which it is shown.
"""

from __future__ import annotations

from engine.model.plain import plain


class SpineryError(Exception):
    """Something the person can put right."""

    def __init__(self, where: str, what: str, mend: str = "") -> None:
        """Keep ``where`` it happened, ``what`` is wrong and how to ``mend`` it.

        ``what`` and ``mend`` are written without a full stop: ``str`` adds them.
        """
        super().__init__(where, what, mend)
        self.where = where
        self.what = what
        self.mend = mend

    def __str__(self) -> str:
        """Return one line: where, what, and the mend."""
        said = f"{self.where}: {self.what}." if self.where else f"{self.what}."
        return plain(f"{said} {self.mend}." if self.mend else said)


class InputError(SpineryError):
    """A file or an argument from outside cannot be used."""


class ListError(InputError):
    """A list of games cannot be read."""


class PictureError(InputError):
    """A picture cannot be opened safely."""


class CaseError(InputError):
    """A case kind is unknown or its description is wrong."""


class FontError(InputError):
    """A font cannot be used, or lacks what a title needs."""


class CollectionError(SpineryError):
    """The folder on disk cannot be read or written."""


class ReadOnlyError(CollectionError):
    """Nothing may be changed here, as where another program has the collection open."""


class DamagedError(CollectionError):
    """The collection's file is damaged or gone; it was left as it is."""


class ChangedError(CollectionError):
    """The collection's file is not as it was left: something else wrote it. Both are kept."""


class UnconfirmedError(CollectionError):
    """It was done and stands in its place, but the disk did not say that it will stay there."""


class PrinterError(SpineryError):
    """A printer is not there, takes no jobs, or did not print."""


class RefusedError(SpineryError):
    """Asked for something that the state of the work does not allow."""
