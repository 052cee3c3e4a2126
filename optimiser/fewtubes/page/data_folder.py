"""The folder of the painter's own in which the page remembers from run to run."""

import os
from pathlib import Path

from fewtubes.errors import Fault, InputError
from fewtubes.quoting import quoted

__all__ = ["usual_folder"]

ENVIRONMENT_VARIABLE = "FEWTUBES_DATA"


def usual_folder() -> Path | None:
    """Return the folder in FEWTUBES_DATA, or the platform's usual place for a user's own files.

    It need not be there yet. None where the system does not tell whose home it is.

    Raises
    ------
    InputError
        If FEWTUBES_DATA names something that neither is nor can become a folder.
    """
    import platformdirs

    chosen = os.environ.get(ENVIRONMENT_VARIABLE)
    if chosen:
        _note_no_folder(Path(chosen))
        return Path(chosen)
    usual = Path(platformdirs.user_data_dir("fewtubes"))
    return usual if usual.is_absolute() else None


def _note_no_folder(chosen: Path) -> None:
    """Raise `InputError` if a path, or one above it, is there and is no folder."""
    for path in (chosen, *chosen.absolute().parents):
        if os.path.lexists(path):
            if os.path.isdir(path):  # noqa: PTH112  # of what cannot be looked at it says no
                return
            it = "which" if path == chosen else f"but {quoted(str(path))}"
            what = f"is {quoted(str(chosen))}, {it} is no folder"
            advice = "name a folder, there or to be made, or leave it unset"
            raise InputError([Fault(ENVIRONMENT_VARIABLE, f"{what}; {advice}.")])
