"""The page's application in this process, with the long work done at once or never.

`InlineJob` asks the real library, only without a process of its own; `test_job.py` runs processes.
"""

import sys
import threading
from collections.abc import Callable, Iterator
from dataclasses import replace
from itertools import islice
from pathlib import Path
from typing import Any, cast

import pytest
from starlette.applications import Starlette
from starlette.testclient import TestClient
from tests.card.painted import PaintedCard, painted_card
from tests.page.painter import InlineFit, Opens, Painter

from fewtubes.catalogue.reading import read_catalogue, read_unfinished
from fewtubes.catalogue.records import Catalogue
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.optics import optics_for
from fewtubes.errors import FewtubesError
from fewtubes.files.writing import write_all
from fewtubes.keeping.beginning import begun_catalogue
from fewtubes.keeping.kept_catalogue import changed_files
from fewtubes.page.app import make_app
from fewtubes.page.assortment import Assortment, assortment_of
from fewtubes.page.drawn_answer import Answer
from fewtubes.page.fit_job import FitJob
from fewtubes.page.fit_task import FitTask
from fewtubes.page.job import Job, State
from fewtubes.page.settings import Settings
from fewtubes.page.tables_named import beside
from fewtubes.page.worker import Compared, Found, Reported, Task, Told, messages_of

PORT = 8123
TOKEN = "a-token-for-tests"  # noqa: S105
ORIGIN = f"http://127.0.0.1:{PORT}"

Begin = Callable[[Task], Job]
Open = Callable[[Begin], TestClient]


class InlineJob:
    """Work that is done before it is begun."""

    def __init__(self, task: Task) -> None:
        self.state = State.DONE
        self.stages = ["getting ready"]
        self.sentence = ""
        self.answer: Answer | None = None
        self.costs: str | None = None
        self.report: str | None = None
        self.seconds = 0.0
        self.ended = threading.Event()
        self.ended.set()
        try:
            for message in messages_of(task, progress=self.stages.append):
                match message:
                    case Found():
                        self.answer = message.answer
                    case Compared():
                        self.costs, self.report = message.markup, message.page
                    case Reported():
                        self.report = message.page
        except FewtubesError as error:
            self.state, self.sentence = State.FAILED, str(error)

    def stop(self) -> None:
        """Do nothing: there is nothing to stop."""


class ComparingJob(InlineJob):
    """Work whose answer is there and whose comparison never ends by itself."""

    def __init__(self, task: Task) -> None:
        super().__init__(task)
        self.costs = None
        self.ended.clear()
        self.stops = 0

    def stop(self) -> None:
        """Count how often it was stopped."""
        self.stops += 1
        self.ended.set()


class EndlessJob:
    """Work that goes on until it is stopped."""

    def __init__(self) -> None:
        self.state = State.RUNNING
        self.stages = ["getting ready", "mixing 72 tubes for 8 colours"]
        self.sentence = ""
        self.answer: Answer | None = None
        self.costs: str | None = None
        self.report: str | None = None
        self.seconds = 1.0
        self.ended = threading.Event()
        self.stops = 0

    def stop(self) -> None:
        """Count how often it was stopped."""
        self.stops += 1
        self.state = State.STOPPED
        self.ended.set()


@pytest.fixture
def _answers_alone(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let work end with the answer, where nobody looks at comparison and report."""
    all_of = messages_of

    def answer(task: Task, progress: Callable[[str], None]) -> Iterator[Told]:
        return islice(all_of(task, progress=progress), 1)

    monkeypatch.setattr(sys.modules[__name__], "messages_of", answer)


@pytest.fixture(scope="session")
def demo() -> Catalogue:
    return read_catalogue()


@pytest.fixture(scope="session")
def cache_folder(shared_cache: Cache) -> Path:
    assert shared_cache.folder is not None
    return shared_cache.folder


@pytest.fixture(scope="session")
def settings(cache_folder: Path) -> Settings:
    return Settings(port=PORT, cache=cache_folder, token=TOKEN)


@pytest.fixture(scope="session")
def assortment(demo: Catalogue, cache_folder: Path) -> Assortment:
    return assortment_of(demo, optics_for(demo, "cotton-white", "D65", Cache(cache_folder)))


@pytest.fixture
def app(demo: Catalogue, settings: Settings, assortment: Assortment) -> Starlette:
    """Return the application whose work is done at once."""
    return make_app(settings, demo, assortment, begin=lambda task: cast(Job, InlineJob(task)))


@pytest.fixture
def stranger(app: Starlette) -> Iterator[TestClient]:
    """Return a browser that has no token."""
    with TestClient(app, base_url=ORIGIN) as client:
        yield client


@pytest.fixture
def browser(stranger: TestClient) -> TestClient:
    """Return the painter's browser, which names its origin as browsers do."""
    stranger.get(f"/open/{TOKEN}", follow_redirects=False)
    stranger.headers["origin"] = ORIGIN
    return stranger


@pytest.fixture
def endless() -> list[EndlessJob]:
    """Return the list that `stuck_browser` adds its work to."""
    return []


@pytest.fixture
def stuck_browser(
    demo: Catalogue, settings: Settings, assortment: Assortment, endless: list[EndlessJob]
) -> Iterator[TestClient]:
    """Return a browser of an application whose work never ends by itself."""

    def begin(_task: Task) -> Job:
        endless.append(EndlessJob())
        return cast(Job, endless[-1])

    app = make_app(settings, demo, assortment, begin=begin)
    with TestClient(app, base_url=ORIGIN, headers={"origin": ORIGIN}) as client:
        client.get(f"/open/{TOKEN}", follow_redirects=False)
        yield client


@pytest.fixture
def comparing() -> list[ComparingJob]:
    """Return the list that `comparing_browser` adds its work to."""
    return []


@pytest.fixture
def comparing_app(
    demo: Catalogue, settings: Settings, assortment: Assortment, comparing: list[ComparingJob]
) -> Starlette:
    """Return an application that answers, and then goes on comparing."""

    def begin(task: Task) -> Job:
        comparing.append(ComparingJob(task))
        return cast(Job, comparing[-1])

    return make_app(settings, demo, assortment, begin=begin)


@pytest.fixture
def comparing_browser(comparing_app: Starlette) -> Iterator[TestClient]:
    """Return a browser of that application."""
    with TestClient(comparing_app, base_url=ORIGIN, headers={"origin": ORIGIN}) as client:
        client.get(f"/open/{TOKEN}", follow_redirects=False)
        yield client


@pytest.fixture
def filled() -> dict[str, str | list[str]]:
    """Return the form filled in for one flower."""
    return {
        "title": "One flower",
        "flower": ["cornflower"],
        "budget": "12.00",
        "currency": "EUR",
        "most_tubes": "",
        "tolerance": "4",
        "paper": "cotton-white",
        "light": "D65",
    }


@pytest.fixture
def opens(demo: Catalogue, settings: Settings, assortment: Assortment) -> Iterator[Opens]:
    """Return what opens the page with other settings."""
    clients = []

    def opened(kind: type[InlineFit] = InlineFit, **changes: Any) -> Painter:
        fits: list[InlineFit] = []

        def begin_fit(task: FitTask) -> FitJob:
            fits.append(kind(task))
            return cast(FitJob, fits[-1])

        folder, flowers = changes.get("catalogue"), changes.get("flowers")
        read = demo if folder is None else read_unfinished(folder, str(folder))
        first = next(iter(changes.get("prices", ())), None)
        catalogue = beside(read, prices=first, flowers=flowers)
        drawn = flowers is not None or len(changes.get("prices", ())) > 1
        optics = None if not drawn else optics_for(catalogue, "cotton-white", "D65", Cache())
        app = make_app(
            replace(settings, **changes),
            catalogue,
            assortment if optics is None else assortment_of(catalogue, optics, priced=False),
            begin=lambda task: cast(Job, InlineJob(task)),
            begin_fit=begin_fit,
        )
        client = TestClient(app, base_url=ORIGIN, headers={"origin": ORIGIN})
        clients.append(client.__enter__())
        client.get(f"/open/{TOKEN}", follow_redirects=False)
        return Painter(client, f"{client.get('/').url.path}paints", fits)

    yield opened
    for client in clients:
        client.__exit__()


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """Return the folder of a catalogue that was just begun."""
    folder = tmp_path / "my-paints"
    write_all(folder, changed_files(None, begun_catalogue(folder)))
    return folder


@pytest.fixture
def box(tmp_path: Path) -> Path:
    path = tmp_path / "box.toml"
    path.write_text("[tubes] # mine\n", encoding="utf-8")
    return path


@pytest.fixture(scope="session")
def card(shared_cache: Cache) -> PaintedCard:
    return painted_card("A4", 2, shared_cache)
