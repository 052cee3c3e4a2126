"""A class that paints: what it asks, as a value, in a scenario's file, and changed by options."""

from decimal import Decimal
from pathlib import Path
from typing import Any

import pytest

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.catalogue.records import Catalogue, Hazard
from fewtubes.errors import InputError
from fewtubes.scenario.class_wish import HALF_PAN, ClassWish, Pupils, TubesFor
from fewtubes.scenario.overrides import with_overrides
from fewtubes.scenario.picture_wish import PictureWish
from fewtubes.scenario.reading import faults_of_scenario, read_scenario
from fewtubes.scenario.records import Scenario, Wishes
from fewtubes.scenario.scenario_text import scenario_contents

PLAIN: dict[str, Any] = {"currency": "EUR", "flowers": ["primrose"]}

HEAD = 'title = "x"\ncurrency = "EUR"\n'
FLOWER = '[[flower]]\nname = "primrose"\n'


@pytest.fixture(scope="module")
def demo() -> Catalogue:
    return read_catalogue()


def read(folder: Path, demo: Catalogue, text: str, *, budget: str = "budget = 40\n") -> Scenario:
    path = folder / "one.toml"
    path.write_text(f"{HEAD}{budget}{FLOWER}{text}", encoding="utf-8")
    return read_scenario(path, demo)


def faults(folder: Path, demo: Catalogue, text: str, *, budget: str = "budget = 40\n") -> list[str]:
    path = folder / "one.toml"
    path.write_text(f"{HEAD}{budget}{FLOWER}{text}", encoding="utf-8")
    return [f"{fault.where}: {fault.what}" for fault in faults_of_scenario(path, demo)]


def test_a_levy_makes_the_budget() -> None:
    """12 × 3.50 = 42.00; the levy is kept to the hundredth, so that nothing is rounded."""
    scenario = Scenario(**PLAIN, group=ClassWish(12, levy=Decimal("3.50")))
    assert (scenario.budget, scenario.budget_hundredths) == (Decimal("42.00"), 4200)
    as_float = ClassWish(12, levy=3.5)  # type: ignore[arg-type]  # any number will do
    assert Scenario(**PLAIN, budget=42, group=as_float).budget_hundredths == 4200


@pytest.mark.parametrize(
    ("pupils", "most", "every_hazard"),
    [("children", 2, True), ("beginners", 3, True), ("grown-ups", 3, False)],
)
def test_what_pupils_ask_for_is_in_the_wishes(pupils: str, most: int, every_hazard: bool) -> None:
    group = ClassWish(12, pupils=pupils)  # type: ignore[arg-type]  # the word will do
    scenario = Scenario(**PLAIN, budget=40, group=group)
    assert scenario.wishes.most_in_mix == most
    assert (scenario.wishes.avoid_hazards == tuple(Hazard)) is every_hazard


def test_pupils_of_whom_nothing_is_said_are_treated_with_care() -> None:
    assert ClassWish(12).pupils is Pupils.BEGINNERS
    assert ClassWish(12).avoids_every_hazard


def test_what_is_wished_of_hazards_goes_before_the_pupils() -> None:
    group = ClassWish(12, pupils=Pupils.CHILDREN, hazards_as_wished=True)
    wishes = Wishes(avoid_hazards=(Hazard.LEAD,), most_in_mix=1)
    scenario = Scenario(**PLAIN, budget=40, wishes=wishes, group=group)
    assert scenario.wishes.avoid_hazards == (Hazard.LEAD,)
    assert scenario.wishes.most_in_mix == 1  # fewer than children may


@pytest.mark.parametrize(
    ("given", "where", "what"),
    [
        ({"painters": 1}, "painters", "is 1; it must be from 2 to 500."),
        ({"painters": 501}, "painters", "it must be from 2 to 500."),
        ({"painters": 2.5}, "painters", "it must be a whole number from 2 to 500."),
        ({"pictures": 0}, "pictures", "it must be from 1 to 1,000."),
        ({"tubes": "some"}, "tubes", "one of 'one each', 'shared', 'pans'"),
        ({"pupils": "cats"}, "pupils", "one of children, beginners, grown-ups"),
        ({"levy": 0}, "levy", "is 0, which buys nothing"),
        ({"levy": "3.505"}, "levy", "at most two decimals"),
        ({"levy": "three"}, "levy", "is 'three', which is no amount; give one such as 3.50."),
        ({"levy": 10_000, "painters": 101}, "levy", "all 101 painters that is '1010000'"),
        ({"tubes": "pans", "pan_millilitres": 0}, "pan_millilitres", "from 0.1 to 30"),
        ({"pan_millilitres": 2}, "pan_millilitres", "tubes is 'one each'; leave it out, or"),
    ],
)
def test_a_class_checks_itself(given: dict[str, Any], where: str, what: str) -> None:
    with pytest.raises(InputError) as told:
        ClassWish(**{"painters": 12} | given)
    assert [fault.where for fault in told.value.faults] == [where]
    assert what in told.value.faults[0].what


def test_every_fault_is_told_at_once() -> None:
    with pytest.raises(InputError) as told:
        ClassWish(1, tubes="some", levy=-1)  # type: ignore[arg-type]
    assert {fault.where for fault in told.value.faults} == {"painters", "tubes", "levy"}


def test_a_budget_must_not_contradict_the_levy() -> None:
    with pytest.raises(InputError, match=r"budget: is 40\.00, but a levy of 3\.50 from each of 12"):
        Scenario(**PLAIN, budget=40, group=ClassWish(12, levy=Decimal("3.5")))
    with pytest.raises(InputError, match="budget: is missing"):
        Scenario(**PLAIN)
    with pytest.raises(InputError, match="group: holds 12; it must be ClassWish"):
        Scenario(**PLAIN | {"budget": 40, "group": 12})


def test_without_a_budget_a_class_is_told_of_the_levy(tmp_path: Path) -> None:
    asked = tmp_path / "class.toml"
    asked.write_text(
        'title = "Class"\ncurrency = "EUR"\n[[flower]]\nname = "rose"\n[class]\npainters = 6\n',
        encoding="utf-8",
    )
    with pytest.raises(InputError, match=r"budget: is missing; .* or a class a levy"):
        read_scenario(asked, read_catalogue())


def test_another_budget_ends_a_levy() -> None:
    group = ClassWish(12, levy=Decimal("3.5"), tubes=TubesFor.PANS)
    changed = Scenario(**PLAIN, group=group).with_budget(2000)
    assert changed.budget == 20
    assert changed.group == ClassWish(12, tubes=TubesFor.PANS)


def test_the_table_is_read(tmp_path: Path, demo: Catalogue) -> None:
    text = (
        '[class]\npainters = 12\npictures = 3\ntubes = "pans"\npan_millilitres = 2.5\n'
        'levy = 3.50\npupils = "children"\n'
    )
    scenario = read(tmp_path, demo, text, budget="")
    assert scenario.group == ClassWish(
        12,
        TubesFor.PANS,
        Pupils.CHILDREN,
        pictures=3,
        pan_millilitres=2.5,
        levy=Decimal("3.50"),
    )
    assert scenario.budget_hundredths == 4200
    few = read(tmp_path, demo, "[class]\npainters = 12\n").group
    assert few == ClassWish(12, TubesFor.ONE_EACH, Pupils.BEGINNERS)
    assert few is not None
    assert few.pan == HALF_PAN


@pytest.mark.parametrize(
    ("wishes", "avoided"),
    [
        ("", tuple(Hazard)),
        ("avoid_hazards = []\n", ()),
        ('avoid_hazards = ["lead"]\n', (Hazard.LEAD,)),
    ],
)
def test_the_file_may_say_otherwise_of_hazards(
    tmp_path: Path, demo: Catalogue, wishes: str, avoided: tuple[Hazard, ...]
) -> None:
    scenario = read(tmp_path, demo, f"[wishes]\n{wishes}[class]\npainters = 12\n")
    assert scenario.wishes.avoid_hazards == avoided


@pytest.mark.parametrize(
    ("text", "told"),
    [
        ('pupils = "children"\n', "class, painters: is missing; give how many paint"),
        ('painters = "12"\n', "class, painters: is '12'; it must be a number, without quotes"),
        ("painters = 1\n", "class, painters: is 1; it must be from 2 to 500."),
        ("painters = 2.5\n", "class, painters: is 2.5; it must be a whole number from 2 to 500."),
        ("painters = 12\nlevy = 3.505\n", "class, levy: is '3.505'; it may have at most two dec"),
        ('painters = 12\nlevy = "3"\n', "class, levy: is '3'; it must be a number, without quotes"),
        ("painters = 12\npupils = 3\n", "class, pupils: is '3'; it must be a word in quotation"),
        ('painters = 12\npupils = "cats"\n', "must be one of children, beginners, grown-ups"),
        ("painters = 12\npainter = 3\n", "class, painter: unknown key; allowed here: painters, "),
        ("painters = 12\nbudget = 3\n", "class, budget: this key belongs at the top of the file"),
        ("painters = 12\nlevy = 3.50\n", "budget: is 40.00, but a levy of 3.50 from each of 12"),
        ("painters = 12\npan_millilitres = 2\n", "class, pan_millilitres: is said, but tubes is"),
    ],
)
def test_a_spoilt_table_is_told(tmp_path: Path, demo: Catalogue, text: str, told: str) -> None:
    (fault,) = faults(tmp_path, demo, f"[class]\n{text}")
    assert fault.startswith("one.toml, ")
    assert told in fault


def test_more_tubes_in_a_mix_than_children_may_are_told(tmp_path: Path, demo: Catalogue) -> None:
    children = '[class]\npainters = 12\npupils = "children"\n[wishes]\nmost_in_mix = 3\n'
    (fault,) = faults(tmp_path, demo, children)
    assert "wishes, most_in_mix: is '3', but children mix at most 2 tubes; leave it out" in fault
    assert not faults(tmp_path, demo, children.replace("= 3", "= 1"))


def test_what_is_no_table_is_told(tmp_path: Path, demo: Catalogue) -> None:
    path = tmp_path / "one.toml"
    path.write_text(f"{HEAD}budget = 40\nclass = 12\n{FLOWER}", encoding="utf-8")
    told = [f"{fault.where}: {fault.what}" for fault in faults_of_scenario(path, demo)]
    assert told[0] == "one.toml, class: must be written as a table under [class]."


def test_a_levy_at_fault_makes_no_missing_budget(tmp_path: Path, demo: Catalogue) -> None:
    (fault,) = faults(tmp_path, demo, "[class]\npainters = 12\nlevy = 0\n", budget="")
    assert "class, levy: is 0, which buys nothing" in fault


@pytest.mark.parametrize(
    ("group", "wishes"),
    [
        (ClassWish(12, levy=Decimal("3.50")), Wishes()),
        (ClassWish(3, TubesFor.PANS, Pupils.CHILDREN, 4, 1.25), Wishes(thinnest_wash=0.5)),
        (ClassWish(3, TubesFor.SHARED, Pupils.CHILDREN, hazards_as_wished=True), Wishes()),
        (ClassWish(3, TubesFor.SHARED, pictures=1), Wishes()),
        (ClassWish(3, pictures=1), Wishes()),
        (
            ClassWish(3, pupils=Pupils.GROWN_UPS),
            Wishes(avoid_hazards=(Hazard.LEAD,), most_in_mix=2),
        ),
        (ClassWish(9, hazards_as_wished=True), Wishes(avoid_hazards=tuple(Hazard), most_in_mix=1)),
    ],
)
def test_a_class_is_read_again_as_it_was_written(
    tmp_path: Path, demo: Catalogue, group: ClassWish, wishes: Wishes
) -> None:
    budget = None if group.levy else 40
    scenario = Scenario(**PLAIN, budget=budget, group=group, wishes=wishes)
    for name, text in scenario_contents(scenario).items():
        (tmp_path / name).write_text(text, encoding="utf-8")
    again = read_scenario(tmp_path / "scenario.toml", demo)
    assert (again.group, again.wishes, again.budget) == (group, scenario.wishes, scenario.budget)


def test_options_change_the_number_of_painters(demo: Catalogue) -> None:
    """15 × 3.50 = 52.50."""
    scenario = Scenario(**PLAIN, group=ClassWish(12, levy=Decimal("3.50")))
    more = with_overrides(scenario, catalogue=demo, painters=15)
    assert more.group == ClassWish(15, levy=Decimal("3.50"))
    assert more.budget_hundredths == 5250
    richer = with_overrides(scenario, catalogue=demo, painters=15, budget=80)
    assert (richer.group, richer.budget_hundredths) == (ClassWish(15), 8000)
    same = with_overrides(scenario, catalogue=demo, tolerance=3)
    assert (same.group, same.budget) == (scenario.group, scenario.budget)


def test_faults_of_options_name_them(demo: Catalogue) -> None:
    children = Scenario(**PLAIN, budget=40, group=ClassWish(12, pupils=Pupils.CHILDREN))
    for scenario, given, told in (
        (Scenario(**PLAIN, budget=40), {"painters": 12}, "painters: the scenario has no class;"),
        (children, {"painters": 1}, "painters: is 1; it must be from 2 to 500."),
        (children, {"most_in_mix": 3}, "most_in_mix: is 3, but children mix at most 2 tubes;"),
    ):
        with pytest.raises(InputError) as caught:
            with_overrides(scenario, catalogue=demo, **given)  # type: ignore[arg-type]
        (fault,) = caught.value.faults
        assert f"{fault.where}: {fault.what}".startswith(told)


@pytest.mark.parametrize(
    ("group", "picture", "planned"),
    [
        (ClassWish(12), None, None),
        (ClassWish(12, TubesFor.PANS), None, None),
        (ClassWish(12, TubesFor.PANS, pictures=3), None, PictureWish(36)),  # 12 × 3
        (ClassWish(12, pictures=1), None, PictureWish(12)),
        (ClassWish(12, TubesFor.SHARED, pictures=3), None, PictureWish(36)),  # 12 × 3
        (ClassWish(12, TubesFor.SHARED), PictureWish(waste=1), PictureWish(12, waste=1)),
        (ClassWish(12, pictures=2), PictureWish(waste=1), PictureWish(24, waste=1)),  # 12 × 2
        (ClassWish(12), PictureWish(waste=1), PictureWish(12, waste=1)),
    ],
)
def test_a_class_says_how_many_pictures_there_are(
    tmp_path: Path,
    demo: Catalogue,
    group: ClassWish,
    picture: PictureWish | None,
    planned: PictureWish | None,
) -> None:
    scenario = Scenario(**PLAIN, budget=40, group=group, picture=picture)
    assert scenario.picture == planned
    (tmp_path / "s.toml").write_text(scenario_contents(scenario)["scenario.toml"], encoding="utf-8")
    again = read_scenario(tmp_path / "s.toml", demo)
    assert (again.picture, again.group) == (planned, group)


def test_pictures_are_told_by_the_class_alone(tmp_path: Path, demo: Catalogue) -> None:
    shared = '[class]\npainters = 12\npictures = 3\ntubes = "shared"\n[picture]\npictures = 20\n'
    (fault,) = faults(tmp_path, demo, shared)
    assert "picture, pictures: is '20', but 12 painters with 3 each make 36; leave it" in fault
    assert not faults(tmp_path, demo, shared.replace("= 20", "= 36"))
    scenario = Scenario(**PLAIN, budget=40, group=ClassWish(12))
    with pytest.raises(InputError, match="paint_for: the scenario is of a class, which says how"):
        with_overrides(scenario, catalogue=demo, paint_for=3)


def test_more_pictures_than_can_be_reckoned_are_told(demo: Catalogue) -> None:
    """500 × 21 = 10,500, where 10,000 are allowed."""
    for tubes in TubesFor:
        with pytest.raises(
            InputError, match=r"^pictures: makes pictures of all 500 painters whose"
        ):
            ClassWish(500, tubes, pictures=21)
        assert ClassWish(500, tubes, pictures=20).all_pictures == 10_000
    scenario = Scenario(**PLAIN, budget=40, group=ClassWish(20, pictures=21))
    with pytest.raises(InputError, match="painters: makes pictures of all 500 painters whose num"):
        with_overrides(scenario, catalogue=demo, painters=500)
