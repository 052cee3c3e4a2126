"""Claims about proof are made in one place, and no claim is larger than what is known.

The wordings are our own.
"""

import ast
import re
from pathlib import Path
from typing import Any

import pytest

from fewtubes.words.proof import claims
from fewtubes.words.proof.choice import (
    Standing,
    not_on_sale_words,
    standing_label,
    standing_note,
    standing_proof,
    steady_note,
    steady_proof,
    ties_words,
)
from fewtubes.words.proof.comparison import (
    comparison_proof,
    found_in_doubt,
    front_proof,
    near_best_words,
    never_words,
    no_cost_words,
    picture_proof,
)
from fewtubes.words.proof.instalments import order_proof
from fewtubes.words.proof.misses import nearest_words

PACKAGE = Path(__file__).parents[2] / "optimiser" / "fewtubes"

HOME = PACKAGE / "words" / "proof"

CLAIM = re.compile(
    r"\b(un)?proven\b|\bproofs? took\b|\bruled out before|not ruled out|so far as is known",
    re.IGNORECASE,
)
"""What only a claim about proof says; in texts, not in names of keys and columns."""

NO_CLAIMS = {
    "comparison/compare_tables.py": "what columns mean",
    "comparison/why_tables.py": "what columns mean",
    "term/answers_table.py": "what columns mean",
    "selection/certificate.py": "names of outcomes, as plan.json has them",
    "selection/solve.py": "a defect: two methods that contradict each other",
    "selection/program.py": "a defect: two stages that contradict each other",
}


def texts_of(source: str) -> list[str]:
    """Return the string literals of a module, docstrings and names of keys left out."""
    tree = ast.parse(source)
    notes = {
        id(node.value)
        for node in ast.walk(tree)
        if isinstance(node, ast.Expr) and isinstance(node.value, ast.Constant)
    }
    return [
        node.value
        for node in ast.walk(tree)
        if isinstance(node, ast.Constant)
        and isinstance(node.value, str)
        and id(node) not in notes
        and not re.fullmatch(r"[a-z_.-]+", node.value)
    ]


def claims_in(source: str) -> list[str]:
    return [text for text in texts_of(source) if CLAIM.search(text)]


HELP = PACKAGE / "command_line"
"""Tells what an option means, and claims nothing of an answer."""

MODULES = sorted(path for path in PACKAGE.rglob("*.py") if not {HOME, HELP} & {*path.parents})


@pytest.mark.parametrize("path", MODULES, ids=[str(path.relative_to(PACKAGE)) for path in MODULES])
def test_no_other_module_words_a_claim_about_proof(path: Path) -> None:
    found = claims_in(path.read_text(encoding="utf-8"))
    assert (found == []) == (str(path.relative_to(PACKAGE)) not in NO_CLAIMS)


def test_a_claim_elsewhere_would_be_noticed() -> None:
    source = '"""Proven."""\nX = {"proven": f"{1} is proven best"}\nY = "It is not proven"'
    assert sorted(claims_in(source)) == [" is proven best", "It is not proven"]


def test_the_home_of_claims_holds_claims() -> None:
    found = [claims_in(path.read_text(encoding="utf-8")) for path in HOME.glob("*.py")]
    assert sum(map(len, found)) > 20


def proof(
    standing: Standing,
    *,
    buys: bool = True,
    coverage: float = 0.9,
    fading: int | None = 0,
    fitted: bool = False,
    bound: float = 0.95,
    gap: float = 0.05,
) -> str:
    return standing_proof(
        standing,
        limits="EUR 12.00",
        buys=buys,
        coverage=coverage,
        bound=bound,
        gap=gap,
        fading=fading,
        fitted=fitted,
    )


def test_only_what_is_proven_is_called_best() -> None:
    for standing in Standing:
        said = [
            standing_label(standing, fitted=False),
            standing_note(standing, fitted=False),
            proof(standing),
        ]
        assert all(("best" in text) == (standing is Standing.BEST) for text in said)


def test_what_is_half_proven_says_which_half() -> None:
    # Until now the top of an answer said that better choices were not ruled out, and its proof
    # that no choice covers more.
    for said in (standing_note(Standing.MOST_COVERED, fitted=False), proof(Standing.MOST_COVERED)):
        assert "half proven: no choice" in said
        assert "covers more" in said
        assert "fewer tubes, more lasting ones or less money" in said
    assert "better choices" not in standing_note(Standing.MOST_COVERED, fitted=False)


@pytest.mark.parametrize(
    ("fading", "said"),
    [
        (None, "of those that buy as few none costs less."),
        (0, "of those that buy as few, all lasting, none costs less."),
        (
            2,
            "of those that buy as few none has fewer that fade; of those equal in that none costs"
            " less.",
        ),
    ],
)
def test_what_is_proven_follows_the_order_of_the_choice(fading: int | None, said: str) -> None:
    assert proof(Standing.BEST, fading=fading).endswith(
        f". Of those that cover as much none buys fewer tubes; {said}"
    )


def test_buying_nothing_is_not_praised_for_taking_few_tubes() -> None:
    said = proof(Standing.BEST, buys=False, coverage=0.0)
    assert said == "Proven best: no choice within EUR 12.00 covers anything."
    bare = proof(Standing.BEST, buys=False, coverage=0.5)
    assert bare == "Proven best: no choice within EUR 12.00 covers more."
    assert "none buys fewer tubes" in proof(Standing.BEST)


def test_what_is_open_tells_how_much() -> None:
    said = proof(Standing.OPEN)
    assert "This one covers 90 %; no choice within EUR 12.00 covers more than 95 %" in said
    assert "(gap: 5 % of that)" in said


def test_that_none_covers_more_than_all_is_not_said() -> None:
    said = proof(Standing.OPEN, bound=1.0, gap=0.1)
    assert said.endswith("90 %; that one within EUR 12.00 covers all is not ruled out (gap: 10 %).")


@pytest.mark.parametrize("under_terms", [False, True])
def test_where_the_price_hangs_on_the_order_it_goes_before_the_rest(*, under_terms: bool) -> None:
    said = order_proof(
        Standing.BEST,
        mean=0.5,
        bound=0.5,
        fading_first=True,
        given=True,
        under_terms=under_terms,
        fitted=False,
        method="exact search",
        seconds=1,
    )
    assert ("costs least in all, then covers most soonest" in said) == under_terms
    assert "covers most soonest, then spends least soonest" in said


def test_equals_are_counted_as_far_as_they_are_known() -> None:
    def said(number: int, *, all_known: bool, fading_first: bool = True) -> str:
        return ties_words(
            number, all_known=all_known, fading_first=fading_first, preferred="as the steadier one"
        )

    assert said(2, all_known=True).startswith("2 palettes rank equal in coverage")
    assert said(2, all_known=False).startswith("At least 2 palettes rank")
    assert said(1, all_known=True).startswith("No other palette ranks")
    assert said(1, all_known=False).endswith("is not known.")
    order = "coverage, number of tubes, how many of them fade, price and lightfastness"
    assert order in said(1, all_known=True)
    assert "fade" not in said(1, all_known=True, fading_first=False)


def test_a_steady_choice_says_what_it_gives_up() -> None:
    assert "1.5 % of coverage is given up against the proven best" in steady_note(
        0.015, fitted=False
    )
    assert steady_note(0.0, fitted=False).startswith("No choice covers more, which is proven")


@pytest.mark.parametrize(
    ("best", "bound", "said"),
    [
        (0.8, 0.8, "the best choice would cover 80 % instead of 90 %."),
        (0.95, 0.95, "the best choice would cover 95 % and so more than the 90 %."),
        (0.9, 0.9, "another choice would cover as much."),
        (0.6, 0.7, "a choice would cover at least 60 %, and none more than 70 %;"),
    ],
)
def test_a_tube_not_on_sale(best: float, bound: float, said: str) -> None:
    assert said in not_on_sale_words(best, bound, 0.9)


def test_every_claim_differs_where_it_is_not_proven() -> None:
    made = [value for value in vars(claims).values() if isinstance(value, claims.Claim)]
    assert len(made) > 10
    for claim in made:
        assert claim.worded(proven=True) == claim.proven
        assert claim.worded(proven=False) == claim.unproven
        assert claim.proven != claim.unproven
        assert "not proven" not in claim.proven


def test_palettes_near_the_best() -> None:
    def said(*, complete: bool, proven: bool) -> str:
        return near_best_words(
            7, least="90 %", kind="tube", only="", complete=complete, proven=proven
        )

    assert said(complete=True, proven=True).startswith(
        "There are 7 palettes within the budget that cover 90 % or more with no tube they could do"
        " without;"
    )
    assert said(complete=False, proven=True).startswith("There are more than 7 palettes")
    assert said(complete=False, proven=False).startswith("At least 7 palettes")
    assert said(complete=False, proven=False).endswith("rank before these may exist.")


def test_of_one_palette_near_the_best_the_words_are_in_the_singular() -> None:
    # Until now: "At least 1 palette … that cover …" and "these are the 1 that rank first".
    def said(*, proven: bool) -> str:
        return near_best_words(
            1, least="90 %", kind="paint", only="the one above", complete=False, proven=proven
        )

    covers = "palette within the budget covers 90 % or more with no paint it could do without"
    assert said(proven=True) == f"More than one {covers}; none of them ranks before the one above."
    assert said(proven=False) == (
        f"At least one {covers}: the one above; the search was stopped, so others that rank before"
        " it may exist."
    )


def test_what_a_floor_costs_is_a_minimum_only_where_that_is_proven() -> None:
    assert no_cost_words("60 %", proven=True) == (
        "costs nothing; 60 % within the budget for as little money"
    )
    assert no_cost_words("60 %", proven=False) == (
        "costs nothing so far as is known; 60 % within the budget for the same money"
    )
    assert never_words("60 %", "40 %", proven=True) == ("no money would buy 60 %, the most is 40 %")
    assert never_words("60 %", "40 %", proven=False) == "the most found at any price is 40 %"


def test_a_comparison_names_what_is_open() -> None:
    assert comparison_proof([], seconds=1.0, fitted=False).startswith("All of it is proven")
    some = comparison_proof(["sizes", "trade-off"], seconds=1.0, fitted=False)
    assert some.startswith("Not all of it is proven")
    assert "Open: sizes and trade-off." in some


def test_a_front_without_doubtful_steps_may_still_lack_some() -> None:
    # The picture's text said "Not every step is proven" here, though every one of them is.
    for said in (
        front_proof(4, 0, complete=False, fitted=False),
        picture_proof(0, complete=False, fitted=False),
    ):
        assert "thers may be missing" in said
        assert "too short to rule them out" in said
        assert "Not every step" not in said
    assert "marked ?" in front_proof(4, 1, complete=False, fitted=False)
    assert "question mark" in picture_proof(1, complete=False, fitted=False)
    assert front_proof(4, 4, complete=False, fitted=False).startswith(
        "4 steps, none of them proven in time"
    )
    assert "there is no other" in front_proof(4, 0, complete=True, fitted=False)
    assert "no step is missing" in picture_proof(0, complete=True, fitted=False)
    assert (found_in_doubt(0), found_in_doubt(3)) == ("", ", 3 of them not proven")


def test_what_is_proven_of_fitted_paints_says_so() -> None:
    """All of it, and nothing else: what is not proven is so of any paint."""
    proven = [
        *(
            said
            for standing in (Standing.BEST, Standing.MOST_COVERED, Standing.IMPOSSIBLE)
            for said in (
                standing_label(standing, fitted=True),
                standing_note(standing, fitted=True),
                proof(standing, fitted=True),
            )
        ),
        proof(Standing.BEST, buys=False, fitted=True),
        proof(Standing.OPEN, fitted=True),  # its bound is proven
        steady_note(0.015, fitted=True),
        steady_note(0.0, fitted=True),
        steady_proof(0.9, compared="covers as much as", fading_first=True, fitted=True),
        comparison_proof([], seconds=1.0, fitted=True),
        front_proof(4, 0, complete=True, fitted=True),
        front_proof(4, 1, complete=False, fitted=True),
        picture_proof(0, complete=True, fitted=True),
        picture_proof(0, complete=False, fitted=True),
    ]
    assert all(said.count("for these fitted paints") == 1 for said in proven), proven
    open_ = [
        standing_label(Standing.OPEN, fitted=True),
        standing_note(Standing.OPEN, fitted=True),
        comparison_proof(["sizes"], seconds=1.0, fitted=True),
        front_proof(4, 4, complete=False, fitted=True),
        picture_proof(1, complete=False, fitted=True),
    ]
    assert not any("fitted" in said for said in open_), open_


def test_without_fitted_paints_nothing_is_said_of_them() -> None:
    assert claims.for_fitted(fitted=False) == ""
    assert "fitted" not in proof(Standing.BEST)
    steady = steady_proof(0.9, compared="covers as much as", fading_first=True, fitted=False)
    assert "fitted" not in steady


NEAREST: dict[str, Any] = {"mean": 6.58, "without_wish": 7.59, "extra_cost": 360, "currency": "EUR"}


def test_that_a_choice_comes_nearest_is_said_with_what_it_costs() -> None:
    assert nearest_words(60, complete=True, **NEAREST) == (
        "Of the 60 choices that equal each other in coverage and tubes, this one comes nearest to"
        " what is out of reach: ΔE00 6.6 off on average; without the wish another would be taken,"
        " 7.6 off, for EUR 3.60 less."
    )
    alike = NEAREST | {"without_wish": 6.58}
    assert nearest_words(2, complete=True, **alike).endswith(
        ", as near as the one that would be taken without the wish."
    )
    free = NEAREST | {"extra_cost": 0}
    assert nearest_words(2, complete=True, **free).endswith("7.6 off, for the same money.")
    cheaper = NEAREST | {"extra_cost": -10}
    assert nearest_words(2, complete=True, **cheaper).endswith("7.6 off, for EUR 0.10 more.")
    only = nearest_words(1, complete=True, **alike)
    assert only.startswith("No other choice equals this one")


def test_that_others_may_come_nearer_is_said() -> None:
    doubt = "so far as they were looked at (there may be others)"
    assert doubt in nearest_words(2000, complete=False, **NEAREST)
    assert doubt in nearest_words(1, complete=False, **NEAREST)
    assert doubt not in nearest_words(60, complete=True, **NEAREST)


@pytest.mark.parametrize("fading", [None, 0, 2])
def test_nearness_goes_before_the_price_where_it_was_asked_for(fading: int | None) -> None:
    figures: dict[str, Any] = {
        "limits": "EUR 9.00",
        "buys": True,
        "coverage": 0.9,
        "bound": 0.9,
        "gap": 0.0,
    }
    said = standing_proof(Standing.BEST, **figures, fading=fading, fitted=False, nearer=True)
    assert said.endswith(
        " none comes nearer to what is out of reach; of those as near none costs less."
    )
    assert ("fewer that fade" in said) == bool(fading)
    half = standing_proof(
        Standing.MOST_COVERED, **figures, fading=fading, fitted=False, nearer=True
    )
    assert "ones that come nearer" in half
    assert "ones that come nearer" in standing_note(
        Standing.MOST_COVERED, fitted=False, nearer=True
    )
    assert "nearness to what is out of reach, price" in ties_words(
        1, all_known=True, fading_first=False, preferred="", nearer=True
    )
