"""The purchase as part of the integer program of record: its maths, in PuLP."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from fewtubes.selection.program_names import ProgramNames
from fewtubes.selection.terms import PackOnSale, Terms

__all__ = ["add_purchase"]


def add_purchase(
    problem: Any, buy: Mapping[int, Any], terms: Terms, names: ProgramNames
) -> list[tuple[int, Any]]:
    """Add packs, sets, sellers and deliveries to a program; return what makes up the cost.

    Parameters
    ----------
    problem
        The `pulp.LpProblem`, which is added to.
    buy
        x_i by tube number.
    terms
        What is on sale.
    names
        What tubes and sellers are called.

    Returns
    -------
    Coefficients [hundredths of the currency] and variables, whose sum leaves the purse.

    Notes
    -----
    Numbers, all whole: for each pack p its tube i(p), seller s(p), paint a_p, price p_p, price of
    each if there are two or more q_p, and stock; for each set b its seller, price p_b, and of each
    tube i in it containers c_b,i and paint a_b,i; for each seller s delivery d_s, the sum from
    which it is free F_s, and the least order L_s; of each tube the containers C_i and the paint A_i
    that are needed. N_p and N_b are how many of a thing can be of any use: what is needed, or what
    alone comes to the sums that its seller asks, or the stock. Variables::

        n_p ∈ {0 … N_p}   pack_p__i__s        packs; where q_p is another price: one alone, ≤ 1
        m_p ∈ {0 … N_p}   packs_p__i__s       two packs and more, where q_p is another price
        k_p ∈ {0, 1}      several_p           m_p is more than 0
        n_b ∈ {0 … N_b}   set_b__s            sets
        u_s ∈ {0, 1}      seller_s            something is bought from s
        f_s ∈ {0, 1}      free_delivery_s     its delivery is free, where it can be

    With g_s = Σ_{p of s} (p_p n_p + q_p m_p) + Σ_{b of s} p_b n_b, the goods of a seller, the cost
    is Σ_s (g_s + d_s u_s − d_s f_s). Subject to::

        Σ_{p of i} (n_p + m_p) + Σ_b c_b,i n_b ≥ C_i x_i         containers_of_i
        Σ_{p of i} a_p (n_p + m_p) + Σ_b a_b,i n_b ≥ A_i x_i     paint_of_i
        n_p ≤ N_p u_s                                            pack_p__needs_s
        n_p + k_p ≤ u_s, 2 k_p ≤ m_p ≤ N_p k_p                   pack_p__needs_s, two_or_more_p,
                                                                 none_or_more_p
        n_b ≤ N_b u_s                                            set_b__needs_s
        g_s ≥ L_s u_s                                            least_order_s
        f_s ≤ u_s                                                delivery_of_s
        g_s ≥ F_s f_s                                            free_from_s
    """
    return _Purchase(problem, buy, terms, names).cost()


@dataclass(eq=False)
class _Purchase:
    """The rows as they are added."""

    problem: Any
    buy: Mapping[int, Any]
    terms: Terms
    names: ProgramNames
    had: dict[int, list[tuple[Any, int, int]]] = field(default_factory=dict)
    """Of each tube the variables that count something that holds it, containers and paint."""
    goods: dict[int, list[tuple[int, Any]]] = field(default_factory=dict)
    """Of each seller prices and the variables that count what has them."""

    def cost(self) -> list[tuple[int, Any]]:
        """Add everything; return coefficients and variables of the cost."""
        import pulp

        used = {
            s: self.problem.add_variable(f"seller_{self._seller(s)}", cat=pulp.LpBinary)
            for s in range(len(self.terms.sellers))
        }
        for number, pack in enumerate(self.terms.packs):
            self._add_pack(number, pack, used[pack.seller])
        for number, box in enumerate(self.terms.sets):
            self._add_set(number, used[box.seller])
        for i, x in self.buy.items():
            self._add_need(i, x)
        terms = [line for lines in self.goods.values() for line in lines]
        for s, bought_there in used.items():
            terms += self._add_seller(s, bought_there)
        return terms

    def _seller(self, s: int) -> str:
        return self.names.sellers[s] if s < len(self.names.sellers) else str(s)

    def _most(self, needed: int, price: int, seller: int, stock: int | None) -> int:
        """Return N: how many of a thing can be of any use."""
        asked = self.terms.sellers[seller]
        sums = max(asked.least_order, asked.free_from or 0)
        filling = -(-sums // price) if price else 0
        most = max(needed, filling)
        return most if stock is None else min(most, stock)

    def _needed(self, i: int, containers: int, paint: int) -> int:
        """Return how many of a thing are what is needed of a tube."""
        if i not in self.buy:
            return 0
        need = self.terms.needs[i]
        return max(
            -(-need.containers // containers) if containers else 0,
            -(-need.amount // paint) if paint else 0,
        )

    def _count(self, name: str, most: int, seller: int, price: int) -> Any:
        """Return a new variable that counts something at a price."""
        import pulp

        counted = self.problem.add_variable(name, 0, most, cat=pulp.LpInteger)
        self.goods.setdefault(seller, []).append((price, counted))
        return counted

    def _add_pack(self, number: int, pack: PackOnSale, used: Any) -> None:
        """Add n_p, and m_p and k_p where two are not twice as dear as one."""
        import pulp

        seller = self._seller(pack.seller)
        ending = f"{number}__{self.names.tubes[pack.tube]}__{seller}"
        several = pack.price if pack.price_of_more is None else pack.price_of_more
        needed = self._needed(pack.tube, 1, pack.amount)
        if several != pack.price:
            needed = max(2, needed)
        most = self._most(needed, several, pack.seller, pack.stock)
        held = self.had.setdefault(pack.tube, [])
        if several == pack.price or most < 2:
            n = self._count(f"pack_{ending}", most, pack.seller, pack.price)
            held.append((n, 1, pack.amount))
            self.problem += n <= most * used, f"pack_{number}__needs_{seller}"
            return
        n = self._count(f"pack_{ending}", 1, pack.seller, pack.price)
        m = self._count(f"packs_{ending}", most, pack.seller, several)
        k = self.problem.add_variable(f"several_{number}", cat=pulp.LpBinary)
        held += [(n, 1, pack.amount), (m, 1, pack.amount)]
        self.problem += n + k <= used, f"pack_{number}__needs_{seller}"
        self.problem += m >= 2 * k, f"two_or_more_{number}"
        self.problem += m <= most * k, f"none_or_more_{number}"

    def _add_set(self, number: int, used: Any) -> None:
        """Add n_b."""
        box, seller = self.terms.sets[number], self._seller(self.terms.sets[number].seller)
        needed = max((self._needed(i, n, paint) for i, n, paint in box.holds), default=0)
        most = self._most(needed, box.price, box.seller, box.stock)
        count = self._count(f"set_{number}__{seller}", most, box.seller, box.price)
        self.problem += count <= most * used, f"set_{number}__needs_{seller}"
        for i, containers, paint in box.holds:
            self.had.setdefault(i, []).append((count, containers, paint))

    def _add_need(self, i: int, x: Any) -> None:
        """Add that a tube bought is had, as much of it as is needed."""
        import pulp

        need, name, had = self.terms.needs[i], self.names.tubes[i], self.had.get(i, [])
        containers = pulp.lpSum(n * variable for variable, n, _ in had)
        self.problem += containers >= need.containers * x, f"containers_of_{name}"
        if need.amount:
            # In shares of what is needed, so that the solver's tolerances are small beside them.
            paint = pulp.lpSum(min(1, a / need.amount) * variable for variable, _, a in had)
            self.problem += paint >= (1 - 0.25 / need.amount) * x, f"paint_of_{name}"

    def _add_seller(self, s: int, used: Any) -> list[tuple[int, Any]]:
        """Add what a seller asks; return what the delivery makes of the cost."""
        import pulp

        asked, name, terms = self.terms.sellers[s], self._seller(s), [(0, used)]
        goods = pulp.lpSum(price * count for price, count in self.goods.get(s, []))
        if asked.least_order:
            self.problem += goods >= asked.least_order * used, f"least_order_{name}"
        if asked.delivery:
            terms = [(asked.delivery, used)]
            if asked.free_from is not None:
                free = self.problem.add_variable(f"free_delivery_{name}", cat=pulp.LpBinary)
                terms.append((-asked.delivery, free))
                self.problem += free <= used, f"delivery_of_{name}"
                self.problem += goods >= asked.free_from * free, f"free_from_{name}"
        return [(k, variable) for k, variable in terms if k]
