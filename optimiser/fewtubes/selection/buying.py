"""What a search over an instance with terms knows of buying."""

from collections.abc import Callable
from dataclasses import dataclass

import numpy as np

from fewtubes.masks import BoolArray
from fewtubes.selection.least_paint import LeastPaint
from fewtubes.selection.packed import IntArray
from fewtubes.selection.terms import OUT_OF_REACH
from fewtubes.selection.ways import Ways

__all__ = ["Buying"]


@dataclass(frozen=True, eq=False)
class Buying:
    """What palettes cost: truly, and by addition in each way to buy them."""

    cost: Callable[[tuple[int, ...], int], int | None]
    """Called with tubes added and money; what they and the held ones cost, None if it is more
    [hundredths of the currency]."""
    must_serve: bool
    """Whether palettes with a tube that could stay away at no loss are not looked at."""
    ways: Ways
    base: IntArray
    """What each way costs with the held tubes alone, shape (ways,)."""
    least_paint: Callable[[float], LeastPaint | None] | None = None
    """As of `Terms`."""

    @classmethod
    def of(
        cls,
        ways: Ways,
        held: BoolArray,
        cost: Callable[[tuple[int, ...], int], int | None],
        *,
        must_serve: bool,
        least_paint: Callable[[float], LeastPaint | None] | None = None,
    ) -> "Buying":
        """Return it for tubes held, shape (n,)."""
        base = ways.fixed + ways.prices[:, held].sum(axis=1)
        return cls(cost, must_serve, ways, base, least_paint)

    def costs(self, added: IntArray, ways: IntArray) -> IntArray:
        """Return what held and added tubes cost at least, each in its way.

        Parameters
        ----------
        added
            Tubes added, shape (branches, depth).
        ways
            The way of each branch, shape (branches,).
        """
        prices = np.take_along_axis(self.ways.prices[ways], added, axis=1)
        return np.asarray(self.base[ways] + prices.sum(axis=1))

    def likely_with_each(self, added: IntArray) -> IntArray:
        """Return what palettes are likely to cost with each further tube.

        Parameters
        ----------
        added
            Tubes added, shape (palettes, depth).

        Returns
        -------
        Shape (palettes, n): mostly the true cost or somewhat more; it proves nothing.
        """
        found = np.full((len(added), self.ways.prices.shape[1]), OUT_OF_REACH, dtype=np.int64)
        for base, prices, sure in zip(
            self.base, self.ways.prices, self.ways.sure_from, strict=True
        ):
            if sure < OUT_OF_REACH:
                sums = (base + prices[added].sum(axis=1))[:, None] + prices
                found = np.where(sums >= sure, np.minimum(found, sums), found)
        return found

    def likely(self, added: IntArray) -> IntArray:
        """Return the same for palettes as they are, (palettes, depth) to (palettes,)."""
        found = np.full(len(added), OUT_OF_REACH, dtype=np.int64)
        for base, prices, sure in zip(
            self.base, self.ways.prices, self.ways.sure_from, strict=True
        ):
            if sure < OUT_OF_REACH:
                sums = base + prices[added].sum(axis=1)
                found = np.where(sums >= sure, np.minimum(found, sums), found)
        return found
