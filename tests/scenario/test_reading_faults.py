"""Every kind of fault in a scenario is told with its file, its key and what is allowed."""

from collections.abc import Callable
from dataclasses import replace
from pathlib import Path

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue
from fewtubes.errors import Fault, InputError
from fewtubes.scenario.demands import currencies, currencies_to_choose, currency_fault
from fewtubes.scenario.reading import (
    faults_of_scenario,
    read_scenario,
    scenario_files,
)

Change = Callable[[str, str], Path]

SPOILT = [
    # text, put in its place, the key told after "box.toml, ", what is said
    # --- money
    ("budget = 12.50", "", "budget", "is missing; give an amount above 0, such as 35.00."),
    ("= 12.50", "= 0", "budget", "is 0, which buys nothing; give an amount above 0, such as"),
    ("= 12.50", "= 0.00", "budget", "is 0, which buys nothing"),
    ("= 12.50", "= -5", "budget", "is '-5'; it must be above 0 and at most 1,000,000"),
    ("= 12.50", "= 12.505", "budget", "is '12.505'; it may have at most two decimals"),
    ("= 12.50", "= nan", "budget", "is 'NaN'; it must be above 0"),
    ("= 12.50", "= inf", "budget", "is 'Infinity'; it must be above 0"),
    ("= 12.50", "= 1e99999999999999999999", "budget", "is 'Infinity'; it must be above 0"),
    ("= 12.50", '= "12.50"', "budget", "is '12.50'; it must be a number, such as 35.00, without"),
    ("= 12.50", "= true", "budget", "is true; it must be a number"),
    ("= 12.50", "= [12]", "budget", "is a list; it must be a number"),
    ('"EUR"', '"USD"', "currency", "is 'USD'; the catalogue has prices in EUR, GBP only."),
    ('currency = "EUR"', "", "currency", "is missing; give a text."),
    # --- single values
    ('title = "A window box"', "", "title", "is missing; give a text."),
    ('"A window box"', '" "', "title", "is blank; fill it in."),
    ('"A window box"', "5", "title", "is '5'; it must be a text in quotation marks."),
    ('"A window box"', '"a\\u0007b"', "title", "holds the unprintable character U+0007"),
    ('"A window box"', f'"{"x" * 201}"', "title", "has 201 characters; at most 200 are allowed"),
    ("most_tubes = 3", "most_tubes = 0", "most_tubes", "is '0'; it must be a whole number from 1"),
    ("most_tubes = 3", "most_tubes = 3.0", "most_tubes", "is '3.0'; it must be a whole number"),
    ("most_tubes = 3", "most_tubes = true", "most_tubes", "is true; it must be a whole number"),
    ("= 3.5", "= 0", "tolerance", "is '0'; it must be from 0.01 to 20."),
    ("= 3.5", "= 20.1", "tolerance", "is '20.1'; it must be from 0.01 to 20."),
    ("= 3.5", '= "4"', "tolerance", "is '4'; it must be a number from 0.01 to 20, without"),
    ('"plain"', '"plane"', "paper", "'plane' is not in the catalogue; it holds plain. Did you"),
    ('paper = "plain"', "", "paper", "'cotton-white' is not in the catalogue; it holds plain."),
    ('"E"', '"D65"', "light", "'D65' is not in the catalogue; it holds E."),
    # --- numbers in quotation marks, and with a comma
    (
        "most_tubes = 3",
        'most_tubes = "3"',
        "most_tubes",
        "without quotes: write 3.",
    ),
    ("most_tubes = 3", 'most_tubes = "3,5"', "most_tubes", "from 1 to 1,000, without quotes."),
    ("most_tubes = 3", 'most_tubes = "3,0"', "most_tubes", "without quotes: write 3."),
    ("most_tubes = 3", 'most_tubes = "three"', "most_tubes", "from 1 to 1,000, without quotes."),
    (
        "= 12.50",
        '= "12,50"',
        "budget",
        "is '12,50'; it must be a number, such as 35.00, wi",
    ),
    ("= 12.50", '= "12,50"', "budget", "without quotes: write 12.50."),
    (
        "= 12.50",
        f"= 0x{'f' * 90_000}",
        "budget",
        "is a number of very many digits; it must",
    ),
    ("= 3.5", '= "3,5"', "tolerance", "without quotes: write 3.5."),
    ("importance = 2", 'importance = "2"', "flower 1, importance", "without quotes: write 2."),
    (
        "[45,",
        '["45",',
        "colour 2, lab",
        "L* is '45'; it must be a number from 0 to 100, wi",
    ),
    # --- keys
    ("budget", "budjet", "budjet", "unknown key; allowed here: title, shows"),
    ("budget", "budjet", "budjet", "Did you mean 'budget'?"),
    (
        "importance = 2",
        "weight = 2",
        "flower 1, weight",
        "allowed here: name, importance, area_cm2, swatch.",
    ),
    ("importance = 2", "budget = 2", "flower 1, budget", "belongs at the top of the file"),
    ("importance = 0.5", "colour = 2", "colour 1, colour", "belongs at the top of the file"),
    ("millilitres", "ml", "wishes, ml", "unknown key; allowed here: lightfastness"),
    ("millilitres", "never", "wishes, never", "belongs at the top of the file"),
    # --- flowers
    ('"cornflower"', '"corn flower"', "flower 1, name", "the flower 'corn flower' is not in the"),
    ('"cornflower"', '"corn flower"', "flower 1, name", "Did you mean 'cornflower'?"),
    ('"cornflower"', '"tree"', "flower 1, name", "It holds cornflower, primrose."),
    ('"cornflower"', '"primrose"', "flower 2, name", "'primrose' stands there twice; keep one"),
    ('name = "primrose"', "", "flower 2, name", "is missing; give a text."),
    ("importance = 2", "importance = 0", "flower 1, importance", "is '0'; it must be above 0"),
    ("importance = 2", "importance = 1001", "flower 1, importance", "at most 1,000."),
    ("importance = 2", "importance = -inf", "flower 1, importance", "is '-Infinity'; it must"),
    # --- own colours
    ('"#c21e56"', '"c21e56"', "colour 1, hex", "is 'c21e56'; it must be written as #rrggbb"),
    ('"#c21e56"', '"#c21e5"', "colour 1, hex", "it must be written as #rrggbb, such as #c21e56."),
    ('"#c21e56"', "12", "colour 1, hex", "is '12'; it must be a text in quotation marks."),
    ('hex = "#c21e56"', "", "colour 1, hex or lab or reflectance", "0 of these are given; give"),
    ("[45,", '[45, 1]\nhex = "#111111"\nx = [', "colour 2, hex or lab or reflectance", "2 of the"),
    ("45, 30.5, -40", "45, 30.5", "colour 2, lab", "is a list; it must be three numbers, such as"),
    ("[45, 30.5, -40]", '"red"', "colour 2, lab", "is 'red'; it must be three numbers"),
    ("[45,", "[101,", "colour 2, lab", "L* is '101'; it must be a number from 0 to 100."),
    ("30.5", "true", "colour 2, lab", "a* is true; it must be a number from -150 to 150."),
    ("-40]", "-151]", "colour 2, lab", "b* is '-151'; it must be a number from -150 to 150."),
    ('"my aster"', '"my dahlia"', "colour 2, name", "the colour 'my dahlia' stands there twice"),
    ('"my aster"', '"primrose"', "colour 2, name", "'primrose' is a flower's name too; choose"),
    ('"moss.csv"', "5", "colour 3, reflectance", "is '5'; it must be a text in quotation marks."),
    (
        '"my aster"',
        '"my  Dahlia"',
        "colour 2, name",
        "cannot be told from 'my dahlia', since",
    ),
    ('"my aster"', '"my dahlia\ufe0f"', "colour 2, name", "cannot be told from 'my dahlia'"),
    ('"my aster"', '"Primrose"', "colour 2, name", "cannot be told from the flower 'primrose'"),
    (
        '"my aster"',
        '"primrose\u3164"',
        "colour 2, name",
        "the invisible character U+3164 at pla",
    ),
    ('"my aster"', '"\u2800"', "colour 2, name", "holds the invisible character U+2800"),
    ('"my aster"', '"\ue000"', "colour 2, name", "shows nothing that can be read"),
    # --- lists of tubes
    ('["lemon"]', '["lemmon"]', "owned", "the tube 'lemmon' is not in the catalogue. Did you mean"),
    ('["lemon"]', '"lemon"', "owned", "is 'lemon'; it must be a list of texts, such as"),
    ('["lemon"]', '["lemon", 1]', "owned", "is a list; it must be a list of texts"),
    ('["lemon"]', '["lemon", "lemon"]', "owned", "'lemon' stands there more than once; keep one"),
    ('["lemon"]', '["leaf-green"]', "never", "the tube 'leaf-green' is also in owned; take it"),
    ('["deep-blue"]', '["leaf-green"]', "never", "the tube 'leaf-green' is also in must_have"),
    ('["deep-blue"]', '["lemon"]', "must_have", "'lemon' is owned, so it need not be bought"),
    # --- wishes
    ('"II"', '"VI"', "wishes, lightfastness", "is 'VI'; allowed: I, II, III, IV, V."),
    ('"II"', "2", "wishes, lightfastness", "is '2'; allowed, in quotation marks: I, II, III"),
    ('"semi-transparent"', '"clear"', "wishes, transparency", "allowed: transparent, semi-trans"),
    (
        '"semi-transparent"',
        '"opaque"',
        "wishes, transparency",
        "is 'opaque'; allowed: transparent, semi-transparent, semi-opaque.",
    ),
    (
        '"cadmium", "lead"',
        '"arsenic"',
        "wishes, avoid_hazards",
        "the entry is 'arsenic'; allowed:",
    ),
    ('"cadmium", "lead"', '"led"', "wishes, avoid_hazards", "the entry is 'led'; allowed: cadmium"),
    ('"cadmium", "lead"', '"led"', "wishes, avoid_hazards", "Did you mean 'lead'?"),
    ("millilitres = 5", "millilitres = -5", "wishes, millilitres", "it must be from 0 to 1,000."),
    ("wash = 0.5", "wash = 1.5", "wishes, thinnest_wash", "is '1.5'; it must be from 0 to 1."),
    ("in_mix = 2", "in_mix = 0", "wishes, most_in_mix", "a whole number from 1 to 3."),
    ("in_mix = 2", "in_mix = 2.5", "wishes, most_in_mix", "it must be a whole number"),
    ("in_mix = 2", 'in_mix = "2"', "wishes, most_in_mix", "without quotes: write 2."),
    ("coverage = 0.9", "coverage = 90", "wishes, least_coverage", "is '90'; it must be from 0 to"),
]


@pytest.mark.parametrize(("old", "new", "key", "what"), SPOILT)
def test_a_spoilt_scenario_is_told(
    change: Change, catalogue: Catalogue, *, old: str, new: str, key: str, what: str
) -> None:
    faults = faults_of_scenario(change(old, new), catalogue)
    assert any(fault.where == f"box.toml, {key}" and what in fault.what for fault in faults), faults
    assert all(fault.what.endswith((".", "?")) for fault in faults)


def test_all_faults_are_told_at_once(change: Change, catalogue: Catalogue) -> None:
    path = change('currency = "EUR"\nbudget = 12.50', 'currency = "USD"\nbudget = 0\ncolor = 1')
    with pytest.raises(InputError) as raised:
        read_scenario(path, catalogue)
    assert {fault.where for fault in raised.value.faults} == {
        "box.toml, currency",
        "box.toml, budget",
        "box.toml, color",
    }


def test_a_faulty_name_is_not_taken_for_a_flower(change: Change, catalogue: Catalogue) -> None:
    path = change('name = "primrose"\n[[colour]]\nname = "my dahlia"', "[[colour]]\nname = 5")
    assert [str(fault) for fault in faults_of_scenario(path, catalogue)] == [
        "box.toml, flower 2, name: is missing; give a text.",
        "box.toml, colour 1, name: is '5'; it must be a text in quotation marks.",
    ]


def test_a_name_is_known_in_either_form_of_unicode(tmp_path: Path) -> None:
    demo = read_catalogue()
    rose = replace(demo.flowers["daffodil"], name="ros\u00e9")
    held = replace(demo, flowers={rose.name: rose})
    path = tmp_path / "a.toml"
    text = 'title = "x"\ncurrency = "EUR"\nbudget = 5\n[[flower]]\nname = "rose\u0301"\n'
    path.write_text(text, encoding="utf-8")
    assert read_scenario(path, held).flowers[0].name == rose.name


@pytest.mark.parametrize(
    ("code", "fault"),
    [
        ("CHF", None),
        ("franc", "is 'franc'; write the three capital letters of ISO 4217, such as EUR"),
    ],
)
def test_where_nothing_is_for_sale_any_currency_will_do(
    sound: Path, catalogue: Catalogue, code: str, fault: str | None
) -> None:
    tubes = {id_: replace(tube, offers=()) for id_, tube in catalogue.tubes.items()}
    unpriced = replace(catalogue, tubes=tubes)
    assert currencies(unpriced) == ()
    assert currencies_to_choose(unpriced) == ("EUR",)
    assert currency_fault(code, unpriced) == fault
    text = sound.read_text(encoding="utf-8").replace('"EUR"', f'"{code}"')
    sound.write_text(text, encoding="utf-8")
    said = [str(told) for told in faults_of_scenario(sound, unpriced)]
    assert said == ([] if fault is None else [f"box.toml, currency: {fault}."])


@pytest.mark.parametrize(
    "entry", ["budget = 1.234,50", "budget = 12,50", "budget=12,50 # euro", "budget = 12,50\r"]
)
def test_a_decimal_comma_is_told(tmp_path: Path, catalogue: Catalogue, entry: str) -> None:
    (fault,) = told(tmp_path, f'title = "x"\n{entry}\ncurrency = "EUR"\n', catalogue)
    assert fault.startswith(
        "odd.toml: is not TOML: a number takes a point for its decimals, not a comma (at line 2,"
    )


def test_line_ends_of_an_old_kind_are_told(sound: Path, catalogue: Catalogue) -> None:
    sound.write_bytes(sound.read_bytes().replace(b"\n", b"\r"))
    assert [str(fault) for fault in faults_of_scenario(sound, catalogue)] == [
        "box.toml: ends its lines with CR alone; save it with line ends LF or CRLF."
    ]


def test_names_with_commas_are_listed_in_quotation_marks(tmp_path: Path) -> None:
    demo = read_catalogue()
    text = 'title = "x"\ncurrency = "EUR"\nbudget = 5\n[[flower]]\nname = "qqqq"\n'
    (tmp_path / "a.toml").write_text(text, encoding="utf-8")
    (fault,) = faults_of_scenario(tmp_path / "a.toml", demo)
    names = list(demo.flowers)
    assert any("," in name for name in names[:12])
    assert fault.what == (
        "the flower 'qqqq' is not in the catalogue. It holds "
        + "; ".join(f"'{name}'" for name in names[:12])
        + f" and {len(names) - 12} more."
    )


def told(tmp_path: Path, text: str, catalogue: Catalogue) -> list[str]:
    """Return the faults of a scenario's text."""
    path = tmp_path / "odd.toml"
    path.write_text(text, encoding="utf-8")
    return [str(fault) for fault in faults_of_scenario(path, catalogue)]


def test_nothing_to_paint_is_told(tmp_path: Path, catalogue: Catalogue) -> None:
    text = 'title = "x"\ncurrency = "EUR"\nbudget = 5\npaper = "plain"\nlight = "E"\n'
    expected = [
        "odd.toml: there is nothing to paint: no flower and no colour of your own is named; name"
        " at least one [[flower]] or [[colour]]."
    ]
    assert told(tmp_path, text, catalogue) == expected
    assert told(tmp_path, text + "flower = []\n", catalogue) == expected


@pytest.mark.parametrize(
    ("text", "reason"),
    [
        ("title = \n", "Invalid value (at line 1, column 9)"),
        ('a = 1\ntitle "x"\n', "(at line 2, column 7)"),
        ("a = 1\na = 2\n", "Cannot overwrite a value (at line 2, column 6)"),
    ],
)
def test_broken_toml_is_told_with_its_place(
    tmp_path: Path, catalogue: Catalogue, text: str, reason: str
) -> None:
    # The words are those of Python's own tomllib; only the place is asserted where they may vary.
    (fault,) = told(tmp_path, text, catalogue)
    assert fault.startswith("odd.toml: is not TOML: ")
    assert reason[reason.index("(at") :] in fault
    assert fault.endswith("; correct that place.")


@pytest.mark.parametrize(
    "text",
    ["a = " + "[" * 100_000, f"budget = {'9' * 5000}", f"a = {'{a=' * 10_000}"],
    ids=["deep list", "many digits", "deep table"],
)
def test_toml_beyond_all_bounds_is_told(tmp_path: Path, catalogue: Catalogue, text: str) -> None:
    (fault,) = told(tmp_path, text, catalogue)
    assert fault.startswith(("odd.toml: is n", "odd.toml, line 1: holds a number of thousands"))


def test_an_endless_whole_number_is_told(change: Change, catalogue: Catalogue) -> None:
    path = change("most_tubes = 3", f"most_tubes = 0x{'f' * 5000}")
    (fault,) = faults_of_scenario(path, catalogue)
    assert fault.what == (
        "is a number of very many digits; it must be a whole number from 1 to 1,000."
    )


@pytest.mark.parametrize(
    ("key", "heading"), [("flower", "[[flower]]"), ("colour", "[[colour]]"), ("wishes", "[wishes]")]
)
def test_a_value_in_place_of_a_table_is_told(
    tmp_path: Path, catalogue: Catalogue, key: str, heading: str
) -> None:
    assert f"odd.toml, {key}: must be written as a table under {heading}." in told(
        tmp_path, f'{key} = "rose"\n', catalogue
    )


@pytest.mark.parametrize(
    ("rows", "where", "what"),
    [
        ("380,0.5\n730,1.5\n", ", row 3", "reflectance is '1.5'; it must be from 0 to 1."),
        ("380,0.5\n730,x\n", ", row 3", "reflectance is 'x', which is not a plain number"),
        ("380,0.5\n730,0.5\n", "", "has a gap after 380 nm; at most 10 nm are allowed"),
        ("390,0.5\n400,0.5\n", "", "goes from 390 to 400 nm; it must cover 380 to 730 nm."),
        ("390,0.5\n380,0.5\n", "", "has 380 nm out of order or twice; sort the rows"),
        ("", "", "holds a header but no rows; add at least one."),
    ],
)
def test_a_poor_measurement_is_told(
    sound: Path, catalogue: Catalogue, *, rows: str, where: str, what: str
) -> None:
    (sound.parent / "moss.csv").write_text("nm,reflectance\n" + rows, encoding="utf-8")
    (fault,) = faults_of_scenario(sound, catalogue)
    assert fault.where == f"box.toml, colour 3, reflectance moss.csv{where}"
    assert what in fault.what


@pytest.mark.parametrize("name", ["gone.csv", ".", "..", "a\\u0000b", "x" * 190 + "/" + "y" * 9])
def test_a_measurement_that_is_not_there_is_told(
    change: Change, catalogue: Catalogue, name: str
) -> None:
    faults = faults_of_scenario(change('"moss.csv"', f'"{name}"'), catalogue)
    assert faults
    assert all(fault.where.startswith("box.toml, colour 3, reflectance") for fault in faults)


def test_a_missing_scenario_is_told(tmp_path: Path, catalogue: Catalogue) -> None:
    (fault,) = faults_of_scenario(tmp_path / "gone.toml", catalogue)
    assert fault.where == "gone.toml"
    assert "there is no such file in the folder" in fault.what


def test_a_scenario_in_another_encoding_is_told(sound: Path, catalogue: Catalogue) -> None:
    sound.write_bytes(b'# first\ntitle = "Gr\xfcn"\n')
    (fault,) = faults_of_scenario(sound, catalogue)
    assert fault.where == "box.toml, line 2"


def test_all_scenarios_of_a_folder_are_found(sound: Path, tmp_path: Path) -> None:
    (tmp_path / "a.toml").write_text("title =", encoding="utf-8")
    (tmp_path / "z.toml").write_text("budget = 1", encoding="utf-8")
    assert scenario_files(tmp_path) == (tmp_path / "a.toml", sound, tmp_path / "z.toml")


def test_a_folder_without_scenarios_is_told(tmp_path: Path) -> None:
    with pytest.raises(InputError) as raised:
        scenario_files(tmp_path)
    what = "holds no scenario; put a file that ends in .toml there."
    assert raised.value.faults == (Fault(str(tmp_path), what),)
    with pytest.raises(InputError, match=r"there is no such folder .* that holds the scenarios\."):
        scenario_files(tmp_path / "gone")
