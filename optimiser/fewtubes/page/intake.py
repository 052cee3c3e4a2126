"""The body of a form, read in memory: fields as text, and at most one photograph."""

from dataclasses import dataclass
from urllib.parse import parse_qs

from starlette.datastructures import UploadFile
from starlette.formparsers import MultiPartException, MultiPartParser
from starlette.requests import Request

from fewtubes.colour.photograph import LARGEST_BYTES
from fewtubes.errors import Fault, InputError
from fewtubes.page.guard import MOST_FORM_BYTES
from fewtubes.page.tabs import Values

__all__ = ["Intake", "read_form"]

MOST_FIELDS = 2000
"""Several for each flower, tube and colour of a large catalogue."""

UNREADABLE = "cannot be read as a form; go back and send it again."


@dataclass(frozen=True)
class Intake:
    """What was sent."""

    values: Values
    photograph: bytes | None = None


class _InMemory(MultiPartParser):
    """A parser that never puts a file on the disk; the guard limits what comes at all."""

    spool_max_size = LARGEST_BYTES + MOST_FORM_BYTES


async def read_form(request: Request) -> Intake:
    """Return the fields of a form.

    Raises
    ------
    InputError
        If it cannot be read.
    """
    if request.headers.get("content-type", "").startswith("multipart/form-data"):
        return await _multipart(request)
    body = await request.body()
    try:
        fields = parse_qs(body.decode("utf-8"), keep_blank_values=True, max_num_fields=MOST_FIELDS)
    except ValueError:  # UnicodeDecodeError, or too many fields
        raise _unreadable() from None
    return Intake(fields)


async def _multipart(request: Request) -> Intake:
    try:
        parser = _InMemory(
            request.headers,
            request.stream(),
            max_files=1,
            max_fields=MOST_FIELDS,
            max_part_size=MOST_FORM_BYTES,
        )
        form = await parser.parse()
    except (MultiPartException, KeyError, ValueError):
        raise _unreadable() from None
    values: dict[str, list[str]] = {}
    photograph: bytes | None = None
    try:
        for key, value in form.multi_items():
            if isinstance(value, UploadFile):
                photograph = await value.read() or None
            else:
                values.setdefault(key, []).append(value)
    finally:
        await form.close()
    return Intake(values, photograph)


def _unreadable() -> InputError:
    return InputError([Fault("form", UNREADABLE)])
