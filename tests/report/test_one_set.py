"""What is said of one set of tubes for several scenarios, and written."""

import csv
import io
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from pathlib import Path

import pytest
from rich.console import Console

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Lightfastness
from fewtubes.comparison.one_set import one_set
from fewtubes.comparison.one_set_findings import LeastCoverage, OneSet
from fewtubes.coverage.cache import Cache
from fewtubes.report.answer_files import one_set_files
from fewtubes.report.sentences.one_set import (
    least_sentence,
    painter_sentence,
    proof_sentence,
    set_sentence,
)
from fewtubes.report.terminal.one_set import print_one_set
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.words.money import amount

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"


@pytest.fixture(scope="module")
def found(shared_cache: Cache) -> OneSet:
    def asked(flower: str, title: str, **more: object) -> Scenario:
        return Scenario(
            title=title,
            budget=8,
            currency="EUR",
            flowers=[flower],
            paper="plain",
            light="E",
            tolerance=12,
            **more,  # type: ignore[arg-type]
        )

    scenarios = {
        "a": asked("cornflower", "=Blue [bold]", wishes=Wishes(least_coverage=1)),
        "b": asked("primrose", "Yellow", wishes=Wishes(millilitres=10)),
    }
    return one_set(read_catalogue(SMALL), scenarios, weights={"a": 3}, cache=shared_cache)


def printed(found: OneSet) -> str:
    console = Console(file=io.StringIO(), width=100, highlight=False, markup=False, emoji=False)
    print_one_set(found, console)
    assert isinstance(console.file, io.StringIO)
    return " ".join(console.file.getvalue().split())


def test_it_tells_sets_scenarios_and_proof(found: OneSet) -> None:
    text = printed(found)
    assert (
        "One set of tubes for 2 scenarios, counted as it was asked for; at most EUR 8.00." in text
    )
    assert "=Blue [bold]" in text
    assert (
        "Proven best: no set within the money that covers what is asked for at least covers more"
        in text
    )
    assert "at least has a better worst coverage" in text or "worst best, too" in text
    for chosen in (found.by_mean, found.by_worst):
        assert amount(chosen.cost) in text
    assert found.scenarios[0].share == Fraction(3, 4)


def test_what_is_not_proven_is_not_called_best(found: OneSet) -> None:
    open_ = replace(found.by_mean, proven=False, settled=False, bound=1.0)
    told = replace(found, by_mean=open_)
    sentence = proof_sentence(told, open_)
    assert sentence.startswith("Not proven: the search was stopped before all sets were ruled out.")
    assert "none within the money that covers what is asked for at least exceeds 100 %" in sentence
    half = replace(found.by_worst, proven=False, settled=True)
    sentence = proof_sentence(replace(found, by_worst=half), half)
    assert sentence.startswith("Only half proven: no set within the money that covers what")


def test_what_became_of_a_coverage_asked_for_is_told(found: OneSet) -> None:
    none = replace(found.by_mean, coverages=(Fraction(1, 2), Fraction(1)))
    lost = replace(found, by_mean=none, by_worst=none, least_coverage=LeastCoverage.OUT_OF_REACH)
    short = (
        "So it is asked of neither: the first set leaves short =Blue [bold] (asks for 100 %); the"
        " second set leaves short =Blue [bold] (asks for 100 %)."
    )
    assert least_sentence(lost) == (
        "No set within the money covers what is asked for at least of every scenario, which is"
        f" proven. {short}"
    )
    unsettled = replace(lost, least_coverage=LeastCoverage.NOT_SETTLED)
    assert "found before the search was stopped; there may be one." in least_sentence(unsettled)
    assert "proven" not in least_sentence(unsettled)
    kept = replace(found, least_coverage=LeastCoverage.KEPT)
    told = "Both sets cover what is asked for at least of =Blue [bold] (100 %)."
    assert least_sentence(kept) == told
    dear = replace(kept, mean_without=0.873)
    assert least_sentence(dear) == f"{told} Without that, 87.3 % could be had on average."
    assert "no set within the money that covers what is asked for at least covers more" in (
        proof_sentence(kept, kept.by_mean)
    )
    assert least_sentence(replace(found, least_coverage=LeastCoverage.NOT_ASKED)) == ""


def test_for_how_many_it_is_enough_is_told(found: OneSet) -> None:
    assert painter_sentence(found) == ""
    first, second = found.scenarios
    of_a_class = replace(
        found, scenarios=(replace(first, painters=9), replace(second, painters=12, pictures=24))
    )
    assert painter_sentence(of_a_class) == (
        "Of each paint there is enough for the largest class, of 12 painters; classes of a term"
        " follow one another, so that tubes and pans go from one to the next. It holds the paint of"
        " 24 pictures."
    )
    assert "paints to buy" in set_sentence(of_a_class, of_a_class.by_worst) or (
        len(found.by_worst.tubes) == 1
    )


def test_tables_add_up_and_are_safe(found: OneSet) -> None:
    files = one_set_files(found)
    rows = list(csv.DictReader(io.StringIO(files["one-set.csv"])))
    for by, chosen in (("mean", found.by_mean), ("worst", found.by_worst)):
        prices = [Decimal(row["price"]) for row in rows if row["best_by"] == by]
        assert sum(prices) == Decimal(amount(chosen.cost))
    served = list(csv.DictReader(io.StringIO(files["one-set-served.csv"])))
    assert served[0]["title"] == "'=Blue [bold]"
    assert served[0]["counts"] == "75%"
    assert found.served()["by_mean"].tolist() == pytest.approx(
        [float(one) for one in found.by_mean.coverages], abs=1e-4
    )
    assert len(found.tubes()) == len(rows)


def test_sets_whose_shares_hardly_differ_are_told_apart(found: OneSet) -> None:
    """79.77 and 79.78 % are both 79.8 %, of which one cannot be the better."""
    first = replace(found.by_mean, coverages=(Fraction(7977, 10000), Fraction(9)), mean=Fraction(1))
    second = replace(first, coverages=(Fraction(7978, 10000), Fraction(9)))
    told = replace(found, by_mean=first, by_worst=second)
    assert "at worst 79.77 % (" in set_sentence(told, first)
    assert "at worst 79.78 % (" in set_sentence(told, second)
    assert "100 % on average" in set_sentence(told, second)
    assert "79.77 % 79.78 %" in printed(told)


def test_each_set_tells_which_of_its_tubes_fade(found: OneSet) -> None:
    demo = read_catalogue().tubes.values()
    fading = next(tube for tube in demo if tube.lightfastness is Lightfastness.V)
    lasting = next(tube for tube in demo if tube.lightfastness is Lightfastness.I)
    faded = replace(found, by_mean=replace(found.by_mean, tubes=(lasting, fading)))
    assert f"In light this one fades: {fading.name} (V, very poor)." in printed(faded)
    lasts = replace(found.by_mean, tubes=(lasting,))
    assert "In light" not in printed(replace(found, by_mean=lasts, by_worst=lasts))
