"""What becomes of a catalogue: files still to be written, and what is to be said of them."""

from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from fewtubes.keeping.kept_catalogue import (
    KeptCatalogue,
    changed_files,
    earlier_texts,
    looked_through,
)
from fewtubes.keeping.merging import Merged
from fewtubes.keeping.pack_sellers import unnamed_told

__all__ = ["Outcome", "outcome"]


@dataclass(frozen=True)
class Outcome:
    """A catalogue as it is to be, looked through and found sound."""

    folder: Path
    files: Mapping[str, str]
    """Text of every table that is new or changes, by file name; none if all stays as it is."""
    merged: Merged
    before: KeptCatalogue | None = None
    """The tables as they were read; None if there were none."""
    told: tuple[str, ...] = ()
    """What else the painter should know, a sentence each."""

    @property
    def earlier(self) -> Mapping[str, str | None]:
        """What the files hold that are to be written, by name; None for one that is new."""
        return earlier_texts(self.before, self.files)


def outcome(
    folder: Path, before: KeptCatalogue | None, merged: Merged, *, told: tuple[str, ...] = ()
) -> Outcome:
    """Return what is to be written into a folder.

    Parameters
    ----------
    folder, before
        The folder, and its tables as they stand; None if there are none.
    merged
        The tables as they are to be.
    told
        What the painter should know besides.

    Raises
    ------
    InputError
        With every fault of the tables as they would be.
    """
    looked_through(merged.kept)
    files = changed_files(before, merged.kept)
    unnamed = unnamed_told(merged.kept, merged.packs)
    return Outcome(folder, files, merged, before, told=(*merged.told, *told, *unnamed))
