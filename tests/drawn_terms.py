"""Small sets of terms drawn at random, and all purchases there are under them, listed plainly.

Nothing of the code under test is used but the records: costs, deliveries and needs are counted here
for every possible number of every thing at once, as rows of arrays.
"""

import random
from collections.abc import Callable
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from fewtubes.selection.terms import Need, PackOnSale, Purchase, SellerTerms, SetOnSale, Terms

__all__ = ["AllPurchases", "draw_terms", "drawn_needs", "needs_by_palette"]

MOST_ROWS = 30_000
"""Purchases listed at most for one set of terms."""

UNLIMITED = 5
"""Counts tried of what is in any stock; sums and needs are drawn so that more is never of use."""


def draw_terms(seed: int | str, tubes: int) -> Terms:
    """Draw terms of one to three sellers for some tubes, with all that makes a purchase tricky."""
    rng = random.Random(f"terms {seed}")  # noqa: S311  # no secrets are drawn
    dear = rng.choice((1, 1, 7, 100))
    while True:
        terms = _drawn(rng, tubes, dear)
        rows = 1
        for stock in _stocks(terms):
            rows *= 1 + _most(stock)
        if rows <= MOST_ROWS:
            return terms


def _drawn(rng: random.Random, tubes: int, dear: int) -> Terms:
    sellers = tuple(
        SellerTerms(
            delivery=dear * rng.choice((0, 1, 3, 5)),
            free_from=rng.choice((None, dear * rng.randint(1, 14))),
            least_order=dear * rng.choice((0, 0, 0, 4, 9)),
        )
        for _ in range(rng.randint(1, 3))
    )
    packs = []
    for tube in range(tubes):
        for _ in range(rng.choice((0, 1, 1, 1, 2))):
            price, stock = dear * rng.randint(4, 9), rng.choice((1, 1, 1, 2, None))
            packs.append(
                PackOnSale(
                    tube=tube,
                    seller=rng.randrange(len(sellers)),
                    amount=1000 * rng.choice((5, 5, 10, 20)),
                    price=price,
                    price_of_more=rng.choice(
                        (None, price - dear, price - (3 if stock else 1) * dear)
                    ),
                    stock=stock,
                )
            )
    sets = []
    for _ in range(rng.choice((0, 0, 1, 1, 2))):
        held = sorted(rng.sample(range(tubes), min(tubes, rng.randint(1, 3))))
        sets.append(
            SetOnSale(
                seller=rng.randrange(len(sellers)),
                price=dear * rng.randint(4, 18),
                holds=tuple(
                    (tube, rng.choice((1, 1, 2)), 1000 * rng.choice((2, 5))) for tube in held
                ),
                stock=rng.choice((1, 1, 2)),
            )
        )
    needs = drawn_needs(rng, tubes)
    return Terms(sellers, tuple(packs), tuple(sets), needs)


def drawn_needs(rng: random.Random, tubes: int) -> tuple[Need, ...]:
    """Draw needs of which most are one container of any size."""
    return tuple(
        Need(1000 * rng.choice((0, 0, 0, 5, 7, 15)), rng.choice((1, 1, 1, 2))) for _ in range(tubes)
    )


def needs_by_palette(
    least: tuple[Need, ...],
) -> Callable[[tuple[int, ...]], tuple[Need, ...]]:
    """Return needs that depend on the palette, up and down, never below the least."""

    def needs_of(bought: tuple[int, ...]) -> tuple[Need, ...]:
        mixed = 7 * sum(bought) + len(bought)
        return tuple(
            Need(least[tube].amount + 3000 * (mixed * (tube + 3) % 4), least[tube].containers)
            for tube in bought
        )

    return needs_of


def _stocks(terms: Terms) -> list[int | None]:
    return [pack.stock for pack in terms.packs] + [box.stock for box in terms.sets]


def _most(stock: int | None) -> int:
    return UNLIMITED if stock is None else stock


@dataclass(frozen=True, eq=False)
class AllPurchases:
    """Every purchase there is under some terms."""

    terms: Terms
    counts: npt.NDArray[np.int64]
    """Of packs, then of sets, shape (purchases, things)."""
    costs: npt.NDArray[np.int64]
    """With deliveries, shape (purchases,)."""
    sellers: npt.NDArray[np.int64]
    """How many something is bought from, shape (purchases,)."""
    containers: npt.NDArray[np.int64]
    paint: npt.NDArray[np.int64]
    """Of each tube, shapes (purchases, tubes)."""

    @classmethod
    def under(cls, terms: Terms) -> "AllPurchases":
        """List them; those below a least order are left out."""
        most = [_most(stock) for stock in _stocks(terms)]
        grids = np.meshgrid(*(np.arange(n + 1) for n in most), indexing="ij")
        counts = np.stack([g.ravel() for g in grids], axis=1) if most else np.zeros((1, 0), int)
        goods = np.zeros((len(counts), len(terms.sellers)), dtype=np.int64)
        containers = np.zeros((len(counts), len(terms.needs)), dtype=np.int64)
        paint = np.zeros_like(containers)
        for n, pack in zip(counts.T, terms.packs, strict=False):
            more = pack.price if pack.price_of_more is None else pack.price_of_more
            goods[:, pack.seller] += np.where(n == 1, pack.price, n * more)
            containers[:, pack.tube] += n
            paint[:, pack.tube] += n * pack.amount
        for n, box in zip(counts.T[len(terms.packs) :], terms.sets, strict=True):
            goods[:, box.seller] += n * box.price
            for tube, held, amount in box.holds:
                containers[:, tube] += n * held
                paint[:, tube] += n * amount
        costs, sold = goods.sum(axis=1), np.ones(len(counts), dtype=bool)
        for money, asked in zip(goods.T, terms.sellers, strict=True):
            sold &= (money == 0) | (money >= asked.least_order)
            free = asked.free_from is not None and money >= asked.free_from
            costs += np.where((money > 0) & ~np.asarray(free), asked.delivery, 0)
        used = (goods > 0).sum(axis=1)
        return cls(terms, counts[sold], costs[sold], used[sold], containers[sold], paint[sold])

    def serving(
        self, bought: tuple[int, ...], needed: Callable[[tuple[int, ...]], tuple[Need, ...]]
    ) -> npt.NDArray[np.intp]:
        """Return the rows of the purchases that hold what is needed of tubes."""
        serve = np.ones(len(self.costs), dtype=bool)
        for tube, need in zip(bought, needed(bought), strict=True):
            serve &= self.containers[:, tube] >= need.containers
            serve &= self.paint[:, tube] >= need.amount
        return np.flatnonzero(serve)

    def least_cost(self, bought: tuple[int, ...]) -> int | None:
        """Return the least cost for tubes; None if they cannot be had."""
        if not bought:
            return 0
        rows = self.serving(bought, self.terms.needed)
        return int(self.costs[rows].min()) if len(rows) else None

    def told(self, bought: tuple[int, ...]) -> set[tuple[tuple[int, ...], int]]:
        """Return counts and cost of the purchases that go first but for their numbers."""
        rows = self.serving(bought, self.terms.needed)
        paint = self.paint[:, list(bought)].sum(axis=1)
        keys = [
            (self.costs[r], self.sellers[r], self.counts[r].sum(), -paint[r]) for r in rows.tolist()
        ]
        first = min(keys)
        return {
            (tuple(self.counts[r].tolist()), int(self.costs[r]))
            for r, key in zip(rows.tolist(), keys, strict=True)
            if key == first
        }

    def counts_of(self, purchase: Purchase) -> tuple[int, ...]:
        """Return the counts of a purchase as they stand in `counts`."""
        counts = [0] * self.counts.shape[1]
        for number, count in purchase.packs:
            counts[number] = count
        for number, count in purchase.sets:
            counts[len(self.terms.packs) + number] = count
        return tuple(counts)
