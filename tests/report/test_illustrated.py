"""The illustrated page: its form, its safety, and that it says what the plan says."""

import base64
import hashlib
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field, replace
from html.parser import HTMLParser
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest
from jinja2 import UndefinedError
from markupsafe import Markup
from tests.remixed import with_samples
from tests.unchecked import unchecked

import fewtubes.report.illustrated
from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Paper
from fewtubes.colour.bands import BAND_COUNT, WAVELENGTH_NM
from fewtubes.mixing.mixture import Optics
from fewtubes.mixing.opacity import Transparency
from fewtubes.picture.contrast import LEAST_FOR_TEXT, text_contrast
from fewtubes.picture.sheet import Sheet
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.markup import fill
from fewtubes.report.illustrated.page import illustrated_page, illustrated_report, plan_sections
from fewtubes.report.sentences.trade_offs import trade_off_words
from fewtubes.selection.certificate import Status
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Remedy, TradeOff
from fewtubes.shopping.steadiness import MonteCarlo, Spread, Steadiness
from fewtubes.words.matches import difference, match_words
from fewtubes.words.recipes import mix_words, recipe_words
from fewtubes.words.shares import percent
from fewtubes.words.unparted import FIXED_BLANK
from fewtubes.words.washes import strength_words

WEIGHTS = np.stack(
    [
        height * np.exp(-(((WAVELENGTH_NM - centre) / width) ** 2))
        for centre, width, height in ((598, 45, 1.06), (556, 47, 1.0), (449, 23, 1.8))
    ],
    axis=1,
)
"""Three smooth bands, shape (bands, 3); no real light, but near one."""

VOID = {"meta", "br"}
HOSTILE = "<script>alert(1)</script>\"'><img src=x onerror=alert(2)> & [bold]"


def optics_on(paper: Paper) -> Optics:
    return Optics.with_weights(paper, 100 * WEIGHTS / WEIGHTS[:, 1].sum())


@pytest.fixture
def optics() -> Optics:
    """Return a white paper under that light."""
    return optics_on(Paper("white", "white", np.full(BAND_COUNT, 0.88)))


@dataclass
class Page(HTMLParser):
    """What a browser makes of the page, as far as the tests look."""

    source: str
    elements: list[tuple[str, dict[str, str | None]]] = field(default_factory=list)
    texts: list[tuple[str, str]] = field(default_factory=list)
    """Nearest enclosing element and text."""
    stack: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        super().__init__(convert_charrefs=True)
        self.feed(self.source)
        self.close()

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep an element that begins."""
        self.elements.append((tag, dict(attrs)))
        if tag not in VOID:
            self.stack.append(tag)

    def handle_startendtag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Keep an element that ends at once."""
        self.elements.append((tag, dict(attrs)))

    def handle_endtag(self, tag: str) -> None:
        """Hold the page to closing what it opened last."""
        assert self.stack.pop() == tag

    def handle_data(self, data: str) -> None:
        """Keep a text."""
        if data.strip():
            self.texts.append((self.stack[-1] if self.stack else "", data))

    def all(self, tag: str) -> list[dict[str, str | None]]:
        """Return the attributes of all elements of a kind."""
        return [attributes for name, attributes in self.elements if name == tag]

    @property
    def said(self) -> str:
        """All text outside style sheet and pictures, blanks made plain."""
        text = " ".join(text for tag, text in self.texts if tag not in {"style", "text"})
        return " ".join(text.replace(FIXED_BLANK, " ").split())


Look = Callable[..., Page]


@pytest.fixture
def look(optics: Optics) -> Look:
    """Return a function that writes the page of a plan and reads it back."""

    def look_at(plan: Plan, *, costs: Markup | None = None) -> Page:
        basis = Basis(plan, optics)
        text = (
            illustrated_report(plan, optics)
            if costs is None
            else illustrated_page(basis, plan_sections(basis, costs))
        )
        page = Page(text)
        assert page.stack == []
        return page

    return look_at


def renamed(plan: Plan, name: str) -> Plan:
    """Return the plan with a name wherever one may stand."""
    tube = replace(plan.tubes[0], tube=replace(plan.tubes[0].tube, name=name))
    samples = tuple(
        replace(
            planned,
            sample=replace(planned.sample, flower=name, name=name),
            remedies=tuple(
                Remedy(replace(r.tube, name=name), r.cost, r.allowed) for r in planned.remedies
            ),
        )
        for planned in plan.samples
    )
    return replace(
        plan,
        scenario=unchecked(plan.scenario, title=name, shows=name, paper=name, light=name),
        catalogue_label=name,
        tubes=(tube, *plan.tubes[1:]),
        set_aside=(tube.tube,),
        flowers=(replace(plan.flowers[0], name=name),),
        samples=samples,
        lightfastness=replace(plan.lightfastness, limited_by=(tube.tube,)),
        cautions=(*plan.cautions, replace(plan.cautions[0], tubes=(name,))),
    )


def test_landmarks_headings_and_table_headers_are_in_order(plan: Plan, look: Look) -> None:
    page = look(plan)
    assert page.all("html") == [{"lang": "en-GB"}]
    for landmark in ("header", "nav", "main", "footer", "h1", "title"):
        assert len(page.all(landmark)) == 1, landmark
    levels = [int(tag[1]) for tag, _ in page.elements if re.fullmatch(r"h[1-6]", tag)]
    assert levels[0] == 1
    assert all(deeper <= level + 1 for level, deeper in pairwise(levels))
    headers = page.all("th")
    assert headers
    assert all(header.get("scope") in {"col", "row"} for header in headers)
    assert len(page.all("caption")) == len(page.all("table")) == 2


def test_ids_are_unique_and_every_reference_leads_somewhere(plan: Plan, look: Look) -> None:
    page = look(plan)
    ids = [attributes["id"] for _, attributes in page.elements if "id" in attributes]
    assert len(ids) == len(set(ids))
    links = [attributes["href"] for attributes in page.all("a")]
    assert links
    for link in links:
        assert link is not None
        assert link.removeprefix("#") in ids
    for _, attributes in page.elements:
        assert attributes.get("aria-labelledby", ids[0]) in ids
        paint = re.fullmatch(r"url\(#(.*)\)", attributes.get("fill") or "")
        assert paint is None or paint.group(1) in ids


def test_every_picture_is_named_or_hidden(plan: Plan, look: Look) -> None:
    for picture in look(plan).all("svg"):
        named = picture.get("role") == "img" and bool(picture.get("aria-label"))
        assert named != (picture.get("aria-hidden") == "true")


def test_nothing_is_fetched_and_the_policy_admits_this_style_sheet_alone(
    plan: Plan, look: Look
) -> None:
    page = look(plan)
    for tag, attributes in page.elements:
        assert tag not in {"script", "link", "img", "iframe", "object", "base", "form"}
        assert not {"src", "srcset", "style"} & set(attributes)
        assert not [key for key in attributes if key.startswith("on")]
    assert not re.search(r"https?:|//[a-z]|@import|@font-face|url\((?!#)", page.source)
    style = re.search(r"<style>(.*?)</style>", page.source, re.DOTALL)
    assert style is not None
    digest = base64.b64encode(hashlib.sha256(style.group(1).encode()).digest()).decode()
    (policy,) = [m for m in page.all("meta") if m.get("http-equiv") == "Content-Security-Policy"]
    assert policy["content"] == (
        f"default-src 'none'; style-src 'sha256-{digest}'; base-uri 'none'; form-action 'none'"
    )


def test_hostile_names_are_text_and_nothing_else(plan: Plan, look: Look) -> None:
    ordinary, page = look(plan), look(renamed(plan, HOSTILE))
    assert not page.all("script")
    assert not page.all("img")
    assert page.said.count(HOSTILE) > 8
    known = {key for _, attributes in ordinary.elements for key in attributes}
    assert {key for _, attributes in page.elements for key in attributes} <= known


def test_a_name_without_end_is_cut_with_an_ellipsis(plan: Plan, look: Look) -> None:
    page = look(renamed(plan, "x" * 10_000))
    runs = [len(run) for _, text in page.texts for run in re.findall(r"x+", text)]
    # A scenario's own words may run to 2,000 signs, a name to 200.
    assert max(runs) <= 2000
    assert sum(run > 200 for run in runs) == 1
    assert "x…" in page.said


def test_control_signs_never_reach_the_page(plan: Plan, look: Look) -> None:
    page = look(renamed(plan, "a\x00b\x1b[31mc\u202ed\ud800e"))
    page.source.encode("utf-8")
    assert not re.search("[\x00-\x08\x0b-\x1f\u202e]", page.source)


def test_the_page_tells_the_numbers_of_the_plan(plan: Plan, look: Look) -> None:
    said = look(plan).said
    scenario = plan.scenario
    # 2 × 6.50 + 6.00 = 19.00, from the plan made by hand.
    assert "2 tubes to buy for EUR 19.00" in said
    assert f"{percent(plan.coverage)} of what is to be painted covered: 2 of 3 colours" in said
    assert difference(scenario.tolerance) in said
    names = {planned.tube.id: planned.tube.name for planned in plan.tubes}
    for planned in plan.samples:
        assert planned.recipe is not None
        if planned.covered:
            assert mix_words(planned.recipe.tubes, planned.recipe.parts, names) in said
            assert f"{planned.sample.name} : {strength_words(planned.recipe.strength)} — " in said
        else:
            assert recipe_words(planned.recipe, names) in said
        assert f"{match_words(planned.match)}, {difference(planned.match)}" in said
    for tube in plan.tubes:
        assert f"hides {percent(tube.contrast_ratio)}" in said
        assert f"{percent(tube.only_it_brings)} hangs on it" in said


def test_the_shopping_list_adds_up(plan: Plan, look: Look) -> None:
    page = look(plan)
    cells = [text.replace(FIXED_BLANK, " ") for tag, text in page.texts if tag == "td"]
    assert cells[: cells.index("19.00") + 1] == [
        *("PV19", "I", "2 × 5 ml", "13.00"),
        *("PY150", "I", "1 × 5 ml", "6.00"),
        *("3 packs", "19.00"),
    ]


def test_a_colour_out_of_reach_says_why_and_what_would_bring_it(plan: Plan, look: Look) -> None:
    said = look(plan).said
    assert "throat — × out of reach; the nearest mix is clearly different, ΔE00 6.1." in said
    assert "One tube more would bring it: deep violet (EUR 7.25)." in said
    assert "1 colour of 3 cannot be mixed" in said
    assert "deep violet EUR 7.25 rose: throat" in said


def test_best_is_said_of_a_proven_answer_only(plan: Plan, look: Look) -> None:
    assert "Proven best" in look(plan).said
    stopped = replace(
        plan,
        certificate=replace(plan.certificate, status=Status.STOPPED, bound=9000),
        lightfastness=replace(plan.lightfastness, spared_proven=False),
    )
    said = look(stopped).said
    assert "proven best" not in said.lower()
    assert "The best" not in said
    assert "It is not proven; better choices are not ruled out." in said


def test_an_empty_plan_says_so_everywhere(empty_plan: Plan, look: Look) -> None:
    page = look(empty_plan)
    assert "Nothing to buy" in page.said
    assert "there is no tube to mix from" in page.said
    assert "No tube is used." in page.said
    assert not page.all("table")


def test_a_page_without_misses_says_so(plan: Plan, look: Look) -> None:
    covered = with_samples(plan, plan.samples[0], plan.samples[2])
    assert "every colour asked for is reached" in look(covered).said


def test_coverage_against_cost_stands_before_the_proof_and_in_the_contents(
    plan: Plan, look: Look
) -> None:
    page = look(plan, costs=Markup("<p>More money, more colours.</p>"))
    assert page.said.index("More money") < page.said.index("Proven best: no choice")
    assert page.said.index("More money") > page.said.index("How much it hides.")
    assert {"href": "#cost"} in page.all("a")
    assert {"href": "#cost"} not in look(plan).all("a")


def test_the_page_is_the_same_every_time(plan: Plan, optics: Optics) -> None:
    assert illustrated_report(plan, optics) == illustrated_report(plan, optics)


def papers() -> Iterator[Paper]:
    yield from read_catalogue(None).papers.values()
    yield from (Paper(f"grey {r}", "grey", np.full(BAND_COUNT, r)) for r in (0.05, 0.2, 0.5, 0.7))


@pytest.mark.parametrize("paper", list(papers()), ids=lambda paper: paper.id)
def test_text_stands_out_on_every_paper(paper: Paper) -> None:
    sheet = Sheet.of(optics_on(paper))
    for ink in (sheet.ink, sheet.soft_ink):
        assert text_contrast(ink, sheet.ground) >= LEAST_FOR_TEXT


def test_all_text_is_written_in_the_two_inks(plan: Plan, look: Look, optics: Optics) -> None:
    page, sheet = look(plan), Sheet.of(optics)
    inks = {sheet.ink, sheet.soft_ink}
    assert {text["fill"] for text in page.all("text")} <= inks
    style = next(text for tag, text in page.texts if tag == "style")
    colours = re.findall(r"[^-]color:\s*([^;}]+)", style)
    assert set(colours) <= {"var(--ink)", "var(--soft-ink)"}
    assert set(re.findall(r"background:\s*([^;}]+)", style)) <= {"var(--ground)", "none"}


def test_strengths_beyond_the_screen_are_told_in_runs(
    plan: Plan, look: Look, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(
        "fewtubes.report.illustrated.palette.beyond_steps", lambda _washes: [0, 1, 2, 5]
    )
    assert (
        "† More vivid on paper than here: full strength (100 %) to half-strength wash (50 %) and"
        " sixth-strength wash (18 %)." in look(plan).said
    )


def test_trials_of_paint_and_hand_are_told(plan: Plan, look: Look) -> None:
    spread = Spread(expected=0.62, standard_error=0.01, low=0.5, high=0.7)
    steadiness = Steadiness(
        trials=MonteCarlo(),
        stays=(0.83, 0.0, 0.41),
        spread=spread,
        weighed=1,
        all_weighed=True,
        proven=True,
        rival=None,
        taken=True,
        ranks_best=False,
        given_up=0.02,
        extra_cost=0,
        other_recipes=0,
    )
    said = look(replace(plan, steadiness=steadiness)).said
    assert "within tolerance in 83 % of trials" in said
    assert "within tolerance in 41 % of trials" in said
    assert "Expected coverage: 62 %" in said
    # A plan that gives up coverage is not called best.
    assert "Proven best" not in said
    assert "Taken for steadiness: 2 % of coverage is given up" in said


@pytest.mark.parametrize(
    ("trade_off", "words"),
    [
        (TradeOff(None, (), 0.0, spared_proven=True), "No tube is used."),
        (
            TradeOff(Transparency.TRANSPARENT, (), 0.7, spared_proven=True),
            "All tubes: transparent. There is no better grade.",
        ),
    ],
)
def test_trade_offs_without_anything_to_trade(plan: Plan, trade_off: TradeOff, words: str) -> None:
    assert trade_off_words(trade_off, plan) == words


def test_trade_offs_name_tubes_and_what_doing_without_costs(plan: Plan) -> None:
    assert trade_off_words(plan.lightfastness, plan) == (
        "The worst grade is II, very good (ASTM D4303), because of blue. The best choice without"
        " any tube of that grade or worse covers 60 % instead of 70 %."
    )
    assert trade_off_words(plan.opacity, plan) == (
        "The worst grade is semi-transparent, because of magenta and golden yellow. A choice"
        " without any tube of that grade or worse covers at least 10 % instead of 70 %."
    )


def test_templates_escape_whatever_is_not_markup() -> None:
    care = fill("care.html", cautions=[("<b>", "5 % & ΔE00 3"), ("", Markup("<i>x</i>"))])
    assert "<b>&lt;b&gt;: </b>" in care
    assert f"5{FIXED_BLANK}% &amp; ΔE00{FIXED_BLANK}3" in care
    assert "<li><i>x</i></li>" in care


def test_a_name_that_a_template_lacks_is_a_fault() -> None:
    with pytest.raises(UndefinedError):
        fill("care.html")


def test_no_module_of_the_report_holds_tags() -> None:
    """Tags stand in the templates; pictures, which are no pages, are drawn elsewhere."""
    modules = list(Path(fewtubes.report.illustrated.__path__[0]).glob("*.py"))
    assert len(modules) > 5
    for module in modules:
        assert not re.search(r"</?[a-z]+[ >]", module.read_text(encoding="utf-8")), module.name
