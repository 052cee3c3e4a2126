"""The illustrated report of buying bit by bit: it says what was found, and is safe and whole."""

import base64
import hashlib
import re
from dataclasses import replace
from html import unescape
from pathlib import Path

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.comparison.instalment_findings import Instalments
from fewtubes.comparison.instalments import instalments
from fewtubes.coverage.cache import Cache
from fewtubes.mixing.matching import recipe_lab
from fewtubes.report.illustrated.instalment_steps import BoughtBasis
from fewtubes.report.illustrated.instalments_page import InstalmentsReport
from fewtubes.report.sentences.instalments_at_once import beside_sentence, comparison_rows
from fewtubes.scenario.reading import read_scenario
from fewtubes.scenario.wanted import OwnColour
from fewtubes.shopping.cautions import DEFERRING_TEXT

FIRST_SET = Path(__file__).parents[2] / "scenarios" / "first-set.toml"
HOSTILE = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)>"


@pytest.fixture(scope="module")
def found(shared_cache: Cache) -> Instalments:
    """Return what 8, nothing, 5 and 5 euro buy of a beginner's first set, lemon being at home."""
    catalogue = read_catalogue()
    asked = read_scenario(FIRST_SET, catalogue)
    own = OwnColour("a glaze", lab=catalogue.flowers["daffodil"].swatches[0].lab)
    asked = replace(
        asked, own_colours=(own,), wishes=replace(asked.wishes, owned=("lemon",), must_have=())
    )
    return instalments(catalogue, asked, sums=[8, 0, 5, 5], cache=shared_cache)


@pytest.fixture(scope="module")
def report(found: Instalments) -> InstalmentsReport:
    return InstalmentsReport(found)


def said(markup: str) -> str:
    """Return the words of some markup, as they are read."""
    bare = re.sub(r"<svg.*?</svg>", " ", markup, flags=re.DOTALL)
    text = unescape(re.sub(r"<[^>]+>", " ", bare)).replace("\u00a0", " ")
    return " ".join(text.split())


def test_there_is_a_section_for_each_sum_with_its_tubes(report: InstalmentsReport) -> None:
    found = report.found
    assert [section.heading.partition(":")[0] for section in report.steps] == [
        "Now", "Then, 2 of 4", "Then, 3 of 4", "Then, 4 of 4",
    ]  # fmt: skip
    for section, time in zip(report.steps, found.times, strict=True):
        body = str(section.body)
        assert body.count('class="tick"') == len(time.bought)
        for purchase in time.bought:
            assert f"{purchase.cost / 100:.2f}" in body
            assert purchase.tube.name in body
        if not time.bought:
            assert "Nothing" in said(body)
    assert 'class="held"' in report.steps[0].body  # what is at home is in the box at once
    assert "lemon" in said(str(report.steps[0].body))


def test_each_new_colour_is_shown_once_at_its_time(report: InstalmentsReport) -> None:
    shown = 0
    for section, time in zip(report.steps, report.found.times, strict=True):
        body = str(section.body)
        assert body.count('class="pair"') == (len(time.newly) if time.bought or not shown else 0)
        shown += body.count('class="pair"')
    assert shown == sum(len(time.newly) for time in report.found.times)


def test_what_is_covered_by_a_time_is_mixed_from_what_is_held_then(
    report: InstalmentsReport,
) -> None:
    """Each recipe is mixed anew by the model and lies within the tolerance, with tubes of then."""
    question = report.found.question
    basis: BoughtBasis = report.basis
    for time, (tubes, samples) in zip(report.found.times, basis.parts, strict=True):
        held = {planned.tube.id: planned.tube for planned in tubes}
        numbers = time.palette.bought
        assert set(held) == {"lemon", *(question.tubes[number].id for number in numbers)}
        assert {t for t, one in enumerate(samples) if one.covered} == set(time.palette.covered)
        for planned in samples:
            if not planned.covered or planned.recipe is None or planned.is_bare_paper:
                continue
            assert set(planned.recipe.tubes) <= set(held)
            assert planned.match <= question.scenario.tolerance
            mixed = recipe_lab(planned.recipe, held, question.optics)
            assert tuple(mixed) == pytest.approx(planned.mix_lab, abs=1e-6)


def test_figures_beside_buying_at_once_agree_as_printed(report: InstalmentsReport) -> None:
    rows = comparison_rows(report.found)
    for row, time in zip(rows, report.found.times, strict=True):
        covers, best, lost = (
            float(text.removeprefix("at most ").removesuffix(" %"))
            for text in (row.covers, row.at_once, row.given_up)
        )
        assert best - covers == pytest.approx(lost, abs=1e-9)
        assert (lost > 0) == (time.given_up > 0)
        assert covers == pytest.approx(100 * time.coverage, abs=0.051)
    page = said(report.page())
    for row in rows:
        assert f"{row.time} {row.had} {row.spent} {row.covers} {row.at_once} {row.given_up}" in page


@pytest.mark.parametrize(
    ("shares", "printed"),
    [
        # 98.9 and 99.5 would differ by 0.6
        ((0.9894, 0.9947, 0.0053), ("98.94 %", "99.47 %", "0.53 %")),
        # 616, 800 and 184 of 1,500: 41.07 and 53.33 would differ by 12.26, and 12.27 is given up
        ((616 / 1500, 800 / 1500, 184 / 1500), ("41.06 %", "53.33 %", "12.27 %")),
        ((0.5, 0.500004, 0.000004), ("50 %", "50.0004 %", "0.0004 %")),
        ((0.747, 0.747, 0.0), ("74.7 %", "74.7 %", "0 %")),
        ((0.75, 1.0, 0.25), ("75 %", "100 %", "25 %")),
    ],
)
def test_figures_agree_where_a_tenth_of_a_per_cent_is_too_coarse(
    found: Instalments, shares: tuple[float, float, float], printed: tuple[str, str, str]
) -> None:
    covered, best, lost = shares
    times = tuple(
        replace(time, coverage=covered, best=best, given_up=lost, best_proven=True)
        for time in found.times
    )
    (row, *_) = comparison_rows(replace(found, times=times))
    assert (row.covers, row.at_once, row.given_up) == printed


def test_what_the_money_would_cover_at_once_is_told_of_the_same_tubes(found: Instalments) -> None:
    place = next(n for n, time in enumerate(found.times) if time.given_up)
    had = sum(found.terms.sums[: place + 1]) / 100
    told = beside_sentence(found, place)
    assert told.startswith(f"Bought at once from nothing, the best for EUR {had:.2f} would cover ")
    given = beside_sentence(replace(found, order_only=True), place)
    assert "the best of these tubes for EUR" in given
    even = replace(found, times=tuple(replace(time, given_up=0.0) for time in found.times))
    assert beside_sentence(even, place) == ""


def test_the_order_to_pin_up_names_all_in_the_order_of_buying(report: InstalmentsReport) -> None:
    line = said(str(report.pinned))
    places = [line.index(purchase.tube.name) for purchase in report.found.purchases]
    assert places == sorted(places)
    assert line.startswith("Now:")
    assert "→" in line
    assert report.sections[-1].id == "order"
    waits = [time for time in report.found.times if not time.bought]
    assert line.count("nothing") == len(waits)


def test_proof_and_cautions_are_told(report: InstalmentsReport) -> None:
    page = said(report.page())
    assert "Proven best: no order of buying within these sums covers more on average." in page
    assert "Paints are computed, not measured" in page
    assert DEFERRING_TEXT in page
    for purchase in report.found.purchases:
        for hazard in purchase.tube.hazards:
            assert f"Holds {hazard.value}" in page


def test_the_page_is_whole_and_asks_for_nothing(report: InstalmentsReport) -> None:
    page = report.page()
    style = re.search(r"<style>(.*?)</style>", page, re.DOTALL)
    assert style is not None
    digest = base64.b64encode(hashlib.sha256(style[1].encode()).digest()).decode()
    assert f"style-src 'sha256-{digest}'" in page
    assert "<script" not in page
    assert not re.search(r"""(src|href)=["'](?!#)""", page)
    ids = re.findall(r'\bid="([^"]+)"', page)
    assert len(ids) == len(set(ids))
    for target in re.findall(r'href="#([^"]+)"', page):
        assert target in ids


def test_names_are_escaped(found: Instalments) -> None:
    question = found.question
    samples = tuple(
        replace(sample, name=HOSTILE if sample.between is None else sample.name)
        for sample in question.samples
    )
    hostile = replace(
        question, samples=samples, scenario=replace(question.scenario, title=HOSTILE[:60])
    )
    times = tuple(
        replace(
            time,
            bought=tuple(replace(one, tube=replace(one.tube, name=HOSTILE)) for one in time.bought),
        )
        for time in found.times
    )
    page = InstalmentsReport(replace(found, question=hostile, times=times)).page()
    assert "<script" not in page
    assert "<img" not in page
    assert "&lt;script&gt;" in page


def test_where_nothing_can_be_bought_it_is_said_once(shared_cache: Cache) -> None:
    catalogue = read_catalogue()
    asked = read_scenario(FIRST_SET, catalogue)
    found = instalments(catalogue, asked, sums=["0.01"], cache=shared_cache)
    page = said(InstalmentsReport(found).page())
    assert "Nothing to buy; it is proven that no order of buying covers more." in page
    assert "this order" not in page.partition("Now:")[0].replace("in this order", "")
    assert "on average over the times" not in page
