"""The page of all answers: what it tells, escaped, and where its links lead."""

import re
from dataclasses import replace

from fewtubes.term.answers_page import answers_page, proof_label, reach_words, summary_words
from fewtubes.term.findings import Batch, BatchRow

ROW = BatchRow(
    name="week 1",
    file="week 1.toml",
    title="Week <1> & more",
    currency="EUR",
    coverage=0.9,
    cost=1089,
    bought=("rose <b>", "blue"),
    proven=True,
    most=0.9,
    worst_lightfastness="II",
    out_of_reach=5,
    colours=39,
)

FAILED = BatchRow(name="bad", file="bad.toml", fault="bad.toml: <script>alert(1)</script>")


def test_it_is_escaped_and_needs_nothing_else() -> None:
    page = answers_page(Batch((ROW, FAILED)), reports=True)
    assert "Week &lt;1&gt; &amp; more" in page
    assert "rose &lt;b&gt;" in page
    assert "&lt;script&gt;" in page
    assert "<script" not in page
    assert "default-src 'none'" in page
    assert not re.search(r'(?:src|href)="(?:https?:)?//', page)


def test_links_lead_to_the_results_by_names_as_they_are() -> None:
    page = answers_page(Batch((ROW, FAILED)), reports=True)
    links = re.findall(r'href="([^"]+)"', page)
    assert links == [
        f"week%201/{name}"
        for name in ("report.html", "plan.json", "shopping-list.csv", "recipes.csv", "puddles.csv")
    ]
    assert "report.html" not in answers_page(Batch((ROW,)), reports=False)


def test_how_far_an_answer_is_proven() -> None:
    assert proof_label(ROW) == "proven best"
    assert proof_label(replace(ROW, proven=False)) == "half proven"
    open_ = replace(ROW, proven=False, most=0.95)
    assert proof_label(open_) == "not proven, at most 95 %"
    assert reach_words(ROW) == "5 of 39"


def test_all_are_counted() -> None:
    assert summary_words(Batch((ROW,))) == "1 scenario answered, proven best."
    assert summary_words(Batch((ROW, ROW, FAILED))) == (
        "2 scenarios answered, all proven best, 1 could not be answered."
    )
    half = replace(ROW, proven=False, most=0.95)
    assert summary_words(Batch((ROW, half))) == "2 scenarios answered, 1 of them proven best."
    assert summary_words(Batch((FAILED,))) == "None of 1 scenario could be answered."
