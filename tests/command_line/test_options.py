"""An option that several commands have is declared once, and defaults are those of the library."""

import ast
import inspect
from collections import Counter
from collections.abc import Iterator
from pathlib import Path

import pytest
import typer

import fewtubes.command_line
from fewtubes import defaults
from fewtubes.command_line.main import app
from fewtubes.comparison.extent import Extent
from fewtubes.page.settings import Settings
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.shop import Limits
from fewtubes.shopping.steadiness import MonteCarlo

FOLDER = Path(inspect.getfile(fewtubes.command_line)).parent

HELPS = {
    "--out": 9,
    "--all": 2,
    "--seconds": 4,
    "--within": 2,
    "--names": 2,
    "--report": 2,
    "--prices": 2,
}
"""Options that mean something else from command to command, and how many things they mean."""


def options() -> Iterator[tuple[str, str, tuple[object, ...]]]:
    """Yield command, option, and what is said of it."""
    group = typer.main.get_command(app)
    for name, command in group.commands.items():  # type: ignore[attr-defined]  # it is a group
        for option in command.params:
            for opt in option.opts:
                yield (
                    name,
                    opt,
                    (option.help, option.metavar, str(getattr(option, "multiple", None))),
                )


def test_an_option_is_told_in_the_same_words_by_every_command() -> None:
    told: dict[str, set[tuple[object, ...]]] = {}
    commands: Counter[str] = Counter()
    for _, option, words in options():
        if option.startswith("--"):
            told.setdefault(option, set()).add(words)
            commands[option] += 1
    assert commands["--budget"] == 5  # shop, why, box, compare, batch
    assert {option: len(words) for option, words in told.items() if len(words) > 1} == HELPS


def test_every_option_is_declared_once() -> None:
    """Read from the source: a name of an option is the first word of one declaration only."""
    declared: Counter[str] = Counter()
    for path in FOLDER.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Call) and ast.unparse(node.func).lower().endswith("option"):
                declared.update(
                    str(argument.value)
                    for argument in node.args
                    if isinstance(argument, ast.Constant) and str(argument.value).startswith("--")
                )
    assert len(declared) > 20
    # Of palettes near the best with `compare`, of rivals under variation with `shop`; of tubes on a
    # card, and of flowers alone; a floor, and what a label says of a tube to be added; of an
    # answer, and of an order of buying; a price list, and several to choose from on the page.
    assert {option for option, count in declared.items() if count > 1} == {
        "--within",
        "--names",
        "--lightfastness",
        "--report",
        "--prices",
    }


def test_every_command_that_writes_csv_files_does_so_for_either_spreadsheet() -> None:
    known: dict[str, set[str]] = {}
    for command, option, _ in options():
        known.setdefault(command, set()).add(option)
    writing = {command for command, has in known.items() if "--out" in has}
    # A card is a sheet to print and its layout.
    assert {command for command, has in known.items() if "--spreadsheet" in has} == (
        writing - {"card"}
    )


def test_defaults_of_the_library_are_those_of_the_commands() -> None:
    extent = Extent()
    assert extent == Extent(
        defaults.UP_TO_TUBES,
        defaults.NEAR_BEST_LISTED,
        defaults.NEAR_BEST_WITHIN,
        None,
        defaults.PROOF_SECONDS,
    )
    assert Limits().seconds == Settings(port=0).seconds == defaults.PROOF_SECONDS
    trials = MonteCarlo()
    assert (trials.seed, trials.draws) == (defaults.SEED, defaults.DRAWS)
    assert trials.within == defaults.RIVALS_WITHIN
    scenario = Scenario(budget=1, currency="EUR", flowers=["any"])
    assert (scenario.paper, scenario.light) == (defaults.PAPER, defaults.LIGHT)
    assert scenario.tolerance == defaults.TOLERANCE
    shown = {
        (name, option.name): option.default
        for name, command in typer.main.get_command(app).commands.items()  # type: ignore[attr-defined]
        for option in command.params
    }
    assert shown["compare", "up_to"] == defaults.UP_TO_TUBES
    assert shown["compare", "near"] == defaults.NEAR_BEST_LISTED
    assert shown["compare", "within"] == defaults.NEAR_BEST_WITHIN
    assert shown["page", "seconds"] == defaults.PROOF_SECONDS
    assert shown["mix", "tolerance"] == defaults.TOLERANCE
    assert shown["mix", "most"] == defaults.RECIPES_SHOWN


@pytest.mark.parametrize(
    ("command", "words"),
    [
        ("shop", "not said, 60 for the proof"),
        ("shop", "Of the draws; 1 if left out."),
        ("shop", "How often to vary; 200 if left out."),
        ("shop", "0.01 with --how-sure"),
    ],
)
def test_defaults_told_in_words_are_the_true_ones(command: str, words: str) -> None:
    """The figures are those of `fewtubes.defaults`, written out here a second time on purpose."""
    helps = " ".join(str(said[0]) for name, _, said in options() if name == command)
    assert words in helps
