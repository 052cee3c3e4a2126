"""Where the demo catalogue lies: inside the installed package, or beside the source code."""

from importlib.resources import files
from pathlib import Path

from fewtubes.errors import Fault, InputError

__all__ = ["demo_catalogue_folder"]


def demo_catalogue_folder() -> Path:
    """Return the folder of the demo catalogue's tables."""
    package = Path(str(files("fewtubes")))
    packaged = package / "demo_catalogue"
    in_source = package.parents[1] / "catalogue"
    for folder in (packaged, in_source):
        if folder.is_dir():
            return folder
    raise InputError(
        [Fault("demo catalogue", "is missing from this copy of fewtubes; install it again.")]
    )
