"""``fewtubes catalogue``: what is typed becomes a catalogue, whole or not at all."""

import shutil
from pathlib import Path

import pytest
import typer
from tests.command_line.conftest import SMALL, Run

from fewtubes.catalogue.reading import TABLE_COLUMNS, read_catalogue
from fewtubes.catalogue.records import Catalogue, Hazard, Lightfastness, Offer
from fewtubes.command_line.main import app
from fewtubes.keeping.kept_catalogue import KeptCatalogue, looked_through


@pytest.fixture
def mine(tmp_path: Path) -> Path:
    """Return a copy of the small catalogue."""
    return Path(shutil.copytree(SMALL, tmp_path / "mine"))


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def test_from_nothing_to_a_sound_catalogue(run: Run, tmp_path: Path) -> None:
    folder = tmp_path / "mine"
    begun = run("catalogue", "new", folder)
    assert begun.code == 0
    words = " ".join(begun.out.split())
    assert words.startswith("Begun with 5 papers and 4 lights of the demo. It holds no tube yet:")
    assert f"Written to '{folder}': pigments.csv, spectra.csv," in begun.out

    missing = run("check", "--catalogue", folder)
    assert missing.code == 2
    assert missing.err == (
        f"{folder}: is begun but holds no tubes yet; fit them from swatches, or bring them in with"
        " `fewtubes catalogue add`, `merge` or `import`.\n"
    )

    added = run(
        *("catalogue", "add", "My blue", "--into", folder, "--pigments", "PB29", "--from", "demo"),
        *("--pack", "5=3.90", "--pack", "15=8.5", "--currency", "EUR", "--lightfastness", "ii"),
        *("--hazard", "cobalt", "--hazard-note", "wear gloves", "--note", "a gift"),
        *("--strength", "0.6", "--id", "mine"),
    )
    assert added.code == 0
    assert added.out.startswith(
        "Added: 1 pigment (mine); 1 tube (mine).\n"
        "Added: 2 packs (mine 5 ml EUR 3.90, mine 15 ml EUR 8.50).\n"
        "My blue: lightfastness and hazards as its label says.\n"
    )
    tube = read_catalogue(folder).tubes["mine"]
    assert (tube.strength, tube.lightfastness) == (0.6, Lightfastness.II)
    assert (tube.hazards, tube.hazard_notes) == ((Hazard.COBALT,), ("wear gloves",))
    assert tube.offers == (Offer(5.0, 390, "EUR"), Offer(15.0, 850, "EUR"))
    assert run("check", "--catalogue", folder).code == 0


def test_the_commands_told_to_a_beginner_work(run: Run, tmp_path: Path) -> None:
    told = " ".join(run("catalogue", "new", tmp_path / "mine").out.split())
    _, _, command = told.partition("put one in with `fewtubes ")
    words = command.partition("`")[0].replace("NAME", "Blue").split()
    assert run(*words).code == 0
    assert list(read_catalogue(tmp_path / "mine").tubes) == ["blue"]


def test_new_with_flowers_or_empty(run: Run, tmp_path: Path) -> None:
    assert "48 flowers of the demo" in run("catalogue", "new", tmp_path / "a", "--with-flowers").out
    empty = run("catalogue", "new", tmp_path / "b", "--empty")
    assert empty.out.startswith("Begun with header rows alone.")
    for name, columns in TABLE_COLUMNS.items():
        assert (tmp_path / "b" / name).read_text() == ",".join(columns) + "\n"
    both = run("catalogue", "new", tmp_path / "c", "--empty", "--with-flowers")
    assert both.code == 2
    assert not (tmp_path / "c").exists()


def test_new_overwrites_nothing(run: Run, mine: Path) -> None:
    before = contents(mine)
    refused = run("catalogue", "new", mine)
    assert refused.code == 2
    assert "and nothing is overwritten; name another folder." in refused.err
    assert contents(mine) == before


def test_a_pack_alone_touches_no_colour(run: Run, mine: Path) -> None:
    before = contents(mine)
    added = run("catalogue", "add", "Lemon", "--into", mine, "--pack", "15=9", "--currency", "EUR")
    assert added.out == (
        f"Added: 1 pack (lemon 15 ml EUR 9.00).\n\nWritten to '{mine}': offers.csv.\n"
    )
    after = contents(mine)
    assert {name for name in after if after[name] != before[name]} == {"offers.csv"}


@pytest.mark.parametrize(
    ("typed", "told"),
    [
        ((), "'Lemon': is to be added, but of what? Name its pigments, or a pack of it."),
        (("--note", "x"), "'Lemon': only a new tube takes more than packs; name its pigments with"),
        (("--pack", "5:3"), "--pack: is '5:3'; write its millilitres and its price with points,"),
        (("--pack", "5=3,90"), "--pack: is '5=3,90'; write its millilitres and its price with poi"),
        (("--pack", "5=4.5"), "--currency: is not clear: the catalogue has EUR, GBP; say it, EUR"),
        (("--pack", "5=0", "--currency", "EUR"), "--pack: the price is '0'; it must be above 0"),
        (("--pigments", "PB29 x y"), "--pigments: is 'PB29 x y'; name each pigment, as in PR122"),
        (("--pigments", "PB29"), "NAME: 'Lemon' is in"),
        (("--pigments", "PB29", "--hazard", "cobold"), "--hazard: is 'cobold'; allowed: cadmium,"),
        (("--hazard", "none", "--hazard", "lead"), "--hazard: is 'none' beside others; leave one"),
        (("--hazard", "None", "--hazard", "lead"), "--hazard: is 'none' beside others; leave one"),
        (("--pigments", "PB29", "--lightfastness", "6"), "--lightfastness: is '6'; allowed: I, II"),
    ],
)
def test_what_cannot_be_added_is_told_in_a_sentence(
    run: Run, mine: Path, typed: tuple[str, ...], told: str
) -> None:
    before = contents(mine)
    refused = run("catalogue", "add", "Lemon", "--into", mine, *typed)
    assert (refused.code, refused.out) == (2, "")
    assert refused.err.startswith(told)
    assert contents(mine) == before


def test_no_hazard_on_the_label(run: Run, mine: Path) -> None:
    done = run("catalogue", "add", "Sea", "--into", mine, "--pigments", "PG50", "--hazard", "none")
    assert done.code == 0
    assert read_catalogue(mine).tubes["sea-2"].hazards == ()


def test_merging_lists_every_conflict_and_writes_nothing(
    run: Run, mine: Path, tmp_path: Path
) -> None:
    other = Path(shutil.copytree(mine, tmp_path / "other"))
    offers = (other / "offers.csv").read_text()
    (other / "offers.csv").write_text(
        "".join(offers.replace("5,3.50", "5,3.60").replace("5,4,", "5,5,"))
    )
    before = contents(mine)
    refused = run("catalogue", "merge", other, "--into", mine)
    assert refused.code == 2
    assert refused.err.count("say which to keep, ours or theirs.\n") == 2
    assert contents(mine) == before

    left = run("catalogue", "merge", other, "--into", mine, "--keep", "ours")
    assert left.code == 0
    words = "".join(left.out.split())  # a long path may be parted at the end of a line
    told = f"'{mine}': nothing was changed. Left as it was: the pack of 5 ml"
    assert words.startswith("".join(told.split()))
    assert contents(mine) == before

    taken = run("catalogue", "merge", other, "--into", mine, "--keep", "theirs")
    assert taken.out.startswith(
        "New prices: deep-blue 5 ml EUR 3.60 instead of 3.50, lemon 5 ml EUR 5 instead of"
    )
    assert contents(mine) == contents(other)
    again = run("catalogue", "merge", other, "--into", mine)
    words = "".join(again.out.split())
    assert words == "".join(f"'{mine}': all of it is there; nothing was changed.".split())


def test_all_conflicts_are_told_however_many(run: Run, tmp_path: Path) -> None:
    """Elsewhere twenty faults are told, as `fewtubes check` tells the rest; not so here."""
    folder, other = tmp_path / "mine", tmp_path / "other"
    for place in (folder, other):
        run("catalogue", "new", place, "--empty")
        assert run("catalogue", "merge", "demo", "--into", place).code == 0
    tubes = (other / "tubes.csv").read_text()
    (other / "tubes.csv").write_text(tubes.replace(",1,\n", ",0.9,\n"))
    refused = run("catalogue", "merge", other, "--into", folder)
    assert refused.err.count("\n") == tubes.count(",1,\n") > 20


def test_prices_only(run: Run, mine: Path, tmp_path: Path) -> None:
    other = Path(shutil.copytree(mine, tmp_path / "other"))
    for name, old, new in (
        ("offers.csv", "5,3.50", "5,3.60"),
        ("tubes.csv", "Lemon,1.2", "Lemon,1"),
    ):
        (other / name).write_text((other / name).read_text().replace(old, new))
    done = run("catalogue", "merge", other, "--into", mine, "--prices-only")
    assert done.out.startswith("New prices: deep-blue 5 ml EUR 3.60 instead of 3.50.\n")
    assert done.out.endswith("offers.csv.\n")
    assert "Lemon,1.2" in (mine / "tubes.csv").read_text()


def test_a_word_that_is_no_side_is_told(run: Run, mine: Path) -> None:
    told = run("catalogue", "merge", mine, "--into", mine, "--keep", "mine")
    assert (told.code, told.err) == (2, "--keep: is 'mine'; allowed: ours, theirs.\n")


def test_a_sheet_is_brought_in(run: Run, mine: Path, tmp_path: Path) -> None:
    sheet, names = tmp_path / "list.csv", tmp_path / "names.toml"
    sheet.write_text("Tube;ml;Price\nLemon;5;4,20\nNone;5;3\n")
    names.write_text(
        'fills = "prices"\ndecimal = ","\n[columns]\nname = "Tube"\nml = "ml"\nprice = "Price"\n'
        '[always]\ncurrency = "EUR"\n'
    )
    before = contents(mine)
    refused = run("catalogue", "import", sheet, "--columns", names, "--into", mine)
    assert refused.code == 2
    assert refused.err.startswith("list.csv, row 3: Tube is 'None', which is no tube")
    assert contents(mine) == before
    sheet.write_text("Tube;ml;Price\nLemon;5;4,20\n")
    done = run("catalogue", "import", sheet, "--columns", names, "--into", mine)
    assert done.out.startswith("New prices: lemon 5 ml EUR 4.20 instead of 4.\n")


def test_what_a_killed_run_left_is_settled_before_the_folder_is_read(
    run: Run, mine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A journal and a half-changed place stay behind where a run is cut off (tests/files)."""
    from fewtubes.files import writing

    class Killed(BaseException):
        pass

    def cut_off(*_args: object) -> None:
        raise Killed

    files = {
        name: (mine / name).read_text().replace(old, new)
        for name, old, new in (
            ("tubes.csv", "Lemon", "Lime"),
            ("offers.csv", "lemon,5,4", "lemon,5,6"),
        )
    }
    with monkeypatch.context() as patch:
        patch.setattr(writing, "put_in_place", lambda journals: _half(journals, Killed))
        patch.setattr(writing, "put_back", cut_off)
        patch.setattr(writing, "clear", cut_off)
        with pytest.raises(Killed):
            writing.write_all(mine, files)
    assert "Lime" in (mine / "tubes.csv").read_text()
    assert "lemon,5,4," in (mine / "offers.csv").read_text()  # half of it only
    done = run("catalogue", "add", "Lime", "--into", mine, "--pack", "15=9", "--currency", "EUR")
    assert "An earlier run broke off while it wrote to" in done.err
    added = files["offers.csv"].replace("lemon,5,6,EUR\n", "lemon,5,6,EUR\nlemon,15,9.00,EUR\n")
    assert (mine / "offers.csv").read_text() == added


def _half(journals: object, error: type[BaseException]) -> None:
    from fewtubes.files.journal import Journal

    assert isinstance(journals, list)
    (journal,) = journals
    assert isinstance(journal, Journal)
    journal.staged(0).replace(journal.target(0))
    raise error


def test_a_table_that_changed_meanwhile_is_not_overwritten(
    run: Run, mine: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Another run writes after this one has read, before it writes."""

    def slowly(kept: KeptCatalogue) -> Catalogue:
        with (mine / "offers.csv").open("a") as file:
            file.write("lemon,15,9,EUR\n")
        return looked_through(kept)

    monkeypatch.setattr("fewtubes.keeping.outcome.looked_through", slowly)
    done = run("catalogue", "add", "Lemon", "--into", mine, "--pack", "10=7", "--currency", "EUR")
    assert (done.code, done.out) == (2, "")
    assert done.err == (
        f"In '{mine}' offers.csv changed while this was worked out; nothing was written. Give the"
        " command again.\n"
    )
    assert (mine / "offers.csv").read_text().endswith("lemon,15,9,EUR\n")
    assert "lemon,10" not in (mine / "offers.csv").read_text()


def test_every_option_has_a_help() -> None:
    group = typer.main.get_command(app).commands["catalogue"]  # type: ignore[attr-defined]
    assert set(group.commands) == {"new", "add", "add-flower", "merge", "import"}
    for name, command in group.commands.items():
        assert command.help
        for option in command.params:
            assert option.help, (name, option.opts)
