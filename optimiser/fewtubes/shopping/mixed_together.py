"""What many scenarios have to mix, mixed once.

Scenarios that share paints, paper, light, thinnest wash and tolerance, and whatever else mixing
follows from, ask for the same recipes of some colours. All colours of such a group are mixed
together; what is found is carried to whoever answers.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from fewtubes.catalogue.records import Catalogue
from fewtubes.colour.bands import FloatArray
from fewtubes.coverage.cache import Cache
from fewtubes.coverage.carried import CarriedCache
from fewtubes.coverage.reach import MOST_IN_SET, SetArray
from fewtubes.coverage.remembered import reach_of
from fewtubes.coverage.value_digest import digest_of
from fewtubes.errors import FewtubesError, LimitError
from fewtubes.mixing.deadline import Deadline
from fewtubes.scenario.records import Scenario
from fewtubes.shopping.question import pose

__all__ = ["Mixed", "mixed_together"]

PASSED_ON = frozenset({"cache", "deadline", "progress"})
"""What mixing is told that nothing of its result follows from."""


@dataclass(frozen=True, eq=False)
class Mixed:
    """What was mixed for a scenario, or why it could not be."""

    cache: CarriedCache = field(default_factory=CarriedCache)
    """Holds all that its question has to be mixed for; shared by a group."""
    error: FewtubesError | None = None


@dataclass(frozen=True, eq=False)
class _Request:
    """What one scenario would have mixed."""

    labs: FloatArray
    arguments: tuple[FloatArray, FloatArray]
    """Absorption and scattering of the tubes, shapes (tubes, bands)."""
    settings: dict[str, Any]
    """Whatever else the result follows from."""

    @property
    def key(self) -> str:
        """What is the same for all that can be mixed together."""
        return digest_of((self.arguments, self.settings))


@dataclass(eq=False)
class _Recorder:
    """Stands in the place of mixing, and notes what it was asked for."""

    request: _Request | None = None

    def __call__(
        self, K: FloatArray, S: FloatArray, labs: FloatArray, **settings: object
    ) -> tuple[SetArray, ...]:
        kept = {name: value for name, value in settings.items() if name not in PASSED_ON}
        self.request = _Request(labs, (K, S), kept)
        return tuple(np.zeros((0, MOST_IN_SET), dtype=np.int16) for _ in labs)


def mixed_together(
    asked: Sequence[tuple[Catalogue, Scenario]],
    *,
    cache: Cache,
    deadline: Deadline,
    progress: Callable[[str], None],
) -> tuple[Mixed, ...]:
    """Mix for all scenarios, each colour of a group once.

    Parameters
    ----------
    asked
        Scenarios, each with the catalogue that it refers to.
    cache
        Where mixing is remembered from run to run.
    deadline
        Until when all of it must be done.
    progress
        Called with a few words whenever a stage begins.

    Returns
    -------
    For each scenario what was mixed; where time or memory is too little for a group, each of it is
    tried alone, and those that fail say so.
    """
    progress("looking at paper and light")
    lights = CarriedCache(cache.folder)
    mixed: list[Mixed | None] = [None] * len(asked)
    groups: dict[str, list[tuple[int, _Request]]] = {}
    for place, (catalogue, scenario) in enumerate(asked):
        try:
            request = _requested(catalogue, scenario, lights)
        except FewtubesError as error:
            mixed[place] = Mixed(error=error)
        else:
            groups.setdefault(request.key, []).append((place, request))
    for group in groups.values():
        shared = CarriedCache(cache.folder, dict(lights.held))
        try:
            labs = np.unique(np.concatenate([request.labs for _, request in group]), axis=0)
            _mix(group[0][1], labs, shared, deadline, progress)
        except LimitError as error:
            single = Mixed(error=error) if len(group) == 1 else None
            for place, request in group:
                mixed[place] = single or _alone(request, shared, deadline, progress)
        else:
            for place, _ in group:
                mixed[place] = Mixed(shared.alone())
    return tuple(one or Mixed() for one in mixed)


def _requested(catalogue: Catalogue, scenario: Scenario, lights: CarriedCache) -> _Request:
    """Return what a scenario has to be mixed for."""
    recorder = _Recorder()
    pose(catalogue, scenario, cache=lights, progress=_quiet, mix=recorder)
    if recorder.request is None:
        raise ValueError("a question was posed and nothing was to be mixed for it")
    return recorder.request


def _mix(
    request: _Request,
    labs: FloatArray,
    cache: Cache,
    deadline: Deadline,
    progress: Callable[[str], None],
) -> None:
    """Mix for colours, (colours, 3), as one of the group asks; the cache then holds them."""
    K, S = request.arguments
    reach_of(K, S, labs, **request.settings, cache=cache, deadline=deadline, progress=progress)


def _alone(
    request: _Request, shared: CarriedCache, deadline: Deadline, progress: Callable[[str], None]
) -> Mixed:
    """Return what was mixed for one scenario of a group that was too much together."""
    own = CarriedCache(shared.folder, dict(shared.held))
    try:
        _mix(request, request.labs, own, deadline, progress)
    except LimitError as error:
        return Mixed(error=error)
    return Mixed(own.alone())


def _quiet(_stage: str) -> None:
    """Tell nobody."""
