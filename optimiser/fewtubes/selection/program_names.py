"""What tubes and samples are called in the integer program, so that an exported file reads well."""

import re
import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass

from fewtubes.selection.instance import ChoiceInstance

__all__ = ["LONGEST_LABEL", "ProgramNames", "labels"]

LONGEST_LABEL = 40
"""Signs of a label; the longest name holds four of them and fewer than 30 signs besides."""

UNFIT = re.compile("[^A-Za-z0-9]+")
"""What is put down as one underscore. The format allows more signs, but no solver minds these.

A label without two underscores in a row can be told from its neighbours in a name."""


@dataclass(frozen=True)
class ProgramNames:
    """A label for each tube, sample and seller, by number, no two alike."""

    tubes: tuple[str, ...]
    samples: tuple[str, ...]
    sellers: tuple[str, ...] = ()
    """Their numbers where there is none."""

    @classmethod
    def numbers(cls, instance: ChoiceInstance) -> "ProgramNames":
        """Return the numbers themselves."""
        return cls(
            tuple(map(str, range(instance.tube_count))),
            tuple(map(str, range(len(instance.weights)))),
        )


def labels(names: Iterable[str]) -> tuple[str, ...]:
    """Return names as an LP file may hold them, in their order, no two alike.

    Letters lose their accents, whatever else is no letter or digit becomes an underscore, and what
    would be alike, also but for capitals, is told apart by a number.

    Parameters
    ----------
    names
        Any texts; the same ones give the same labels.
    """
    taken: set[str] = set()
    found = []
    for place, name in enumerate(names):
        plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode("ascii")
        start = UNFIT.sub("_", plain).strip("_")[:LONGEST_LABEL].strip("_") or f"no_{place}"
        label, count = start, 1
        while label.casefold() in taken:
            count += 1
            label = f"{start[: LONGEST_LABEL - len(str(count)) - 1].rstrip('_')}_{count}"
        taken.add(label.casefold())
        found.append(label)
    return tuple(found)
