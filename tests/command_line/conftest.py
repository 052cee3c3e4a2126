"""Commands run in this process, on a small catalogue, with a shop that answers at once.

The shop here is a stand-in: it buys nothing and covers nothing, so that what is tested is how the
command line asks and tells. `test_end_to_end.py` runs the real one.
"""

import csv
import math
import shutil
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from pathlib import Path
from types import ModuleType

import pytest
from tests.remixed import mixed_of
from typer.testing import CliRunner

from fewtubes.catalogue.location import demo_catalogue_folder
from fewtubes.catalogue.records import Catalogue
from fewtubes.command_line.main import app
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.samples import Sample
from fewtubes.mixing.deadline import Deadline
from fewtubes.scenario.records import Scenario
from fewtubes.selection.certificate import Certificate, Method, Status
from fewtubes.shopping.clock import Clock
from fewtubes.shopping.plan import Plan
from fewtubes.shopping.plan_parts import Caution, FlowerCoverage, Obstacle, PlannedSample, TradeOff
from fewtubes.shopping.puddles import Puddling
from fewtubes.shopping.question import Question, pose
from fewtubes.shopping.steadiness import MonteCarlo

SMALL = Path(__file__).parents[1] / "catalogue" / "small_catalogue"

SCENARIO = """\
title = "A window box"
currency = "EUR"
budget = 12.50
paper = "plain"
light = "E"
[[flower]]
name = "cornflower"
"""


@dataclass(frozen=True)
class Told:
    """How a command ended."""

    code: int
    out: str
    err: str


Run = Callable[..., Told]


@dataclass
class FakeShop:
    """Keeps what it was asked; raises what a test puts into `trouble`."""

    trouble: BaseException | None = None
    questions: list[Scenario] = field(default_factory=list)
    seconds: list[float] = field(default_factory=list)
    caches: list[Cache] = field(default_factory=list)
    trials: list[MonteCarlo | None] = field(default_factory=list)
    puddlings: list[Puddling] = field(default_factory=list)

    def answered(
        self,
        catalogue: Catalogue,
        scenario: Scenario,
        *,
        limits: "FakeLimits",
        progress: Callable[[str], None] | None = None,
        cache: Cache,
        trials: MonteCarlo | None = None,
        puddling: Puddling = Puddling.EACH_FLOWER,
    ) -> "FakeAnswered":
        """Return a plan that covers nothing."""
        assert progress is not None
        progress("mixing [bold]")
        self.questions.append(scenario)
        self.seconds.append(limits.seconds)
        self.caches.append(cache)
        self.trials.append(trials)
        self.puddlings.append(puddling)
        if self.trouble is not None:
            raise self.trouble
        return FakeAnswered(empty_plan(catalogue, scenario), catalogue, cache)


@dataclass(frozen=True)
class FakeAnswered:
    """A plan, whose question is only posed if something goes on from it."""

    plan: Plan
    catalogue: Catalogue
    cache: Cache

    @cached_property
    def question(self) -> Question:
        """The question that the plan would answer."""
        return pose(
            self.catalogue, self.plan.scenario, cache=self.cache, progress=lambda _stage: None
        )


@dataclass(frozen=True)
class FakeLimits:
    """Stands for the shop's limits."""

    seconds: float = 60.0
    method: object = None
    whole: bool = False
    kept: float = 0.0

    def mixing(self) -> Deadline:
        """Return an endless time."""
        return Deadline()

    def clock(self, _mixing: Deadline) -> Clock:
        """Return all the time."""
        return Clock(self.seconds, None)


def empty_plan(catalogue: Catalogue, scenario: Scenario) -> Plan:
    """Return a plan that buys nothing."""
    wishes = [wish.name for wish in scenario.flowers]
    samples = tuple(
        PlannedSample(
            sample=Sample(name, "petal", (50.0, 10.0, 10.0), 10_000),
            covered=False,
            recipe=None,
            match=math.inf,
            mix_lab=(96.0, 0.0, 0.0),
            match_if_unsteady=math.inf,
            obstacle=Obstacle.BUDGET,
            remedies=(),
        )
        for name in wishes
    )
    return Plan(
        scenario=scenario,
        catalogue_label=catalogue.label,
        tubes=(),
        set_aside=(),
        cost=0,
        coverage=0.0,
        flowers=tuple(FlowerCoverage(name, 1.0, 0.0, 0, 1) for name in wishes),
        samples=samples,
        lightfastness=TradeOff(None, (), 0.0, spared_proven=True),
        opacity=TradeOff(None, (), 0.0, spared_proven=True),
        cautions=(Caution("Read the label."),),
        certificate=Certificate(Status.PROVEN, Method.SEARCH, 0, 0, 1, 0.1),
        ties=1,
        ties_complete=True,
        recipe_count=100,
        mixed=mixed_of(samples),
    )


@pytest.fixture(autouse=True, scope="session")
def cache_folder(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Path]:
    """Keep what the commands remember away from the user's own folder."""
    folder = tmp_path_factory.mktemp("cache")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("FEWTUBES_CACHE", str(folder))
        yield folder


@pytest.fixture(autouse=True)
def plain_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let no setting of whoever runs the tests change width or colours."""
    for variable in ("FORCE_COLOR", "TTY_COMPATIBLE", "COLUMNS", "NO_COLOR"):
        monkeypatch.delenv(variable, raising=False)


@pytest.fixture
def fake_shop(monkeypatch: pytest.MonkeyPatch) -> FakeShop:
    """Put a stand-in in the place of the module that answers scenarios."""
    fake = FakeShop()
    module = ModuleType("fewtubes.shopping.shop")
    module.__dict__.update(answered=fake.answered, Limits=FakeLimits)
    monkeypatch.setitem(sys.modules, "fewtubes.shopping.shop", module)
    return fake


@pytest.fixture
def scenario(tmp_path: Path) -> Path:
    """Return the file of a sound scenario for the small catalogue."""
    path = tmp_path / "box.toml"
    path.write_text(SCENARIO, encoding="utf-8")
    return path


@pytest.fixture
def small() -> Sequence[str]:
    """Return the option that chooses the small catalogue."""
    return ("--catalogue", str(SMALL))


@pytest.fixture
def run() -> Run:
    """Return a function that runs the command line in this process."""

    def run_it(*arguments: object) -> Told:
        result = CliRunner().invoke(app, [str(argument) for argument in arguments])
        if result.exception is not None and not isinstance(result.exception, SystemExit):
            raise result.exception
        return Told(result.exit_code, result.stdout, result.stderr)

    return run_it


@pytest.fixture
def few_tubes(tmp_path: Path) -> Callable[..., Path]:
    """Return a function that makes the demo catalogue with some of its tubes only."""

    def make(*ids: str) -> Path:
        folder = tmp_path / "few"
        shutil.copytree(demo_catalogue_folder(), folder)
        for name in ("tubes.csv", "tube_pigments.csv", "offers.csv"):
            table = folder / name
            with table.open(encoding="utf-8", newline="") as file:
                header, *rows = csv.reader(file)
            with table.open("w", encoding="utf-8", newline="") as file:
                writer = csv.writer(file, lineterminator="\n")
                writer.writerow(header)
                writer.writerows(row for row in rows if row[header.index("tube")] in ids)
        return folder

    return make
