"""Scenarios answered on a Dask cluster, whose machines share no disk with this one.

What each scenario needs goes there as values, catalogue, colours mixed and all, and the bytes of
its files come back; only this machine writes. Nothing but the address that was given is contacted,
and nothing listens here. A cluster runs whatever it is sent, by whoever reaches it (its messages
are pickles), so it belongs into a network of one's own.
"""

import logging
import re
import socket
import time
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from fewtubes import __version__
from fewtubes.catalogue.limits import shown
from fewtubes.coverage.carried import CarriedCache
from fewtubes.errors import Fault, InputError
from fewtubes.term.answering import Answer, Settings, answer
from fewtubes.term.asked import Asked
from fewtubes.term.findings import BatchRow
from fewtubes.words.counting import counted
from fewtubes.words.lists import joined

if TYPE_CHECKING:
    from fewtubes.term.side_by_side import Job

__all__ = ["reached"]

PATIENCE = 8.0
"""How long the cluster may take to answer when it is called [s]."""

TRIES = 1
"""How often a scenario is tried again where a worker failed."""

GRACE = 30.0
"""How long there may be no worker at all before what is left is given up [s]; one that died is
mostly started anew within seconds."""

LOOKS_EVERY = 0.02
"""How often it is looked what has come [s]."""

ADDRESS = re.compile(r"(?:tcp|tls)://(\[[0-9A-Fa-f:.]+\]|[^\s/:\[\]]+):(\d{1,5})")
"""Where a scheduler is: host and port."""

ADDRESS_WORDS = (
    "give the one that the scheduler told when it was started, such as tcp://192.168.1.20:8786"
)

MISSING = (
    "needs dask and distributed, which are not installed: pip install 'fewtubes[cluster]', or leave"
    " the option out to work on this machine."
)


class _Lost(StrEnum):
    """Why nothing comes of what was sent."""

    WITH_WORKER = "the worker that was at it came to a sudden end, mostly for lack of memory"
    NO_WORKER = "no worker is left there"
    CONNECTION = "the connection was lost"


def reached(
    address: str,
) -> "Callable[[Sequence[Job], Settings], Iterator[tuple[int, Answer]]]":
    """Return what answers jobs on the cluster at an address, once that was found fit for it.

    Raises
    ------
    InputError
        If Dask is not installed, nobody answers there, no worker is there, or one is of another
        version of the program.
    """
    with _client(address) as client:
        _check(address, client)

    def spread(jobs: "Sequence[Job]", settings: Settings) -> Iterator[tuple[int, Answer]]:
        with _client(address) as client:
            yield from _answers(client, jobs, settings)

    return spread


@contextmanager
def _client(address: str) -> Iterator[Any]:
    """Connect to the cluster, and leave it; what was not done is then dropped there."""
    try:
        from distributed import Client
    except ImportError as error:
        raise InputError([Fault("cluster", MISSING)]) from error
    _call(address)
    told = logging.getLogger("distributed")
    level = told.level
    told.setLevel(logging.CRITICAL)  # what matters is said in one sentence
    try:
        try:
            client = Client(address, timeout=PATIENCE, set_as_default=False)
        except (OSError, ValueError, TypeError, ImportError) as error:
            what = f"what answers at {shown(address)} is no Dask scheduler; {ADDRESS_WORDS}."
            raise InputError([Fault("cluster", what)]) from error
        try:
            yield client
        finally:
            client.close(timeout=PATIENCE)
    finally:
        told.setLevel(level)


def _call(address: str) -> None:
    """Refuse an address that is none, or at which nobody answers."""
    parts = ADDRESS.fullmatch(address.strip())
    if parts is None:
        raise InputError([Fault("cluster", f"{shown(address)} is no address; {ADDRESS_WORDS}.")])
    try:
        socket.create_connection((parts[1].strip("[]"), int(parts[2])), timeout=PATIENCE).close()
    except (OSError, ValueError, OverflowError) as error:
        what = f"nobody answers at {shown(address)}; {ADDRESS_WORDS}."
        raise InputError([Fault("cluster", what)]) from error


def _check(address: str, client: Any) -> None:
    """Refuse a cluster without workers, or with one of another version."""

    def version() -> str | None:  # a function within another is sent as it is, not by its name
        try:
            from fewtubes import __version__ as installed
        except ImportError:
            return None
        return installed

    found: dict[str, str | None] = client.run(version)
    if not found:
        what = f"there is no worker at {shown(address)}; start at least one there."
        raise InputError([Fault("cluster", what)])
    other = sorted({told or "none" for told in found.values() if told != __version__})
    if other:
        wrong = sum(told != __version__ for told in found.values())
        what = (
            f"{wrong} of {counted(len(found), 'worker')} at {shown(address)} have another version"
            f" of fewtubes ({joined(other)}, here {__version__}); install the same everywhere."
        )
        raise InputError([Fault("cluster", what)])


def _answers(
    client: Any, jobs: "Sequence[Job]", settings: Settings
) -> Iterator[tuple[int, Answer]]:
    """Yield the answers to all jobs, as they come.

    One that a worker died of, or that died beside it, is tried again when all others are done, by
    itself, so that it takes none with it.
    """
    again: list[int] = []
    for place, end in _ends(client, dict(enumerate(jobs)), settings):
        if end is _Lost.WITH_WORKER:
            again.append(place)
        else:
            yield place, _told(jobs[place][0], end)
    last: Answer | str = ""
    for place in again:
        if last not in (_Lost.NO_WORKER, _Lost.CONNECTION):
            ((_, last),) = _ends(client, {place: jobs[place]}, settings)
        yield place, _told(jobs[place][0], last)


def _ends(
    client: Any, jobs: "Mapping[int, Job]", settings: Settings
) -> "Iterator[tuple[int, Answer | str]]":
    """Yield the answer to each of some jobs, or why there is none, as they come."""
    try:
        sent = _sent(client, jobs, settings)
    except (OSError, TimeoutError):  # nobody is there to take it
        yield from ((place, _lost(client, _Lost.NO_WORKER)) for place in jobs)
        return
    workers_seen = time.monotonic()
    while sent:
        ended = [place for place, future in sent.items() if future.status != "pending"]
        for place in ended:
            yield place, _end(client, sent.pop(place))
        if ended:
            workers_seen = time.monotonic()
        elif time.monotonic() > workers_seen + GRACE and not _workers(client):
            yield from ((place, _lost(client, _Lost.NO_WORKER)) for place in sent)
            return
        elif sent:
            time.sleep(LOOKS_EVERY)


def _sent(client: Any, jobs: "Mapping[int, Job]", settings: Settings) -> dict[int, Any]:
    """Send jobs to the cluster, what was mixed once for all that share it; return what comes."""
    carried: dict[int, Any] = {}
    for _, mixed in jobs.values():
        if id(mixed.held) not in carried:
            carried[id(mixed.held)] = client.scatter(mixed, hash=False, timeout=PATIENCE)
    return {
        place: client.submit(
            _answered, __version__, asked, carried[id(mixed.held)], settings, pure=False,
            retries=TRIES,
        )
        for place, (asked, mixed) in jobs.items()
    }  # fmt: skip


def _answered(version: str, asked: Asked, mixed: CarriedCache, settings: Settings) -> Answer:
    """Return the answer to a scenario, on a worker; refused by one of another version."""
    if version != __version__:
        raise InputError([Fault("cluster", f"a worker has fewtubes {__version__}, not {version}")])
    return answer(asked, mixed, settings)


def _end(client: Any, future: Any) -> "Answer | str":
    """Return the answer that has come, or why there is none."""
    from distributed import KilledWorker

    try:
        found: Answer = future.result(timeout=PATIENCE)
    except Exception as error:  # whatever a worker met, which is told in the row
        if future.status != "error" or isinstance(error, KilledWorker):
            return _lost(client, _Lost.WITH_WORKER)
        return str(error).splitlines()[0] if str(error) else type(error).__name__
    finally:
        future.release()
    return found


def _workers(client: Any) -> bool:
    """Return whether any worker is there."""
    try:
        return bool(client.nthreads())
    except Exception:  # the scheduler is gone, in whatever words that is told
        return False


def _lost(client: Any, why: _Lost) -> _Lost:
    """Return why nothing comes, which is the connection if there is none."""
    return why if client.status == "running" else _Lost.CONNECTION


def _told(asked: Asked, end: "Answer | str") -> Answer:
    """Return an answer, or the row that tells why there is none."""
    if isinstance(end, Answer):
        return end
    fault = Fault(asked.file, f"The cluster could not answer it ({end}); give the command again.")
    return Answer(BatchRow(asked.name, asked.file, asked.title, (fault,)))
