"""The page of all answers: what it tells, escaped, and where its links lead."""

import re
from dataclasses import replace

from fewtubes.errors import Fault
from fewtubes.tables.spreadsheet import Spreadsheet
from fewtubes.term.answers_page import answers_page, proof_label, reach_words, summary_words
from fewtubes.term.answers_table import answers_table
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

FAILED = BatchRow(
    name="bad", file="bad.toml", faults=(Fault("bad.toml", "<script>alert(1)</script>"),)
)


def test_it_is_escaped_and_needs_nothing_else() -> None:
    page = answers_page(Batch((ROW, FAILED)), reports=True)
    assert "Week &lt;1&gt; &amp; more" in page
    assert "rose &lt;b&gt;" in page
    assert "&lt;script&gt;" in page
    assert "<script" not in page
    assert "default-src 'none'" in page
    assert not re.search(r'(?:src|href)="(?:https?:)?//', page)


def test_links_lead_to_the_results_by_names_as_they_are() -> None:
    page = answers_page(Batch((ROW,)), reports=True)
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


def test_a_file_is_named_once_beside_its_faults() -> None:
    row = BatchRow(
        name="bad",
        file="bad.toml",
        faults=(
            Fault("bad.toml, flower 1, name", "is missing."),
            Fault("bad.toml", "is no scenario."),
            Fault("bad.toml.csv, row 2", "is empty."),  # another file, which keeps its name
        ),
    )
    told = ("flower 1, name: is missing.", "is no scenario.", "bad.toml.csv, row 2: is empty.")
    assert row.told == told
    assert row.fault == " ".join(told)
    page = answers_page(Batch((row,)), reports=False)
    assert page.count("bad.toml") == len(["as its title", "of the other file"])
    assert re.findall("<dd>(.*?)</dd>", page) == [*told]
    titled = answers_page(Batch((replace(row, title="Week 3"),)), reports=False)
    assert 'Week 3<span class="file">bad.toml</span>' in titled
    text = answers_table(Batch((row,))).csv_text(Spreadsheet.COMMA)
    assert text.count("bad.toml") == len(["in its own column", "of the other file"])


def test_flowers_out_of_reach_as_a_whole_are_named() -> None:
    page = answers_page(Batch((replace(ROW, unreached=("poppy <b>", "fern")),)), reports=False)
    assert "nothing of poppy &lt;b&gt; or fern" in page
    assert "nothing of" not in answers_page(Batch((ROW,)), reports=False)


def test_what_is_not_answered_is_led_to_from_the_top() -> None:
    assert 'href="#not-answered"' in answers_page(Batch((ROW, FAILED)), reports=False)
    assert "#not-answered" not in answers_page(Batch((ROW,)), reports=False)


def test_the_table_and_the_hand_out_of_a_class_are_led_to() -> None:
    plain, group = (
        re.findall(r'href="week%201/([^"]+)"', answers_page(Batch((row,)), reports=True))
        for row in (ROW, replace(ROW, for_class=True))
    )
    assert set(group) - set(plain) == {"hand-out.html", "for-the-class.csv"}
    without = answers_page(Batch((replace(ROW, for_class=True),)), reports=False)
    assert "for-the-class.csv" in without
    assert "hand-out" not in without


def test_a_scenario_without_an_answer_names_no_folder_of_results() -> None:
    one, bad = answers_table(Batch((ROW, FAILED))).csv_text(Spreadsheet.COMMA).splitlines()[1:]
    assert one.endswith(",week 1,week 1.toml")
    assert bad.endswith(",,bad.toml")
