"""A flower of the painter's own is made on the form: from a photograph or by hand.

Every button sends the whole form, so that nothing typed is lost, and leads back to it.
"""

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np
from starlette.concurrency import run_in_threadpool
from starlette.requests import Request
from starlette.responses import Response

from fewtubes.catalogue.collector import FaultCollector
from fewtubes.catalogue.records import Role
from fewtubes.colour.display import lab_to_hex
from fewtubes.colour.flower_colours import FlowerColour, flower_colours
from fewtubes.errors import Fault, InputError
from fewtubes.page.asking import back, found_tab, no_tab, question_page
from fewtubes.page.fields import MOST_OWN_FLOWERS, Fields
from fewtubes.page.intake import Intake, photograph_turn, read_form
from fewtubes.page.own_flowers import (
    BLANK_ROW,
    MOST_ROWS,
    FlowerRow,
    TypedFlower,
    own_flower_values,
    typed_flowers,
    with_flowers,
)
from fewtubes.page.photographed_flower import photographed_rows, photographed_words
from fewtubes.page.run_state import RunState
from fewtubes.scenario.flower_file import FLOWER_FILE_COLUMNS
from fewtubes.scenario.own_flowers import OwnFlower
from fewtubes.scenario.scenario_text import decimal_text
from fewtubes.tables.cells import csv_text
from fewtubes.tables.written_names import written_name

__all__ = ["another_row", "flower_from_photograph", "flower_table", "new_flower", "without_flower"]

BEGUN = tuple(
    FlowerRow(name, "", role.value)
    for name, role in (
        ("light edge", Role.PETAL_LIGHT),
        ("petal", Role.PETAL),
        ("deep base", Role.PETAL_SHADE),
        ("leaf", Role.LEAF),
    )
)
"""What a flower begins with that is made by hand."""

FULL = f"there are {MOST_OWN_FLOWERS} of your own already; take one out, or keep some in a table."

NO_ROOM = f"has {MOST_ROWS} colours already; no more are allowed here."

NUMBERS = {f"{number}": number for number in range(MOST_OWN_FLOWERS)}
"""By which flowers are called in addresses."""

TABLE = "my-flowers.csv"

COLUMNS = tuple(column for column in FLOWER_FILE_COLUMNS if column not in {"L", "a", "b"})

Change = Callable[[Sequence[TypedFlower]], Sequence[TypedFlower]]


async def new_flower(request: Request) -> Response:
    """Begin a flower by hand."""
    return await _changed(request, lambda flowers: _with_new(flowers, BEGUN))


async def flower_from_photograph(request: Request) -> Response:
    """Begin a flower with the colours of a photograph; it is gone when this returns."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    run: RunState = request.app.state.run
    try:
        async with photograph_turn(request):
            intake = await read_form(request)
            tab.values = intake.values
            found = await run_in_threadpool(_colours, intake, run)
        flowers = _with_new(typed_flowers(tab.values), photographed_rows(found))
    except InputError as error:
        return question_page(request, tab, faults=error.faults)
    tab.values = with_flowers(tab.values, flowers)
    tab.flower_said = photographed_words(found)
    return back(tab, f"#{flowers[-1].field}")


async def another_row(request: Request) -> Response:
    """Add a blank row to a flower."""
    number = NUMBERS.get(request.path_params["number"])
    if number is None:
        return no_tab(request)
    return await _changed(request, lambda flowers: _with_row(flowers, number), number)


async def without_flower(request: Request) -> Response:
    """Take a flower out."""
    number = NUMBERS.get(request.path_params["number"])
    if number is None:
        return no_tab(request)
    return await _changed(request, lambda flowers: [f for f in flowers if f.number != number])


async def flower_table(request: Request) -> Response:
    """Return the flowers of one's own as a table that ``--flowers`` takes."""
    tab, run = found_tab(request), request.app.state.run
    if tab is None:
        return no_tab(request)
    try:
        tab.values = (await read_form(request)).values
        faults = FaultCollector()
        flowers = own_flower_values(Fields(tab.values, faults), run.catalogue)
        if not flowers and faults.is_empty:
            faults.note("colours", "no flower is filled in yet; make one first.")
        faults.raise_if_any()
    except InputError as error:
        return question_page(request, tab, faults=error.faults)
    disposition = {"Content-Disposition": f'attachment; filename="{TABLE}"'}
    text = _table(flowers)
    return Response(text.encode("utf-8"), media_type="text/csv", headers=disposition)


async def _changed(request: Request, change: Change, number: int | None = None) -> Response:
    """Change the flowers of the form that was sent, and lead back to one, or to the last."""
    tab = found_tab(request)
    if tab is None:
        return no_tab(request)
    try:
        tab.values = (await read_form(request)).values
        flowers = change(typed_flowers(tab.values))
    except InputError as error:
        return question_page(request, tab, faults=error.faults)
    tab.values = with_flowers(tab.values, flowers)
    fields = {flower.number: flower.field for flower in flowers}
    last = flowers[-1].field if flowers else "own-flowers"
    return back(tab, f"#{last if number is None else fields.get(number, last)}")


def _with_new(flowers: Sequence[TypedFlower], rows: tuple[FlowerRow, ...]) -> Sequence[TypedFlower]:
    """Return the flowers with a further one; blank ones make room for it."""
    kept = [flower for flower in flowers if not flower.blank]
    free = set(range(MOST_OWN_FLOWERS)) - {flower.number for flower in kept}
    if not free:
        raise InputError([Fault("colours", FULL)])
    return [*kept, TypedFlower(min(free), rows=rows)]


def _with_row(flowers: Sequence[TypedFlower], number: int) -> Sequence[TypedFlower]:
    """Return the flowers, one of them with a further row that is named, so that it stays."""
    changed = []
    for flower in flowers:
        if flower.number == number and len(flower.rows) >= MOST_ROWS:
            raise InputError([Fault(flower.field, NO_ROOM)])
        named = replace(BLANK_ROW, name=f"colour {len(flower.rows) + 1}")
        rows = (*flower.rows, named) if flower.number == number else flower.rows
        changed.append(replace(flower, rows=rows))
    return changed


def _colours(intake: Intake, run: RunState) -> tuple[FlowerColour, ...]:
    if intake.photograph is None:
        raise InputError([Fault("photograph", "none is chosen; choose a file first.")])
    return flower_colours(run.unpacker.unpack(intake.photograph))


def _table(flowers: Sequence[OwnFlower]) -> str:
    rows = [
        (
            written_name(flower.name),
            written_name(one.name),
            one.role.value,
            _hex(one.lab),
            decimal_text(one.importance or 1),
        )
        for flower in flowers
        for one in flower.swatches
    ]
    return csv_text(COLUMNS, rows)


def _hex(lab: tuple[float, float, float] | None) -> str:
    return lab_to_hex(np.array(lab or (0.0, 0.0, 0.0)))
