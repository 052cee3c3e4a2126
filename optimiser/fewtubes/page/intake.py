"""The body of a form, read in memory: fields as text, and at most two files."""

import sys
import threading
from collections.abc import AsyncGenerator, Mapping
from contextlib import asynccontextmanager
from dataclasses import dataclass, field
from urllib.parse import parse_qs

from starlette.datastructures import FormData, UploadFile
from starlette.formparsers import MultiPartException, MultiPartParser
from starlette.requests import Request

from fewtubes.catalogue.files import HeldFile
from fewtubes.errors import Fault, InputError
from fewtubes.page.form_size import FormSize
from fewtubes.page.tabs import FormValues

__all__ = ["Intake", "photograph_turn", "read_form", "thrown_away"]

MOST_FILES = 2
"""A photograph, and where the boxes are on it."""

CROWDED = "Others are being looked at; wait a moment, and try again."

UNREADABLE = "cannot be read as a form; go back and send it again."


@dataclass(frozen=True)
class Intake:
    """What was sent."""

    values: FormValues
    files: Mapping[str, HeldFile] = field(default_factory=dict)
    """By field; one in which no file was chosen is not there."""

    @property
    def photograph(self) -> bytes | None:
        """The content of the photograph, if there is one."""
        sent = self.files.get("photograph")
        return None if sent is None else sent.content


class _InMemory(MultiPartParser):
    """A parser that never puts a file on the disk; the guard limits what comes at all."""

    spool_max_size = sys.maxsize
    whole = False
    """Whether the last boundary has come."""

    def on_end(self) -> None:
        """Note that the last boundary has come."""
        self.whole = True

    async def parse(self) -> FormData:
        """Return the form; one that breaks off is none."""
        self.stream = self._to_its_end(self.stream)
        return await super().parse()

    async def _to_its_end(self, stream: AsyncGenerator[bytes, None]) -> AsyncGenerator[bytes, None]:
        async for chunk in stream:
            yield chunk
        if not self.whole:
            raise MultiPartException(UNREADABLE)


async def read_form(request: Request) -> Intake:
    """Return the fields of a form.

    Files are held in memory alone.

    Raises
    ------
    InputError
        If it cannot be read.
    """
    if request.headers.get("content-type", "").startswith("multipart/form-data"):
        return await _multipart(request)
    body = await request.body()
    most: FormSize = request.app.state.run.form_size
    try:
        fields = parse_qs(body.decode("utf-8"), keep_blank_values=True, max_num_fields=most.fields)
    except ValueError:  # UnicodeDecodeError, or too many fields
        raise _unreadable() from None
    return Intake(fields)


@asynccontextmanager
async def photograph_turn(request: Request) -> AsyncGenerator[None, None]:
    """Hold one of the few places for photographs while the body is read and looked at.

    Raises
    ------
    InputError
        If all places are taken; the body was read to its end then.
    """
    places: threading.Semaphore = request.app.state.run.photographs
    if not places.acquire(blocking=False):
        await thrown_away(request)
        raise InputError([Fault("photograph", CROWDED)])
    try:
        yield
    finally:
        places.release()


async def thrown_away(request: Request) -> None:
    """Read a form without keeping anything of it, so that a browser gets to see the answer."""
    async for _ in request.stream():
        pass


async def _multipart(request: Request) -> Intake:
    most: FormSize = request.app.state.run.form_size
    try:
        parser = _InMemory(
            request.headers,
            request.stream(),
            max_files=MOST_FILES,
            max_fields=most.fields,
            max_part_size=most.bytes,
        )
        form = await parser.parse()
    except (MultiPartException, KeyError, ValueError):
        raise _unreadable() from None
    values: dict[str, list[str]] = {}
    files: dict[str, HeldFile] = {}
    try:
        for key, value in form.multi_items():
            if isinstance(value, UploadFile):
                content = await value.read()
                if content:
                    files[key] = HeldFile(value.filename or key, content)
            else:
                f"{key}{value}".encode()  # half a character is no text
                values.setdefault(key, []).append(value)
    except UnicodeEncodeError:
        raise _unreadable() from None
    finally:
        await form.close()
    return Intake(values, files)


def _unreadable() -> InputError:
    return InputError([Fault("form", UNREADABLE)])
