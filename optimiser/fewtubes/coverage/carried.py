"""A cache that keeps what it was asked for in memory, to be carried to where there is no disk.

Whoever mixes for others, in other processes or on other machines, hands them this: there it gives
out what it holds, and remembers nothing beyond.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import numpy.typing as npt

from fewtubes.coverage.cache import Arrays, Cache

__all__ = ["CarriedCache"]

NOWHERE = Path()
"""Stands for the folder in names that are made without one."""


@dataclass(frozen=True)
class CarriedCache(Cache):
    """What was looked up or stored, by the names of its files, before any folder.

    Parameters
    ----------
    folder
        Where more is looked for and kept; None for nowhere.
    held
        Arrays by the name of the file that they would be kept in.
    """

    held: dict[str, Mapping[str, npt.NDArray[Any]]] = field(default_factory=dict)

    def load(self, kind: str, basis: Arrays) -> dict[str, npt.NDArray[Any]] | None:
        """Return the arrays held for this basis, else those of the folder, which are then held."""
        name = self._path(NOWHERE, kind, basis).name
        if name not in self.held:
            found = super().load(kind, basis)
            if found is None:
                return None
            self.held[name] = found
        return dict(self.held[name])

    def store(self, kind: str, basis: Arrays, content: Arrays) -> None:
        """Hold arrays for this basis, and keep them in the folder, too."""
        self.held[self._path(NOWHERE, kind, basis).name] = dict(content)
        super().store(kind, basis, content)

    def alone(self) -> "CarriedCache":
        """Return the same without its folder, as it is carried elsewhere."""
        return CarriedCache(None, self.held)
