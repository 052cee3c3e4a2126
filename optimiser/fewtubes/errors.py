"""Errors that are raised on purpose: what can go wrong in a way that the painter can put right.

One base class; a message says what was wrong (file, row, value), what is allowed and what to do.
Anything else that is raised is a defect of the program; those it finds in itself are `DefectError`.
"""

from collections.abc import Collection, Sequence
from dataclasses import dataclass
from difflib import SequenceMatcher, get_close_matches
from re import findall
from unicodedata import combining, normalize

from fewtubes.quoting import quoted

__all__ = [
    "LONGEST_ASKED",
    "MOST_SUGGESTED",
    "ClashError",
    "DefectError",
    "Fault",
    "FewtubesError",
    "InputError",
    "LimitError",
    "OutputError",
    "offered",
    "plain_letters",
    "suggestion",
]

MOST_SUGGESTED = 3
"""Names offered for an unknown one; a line of them."""

ALIKE, SLIP = 0.65, 0.72
"""Likeness of spelling from which a name is offered, and from which a word in it is one with a slip
[0–1]; our own. ``rose`` and ``crocus`` are alike by 0.6."""

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

    Names that hold its words, as ``rose, red`` holds ``rose``, come before names spelt alike.
    """
    if len(unknown) > LONGEST_ASKED:
        return ""
    bare = {plain_letters(name): name for name in known}
    asked = plain_letters(unknown)
    alike = get_close_matches(asked, list(bare), n=MOST_SUGGESTED, cutoff=ALIKE)
    near = list(dict.fromkeys([*_sharing_words(asked, list(bare)), *alike]))[:MOST_SUGGESTED]
    return offered([bare[name] for name in near])


def _sharing_words(asked: str, names: Sequence[str]) -> list[str]:
    """Return the names that hold most of the words asked for, slips allowed, the nearest first."""
    words = {name: set(findall(r"\w+", name)) for name in names}
    every = list(dict.fromkeys(word for held in words.values() for word in held))
    meant = [
        {word} if word in every else set(get_close_matches(word, every, MOST_SUGGESTED, SLIP))
        for word in dict.fromkeys(findall(r"\w+", asked))
    ]
    shared = {name: sum(bool(held & one) for one in meant) for name, held in words.items()}
    most = max(shared.values(), default=0)
    best = [name for name in names if 0 < shared[name] == most]
    return sorted(best, key=lambda name: -SequenceMatcher(None, asked, name).ratio())


def offered(names: Sequence[str]) -> str:
    """Return ``" Did you mean …?"`` for names, ``""`` for none."""
    return f" Did you mean {' or '.join(map(quoted, names))}?" if names else ""


def plain_letters(text: str) -> str:
    """Return a text in small letters without accents, in which names are compared."""
    if text.isascii():
        return text.lower()
    apart = normalize("NFKD", text.casefold())
    return "".join(sign for sign in apart if not combining(sign))
