"""The cheapest purchase for a palette as an integer program, where addition does not do.

It also finds, of purchases that cost the same, the one that is told. Columns are written as arrays
at once, since the program is small and solved often.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field
from math import ceil

import numpy as np

from fewtubes.errors import DefectError
from fewtubes.selection.arrays import ProgramArrays
from fewtubes.selection.highs import run_highs
from fewtubes.selection.terms import Need, Purchase, Terms
from fewtubes.selection.tube_packs import useful_count

__all__ = ["counted", "solved_cost", "solved_purchase"]

GAP = 0.5
"""Bound and solution differ by less at the end [hundredths]: as whole numbers they are equal."""

Row = dict[int, float]


def solved_cost(terms: Terms, bought: tuple[int, ...], needs: tuple[Need, ...]) -> int | None:
    """Return what the cheapest purchase costs; None if what is needed cannot be had."""
    lines = _Lines(terms, bought, needs)
    found = lines.solved(lines.cost, [])
    return None if found is None else found.cost


def solved_purchase(
    terms: Terms, bought: tuple[int, ...], needs: tuple[Need, ...], cost: int
) -> Purchase:
    """Return the purchase of this cost, the least, that is told.

    Of equally cheap ones that with the fewest sellers, then with the fewest packs and sets, then
    with most paint of the tubes, then the one with the lowest numbers of packs and sets together.

    Raises
    ------
    DefectError
        If there is none of this cost.
    """
    lines = _Lines(terms, bought, needs)
    held: list[tuple[Row, float]] = [(lines.cost, cost)]
    found = None
    for figure in (lines.sellers, lines.pieces, lines.little, lines.numbers):
        found = lines.solved(figure, held)
        if found is None or found.cost != cost:
            raise DefectError(f"no purchase for tubes {bought} of the cost counted, {cost}")
        held.append((figure, lines.of(figure)))
    assert found is not None  # noqa: S101  # there are figures
    return found


def counted(
    terms: Terms, packs: Sequence[tuple[int, int]], sets: Sequence[tuple[int, int]]
) -> Purchase:
    """Return the purchase of so many of each, its deliveries and cost counted.

    Least orders are not looked at.
    """
    goods: dict[int, int] = {}
    for number, count in packs:
        pack = terms.packs[number]
        goods[pack.seller] = goods.get(pack.seller, 0) + pack.cost(count)
    for number, count in sets:
        box = terms.sets[number]
        goods[box.seller] = goods.get(box.seller, 0) + box.price * count
    deliveries = []
    for seller, money in sorted(goods.items()):
        asked = terms.sellers[seller]
        free = asked.free_from is not None and money >= asked.free_from
        deliveries.append((seller, 0 if free else asked.delivery))
    cost = sum(goods.values()) + sum(charge for _, charge in deliveries)
    return Purchase(tuple(packs), tuple(sets), tuple(deliveries), cost)


@dataclass(eq=False)
class _Lines:
    """The program: columns by kind, rows, and the figures as objectives."""

    terms: Terms
    bought: tuple[int, ...]
    needs: tuple[Need, ...]
    upper: list[float] = field(default_factory=list)
    rows: list[tuple[Row, float, float]] = field(default_factory=list)
    packs: dict[int, tuple[int, ...]] = field(default_factory=dict)
    """Columns that count each pack; the first counts one alone where that has its own price."""
    sets: dict[int, int] = field(default_factory=dict)
    used: list[int] = field(default_factory=list)
    cost: Row = field(default_factory=dict)
    values: list[int] = field(default_factory=list)
    """Of the last solution, rounded."""

    def __post_init__(self) -> None:
        self.goods: list[Row] = [{} for _ in self.terms.sellers]
        self.used = [self._column(1) for _ in self.terms.sellers]
        need_of = dict(zip(self.bought, self.needs, strict=True))
        for number, pack in enumerate(self.terms.packs):
            need = need_of.get(pack.tube)
            most = self._most([(need, 1, pack.amount)], pack.seller, pack.cost(2) // 2, pack.stock)
            if most:
                self._pack(number, most)
        for number, box in enumerate(self.terms.sets):
            held = [(need_of.get(tube), n, amount) for tube, n, amount in box.holds]
            most = self._most(held, box.seller, box.price, box.stock)
            if most:
                column = self._column(most, box.price, box.seller)
                self.sets[number] = column
                self.rows.append(({column: 1.0, self.used[box.seller]: -most}, -np.inf, 0))
        for tube, need in need_of.items():
            self._need(tube, need)
        for seller, asked in enumerate(self.terms.sellers):
            used, goods = self.used[seller], self.goods[seller]
            self.cost[used] = asked.delivery
            if asked.least_order:
                self.rows.append(({**goods, used: -asked.least_order}, 0, np.inf))
            if asked.free_from is not None and asked.delivery:
                free = self._column(1)
                self.cost[free] = -asked.delivery
                self.rows.append(({free: 1.0, used: -1.0}, -np.inf, 0))
                self.rows.append(({**goods, free: -asked.free_from}, 0, np.inf))

    def _column(self, most: int, price: int | None = None, seller: int = 0) -> int:
        """Add a column of whole numbers from 0; a price counts as goods of the seller."""
        self.upper.append(most)
        column = len(self.upper) - 1
        if price is not None:
            self.goods[seller][column] = self.cost[column] = price
        return column

    def _most(
        self,
        held: Sequence[tuple[Need | None, int, int]],
        seller: int,
        price: int,
        stock: int | None,
    ) -> int:
        """Return how many of a thing can be of use, for what is needed or to reach a sum."""
        most = max(
            (
                useful_count(need, containers=containers, amount=amount, stock=None, least=2)
                for need, containers, amount in held
                if need is not None
            ),
            default=0,
        )
        asked = self.terms.sellers[seller]
        free_from = asked.free_from if asked.free_from and asked.delivery else 0
        sum_ = max(free_from, asked.least_order)
        if sum_:
            most = max(most, 2 if not price else ceil(sum_ / price))
        return most if stock is None else min(most, stock)

    def _pack(self, number: int, most: int) -> None:
        """Add the columns and rows of a pack: one alone, or two and more at their own price."""
        pack, used = self.terms.packs[number], self.used[self.terms.packs[number].seller]
        if pack.cost(2) == 2 * pack.price:
            columns: tuple[int, ...] = (self._column(most, pack.price, pack.seller),)
            self.rows.append(({columns[0]: 1.0, used: -most}, -np.inf, 0))
        else:
            one = self._column(1, pack.price, pack.seller)
            columns = (one,)
            if most > 1:
                more = self._column(most, pack.cost(2) // 2, pack.seller)
                several = self._column(1)
                columns = (one, more)
                self.rows += [
                    ({more: 1.0, several: -most}, -np.inf, 0),
                    ({more: 1.0, several: -2.0}, 0, np.inf),
                    ({one: 1.0, several: 1.0, used: -1.0}, -np.inf, 0),
                ]
            else:
                self.rows.append(({one: 1.0, used: -1.0}, -np.inf, 0))
        self.packs[number] = columns

    def _need(self, tube: int, need: Need) -> None:
        """Add the rows that a tube's containers and paint are had."""
        containers: Row = {}
        amount: Row = {}
        for number, columns in self.packs.items():
            if self.terms.packs[number].tube == tube:
                for column in columns:
                    containers[column] = 1
                    amount[column] = self.terms.packs[number].amount
        for number, column in self.sets.items():
            for held, count, paint in self.terms.sets[number].holds:
                if held == tube:
                    containers[column], amount[column] = count, paint
        self.rows.append((containers, need.containers, np.inf))
        if need.amount:
            scale = max(amount.values(), default=1.0) or 1.0  # sums near 1, beside the tolerances
            scaled = {column: paint / scale for column, paint in amount.items()}
            least = need.amount / scale
            self.rows.append((scaled, least - self._slack(scale), np.inf))

    def _slack(self, scale: float) -> float:
        """Return what rounding of quotients may cost a row; far less than one unit of paint."""
        return 0.25 / scale

    @property
    def sellers(self) -> Row:
        """How many sellers there are."""
        return dict.fromkeys(self.used, 1.0)

    @property
    def pieces(self) -> Row:
        """How many packs and sets."""
        return dict.fromkeys(self._things(), 1.0)

    @property
    def numbers(self) -> Row:
        """The numbers of packs and sets summed, so that of equals always the same one is told."""
        return {column: 1.0 + place for place, column in enumerate(self._things())}

    @property
    def little(self) -> Row:
        """Less the more paint of the tubes there is."""
        wanted = frozenset(self.bought)
        row: Row = {}
        for number, columns in self.packs.items():
            for column in columns:
                pack = self.terms.packs[number]
                row[column] = -pack.amount if pack.tube in wanted else 0
        for number, column in self.sets.items():
            held = self.terms.sets[number].holds
            row[column] = -sum(paint for tube, _, paint in held if tube in wanted)
        return row

    def _things(self) -> Iterator[int]:
        for columns in self.packs.values():
            yield from columns
        yield from self.sets.values()

    def of(self, figure: Row) -> float:
        """Return a figure of the last solution."""
        return sum(value * self.values[column] for column, value in figure.items())

    def solved(self, figure: Row, held: Sequence[tuple[Row, float]]) -> Purchase | None:
        """Return the purchase with the least figure, others held; None if there is none."""
        rows = [*self.rows, *((row, -np.inf, most) for row, most in held)]
        findings = run_highs(
            _arrays(self.upper, rows, figure),
            {"mip_rel_gap": 0.0, "mip_abs_gap": GAP, "threads": 1},
        )
        if not findings.found:
            if findings.status not in ("kInfeasible", "kUnboundedOrInfeasible"):
                raise DefectError(f"HiGHS ended in a way not expected of it: {findings.status}")
            return None
        self.values = [round(value) for value in findings.values.tolist()]
        packs = [
            (number, sum(self.values[column] for column in columns))
            for number, columns in self.packs.items()
        ]
        sets = [(number, self.values[column]) for number, column in self.sets.items()]
        return counted(
            self.terms, [(n, count) for n, count in packs if count],
            [(n, count) for n, count in sets if count],
        )  # fmt: skip


def _arrays(
    upper: Sequence[float], rows: Sequence[tuple[Row, float, float]], cost: Row
) -> ProgramArrays:
    """Return the program as HiGHS takes it, to be made smallest."""
    starts = np.cumsum([0, *(len(row) for row, _, _ in rows)])
    objective = np.zeros(len(upper))
    objective[list(cost)] = list(cost.values())
    return ProgramArrays(
        cost=objective,
        lower=np.zeros(len(upper)),
        upper=np.array(upper, dtype=np.float64),
        whole=np.ones(len(upper), dtype=np.bool_),
        row_lower=np.array([low for _, low, _ in rows], dtype=np.float64),
        row_upper=np.array([high for _, _, high in rows], dtype=np.float64),
        starts=starts.astype(np.int32),
        columns=np.array([c for row, _, _ in rows for c in row], dtype=np.int32),
        coefficients=np.array([v for row, _, _ in rows for v in row.values()], dtype=np.float64),
        offset=0.0,
        maximise=False,
    )
