"""Errors that are raised on purpose: what can go wrong in a way that the painter can put right.

One base class; a message says what was wrong (file, row, value), what is allowed and what to do.
Anything else that is raised is a defect of the program; those it finds in itself are `DefectError`.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from difflib import get_close_matches
from re import findall

from fewtubes.quoting import quoted

__all__ = [
    "ClashError",
    "DefectError",
    "Fault",
    "FewtubesError",
    "InputError",
    "LimitError",
    "OutputError",
    "suggestion",
]

MOST_SUGGESTED = 3
"""Names offered for an unknown one; a line of them."""

LONGEST_ASKED = 200
"""Signs of an unknown name for which others are looked up; a longer one is no slip of the pen."""


class FewtubesError(Exception):
    """The base of every error that fewtubes raises on purpose."""


@dataclass(frozen=True)
class Fault:
    """One thing wrong with the input.

    Parameters
    ----------
    where
        The file, with row or key where known, e.g. ``"tubes.csv, row 7"``.
    what
        One sentence: the value, what is allowed, what to do.
    """

    where: str
    what: str

    def __str__(self) -> str:
        return f"{self.where}: {self.what}"


class InputError(FewtubesError):
    """The catalogue, scenario or command line holds faults; all those found are listed.

    Parameters
    ----------
    faults
        In the order of finding; kept as a tuple under the same name. `Fault.where` is the file
        with row or key, or the name of the field or parameter where Python gave the value.

    Examples
    --------
    >>> from fewtubes import InputError, Scenario
    >>> try:
    ...     Scenario(budget=-1, currency="EUR", flowers=["primrose"], tolerance=21)
    ... except InputError as error:
    ...     [fault.where for fault in error.faults]
    ['budget', 'tolerance']
    """

    def __init__(self, faults: Sequence[Fault]) -> None:
        self.faults = tuple(faults)
        super().__init__("\n".join(str(fault) for fault in self.faults))


class ClashError(FewtubesError):
    """The demands are each valid but cannot all be met; the message names those that clash."""


class DefectError(FewtubesError):
    """The program found itself at fault; what it would have answered is not to be trusted."""


class LimitError(FewtubesError):
    """More time or memory would be needed than there is; the message says how much serves for what.

    Nothing was written.
    """


class OutputError(FewtubesError):
    """A result could not be written; nothing was changed."""


def suggestion(unknown: str, known: Collection[str]) -> str:
    """Return ``" Did you mean …?"`` for the names nearest to an unknown one, or ``""``.

    Names of which it is a word, as ``rose`` is of ``rose, red``, come before names spelt alike.
    """
    if len(unknown) > LONGEST_ASKED:
        return ""
    lower = {name.lower(): name for name in known}
    asked = unknown.lower()
    holding = [name for name in lower if asked in findall(r"\w+", name)]
    alike = get_close_matches(asked, list(lower), n=MOST_SUGGESTED, cutoff=0.6)
    near = list(dict.fromkeys([*holding, *alike]))[:MOST_SUGGESTED]
    if not near:
        return ""
    return f" Did you mean {' or '.join(quoted(lower[name]) for name in near)}?"
