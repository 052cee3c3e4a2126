"""A painter who brings in paints on the page; the fit is the real one, at once or never.

`InlineFit` does without a process of its own, and what it has fitted once it does not fit again;
`test_fit_job.py` runs processes.
"""

import io
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

import pytest
from PIL import Image
from starlette.testclient import TestClient

from fewtubes.card.picture import unpacked
from fewtubes.catalogue.files import HeldFile
from fewtubes.errors import Fault, InputError
from fewtubes.page.fit_task import FitFound, FitTask
from fewtubes.page.fit_work import found_of
from fewtubes.page.job import State
from fewtubes.page.unpacking import Unpacker

SWATCHES = """\
tube,pigments,strength,hex
paper,,,#f4f1e8
my rose,PV19,1,#b3204f
my rose,,0.25,#e2a3b4
<b>sky</b>,,1,#2f66b0
<b>sky</b>,,0.25,#a9c0e0
"""
"""Two tubes; colours of our own invention that a pink and a blue may have."""


FOUND: dict[bytes, FitFound] = {}
"""What tables were fitted to, by their content."""


def found_once(task: FitTask, tell: Callable[[str], None]) -> FitFound:
    """Return what is fitted; a table that was fitted before is not fitted again."""
    if not isinstance(task.swatches, HeldFile):
        return found_of(task, progress=tell)
    content = task.swatches.content
    if content not in FOUND:
        FOUND[content] = found_of(task, progress=tell)
    return FOUND[content]


@dataclass
class InlineFit:
    """A fit that is done before it is begun."""

    task: FitTask
    state: State = State.DONE
    stages: list[str] = field(default_factory=list)
    found: FitFound | None = None
    faults: tuple[Fault, ...] = ()
    seconds: float = 0.0
    stops: int = 0

    def __post_init__(self) -> None:
        try:
            self.found = found_once(self.task, self.stages.append)
        except InputError as error:
            self.state, self.faults = State.FAILED, error.faults

    def stop(self) -> None:
        """Count how often it was stopped."""
        self.stops += 1


@dataclass
class EndlessFit(InlineFit):
    """A fit that goes on until it is stopped."""

    def __post_init__(self) -> None:
        self.state, self.stages = State.RUNNING, ["fitting tube 1 of 2"]

    def stop(self) -> None:
        """Stop."""
        super().stop()
        self.state = State.STOPPED


@dataclass
class Painter:
    """A painter's browser at the page of a tab."""

    browser: TestClient
    place: str
    fits: list[InlineFit]

    def get(self, name: str = "") -> Any:
        """Return a page or file beneath that page."""
        return self.browser.get(f"{self.place}{name}")

    def post(self, name: str, **sent: Any) -> Any:
        """Send a form."""
        return self.browser.post(f"{self.place}/{name}", **sent)

    def fit(self, text: str = SWATCHES) -> str:
        """Fit a table and return the page that shows it."""
        self.post("table", files={"swatches": ("my.csv", text.encode())})
        return str(self.get().text)


Opens = Callable[..., Painter]


def adding(**more: Any) -> dict[str, Any]:
    """Return the form that adds both tubes of `SWATCHES`."""
    return {"take": ["0", "1"], "name-0": "my rose", "name-1": "sky", **more}


def contents(folder: Path) -> dict[str, bytes]:
    return {path.name: path.read_bytes() for path in folder.iterdir()}


def unpacked_here(monkeypatch: pytest.MonkeyPatch) -> bytes:
    """Unpack in this process, which is quicker; return a small picture."""
    monkeypatch.setattr(Unpacker, "unpack_card", lambda _self, data: unpacked(data, "photograph"))
    out = io.BytesIO()
    Image.new("RGB", (60, 80), (250, 249, 245)).save(out, "PNG")
    return out.getvalue()
