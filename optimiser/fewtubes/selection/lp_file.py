"""The integer program as a file in the LP format, which other solvers read.

PuLP writes it. What is said of it besides stands at its head, in lines that begin with a backslash.
"""

from collections.abc import Iterable
from pathlib import Path
from tempfile import TemporaryDirectory

from fewtubes.selection.instance import ChoiceInstance
from fewtubes.selection.model import build_model
from fewtubes.selection.program_names import ProgramNames

__all__ = ["lp_text"]

LONGEST_NAME = 255
"""Signs of a name that solvers take (the LP file format of CPLEX)."""


def lp_text(
    instance: ChoiceInstance, *, names: ProgramNames | None = None, said: Iterable[str] = ()
) -> str:
    """Return the program as it stands before the first stage, the same at every call.

    Parameters
    ----------
    instance
        The instance.
    names
        What tubes and samples are called; their numbers if None.
    said
        Lines for the head of the file, of printable signs.
    """
    with TemporaryDirectory() as folder:
        path = Path(folder) / "choice_of_tubes.lp"
        build_model(instance, names=names).problem.writeLP(str(path), max_length=LONGEST_NAME)
        text = path.read_text(encoding="utf-8")
    return "".join(f"\\ {line}\n" for line in said) + text
