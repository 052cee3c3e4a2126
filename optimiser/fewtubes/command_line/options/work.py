"""What is worked with and looked for, and how long: catalogue, what was computed before, time.

The time means one of four things, so it has four helps: `shop`, `why`, `box` and `compare` prove
something and leave open what is not proven in time; `batch` does so for each of many; `mix` and
`unmixable` try every mixture or nothing is told; on the page it is the patience of every answer,
with a default that is shown.
"""

from pathlib import Path
from typing import Annotated

import typer
from typer.models import OptionInfo

from fewtubes.command_line.typed import number_reader
from fewtubes.defaults import PROOF_SECONDS

__all__ = [
    "CatalogueOption",
    "NoCacheOption",
    "SearchText",
    "SecondsForAll",
    "SecondsForEach",
    "SecondsOfProof",
    "SecondsOption",
]


def _seconds(words: str, *, metavar: str | None = "S") -> OptionInfo:
    """Return the option of a time [s]."""
    option: OptionInfo = typer.Option(
        "--seconds", parser=number_reader("--seconds"), metavar=metavar, help=words
    )
    return option


CatalogueOption = Annotated[
    Path | None,
    typer.Option("--catalogue", metavar="FOLDER", help="Tables to use instead of the demo ones."),
]
NoCacheOption = Annotated[
    bool, typer.Option("--no-cache", help="Neither use nor keep what was computed before.")
]
SecondsOption = Annotated[
    float | None,
    _seconds(
        "Time for the whole answer, mixing included: what is not proven by then is left open."
        f" If not said, {PROOF_SECONDS:g} for the proof, and mixing may take an hour."
    ),
]
SecondsOfProof = Annotated[
    float | None,
    _seconds(
        f"Time for the proof of each choice, {PROOF_SECONDS:g} if not said: what is not proven by"
        " then is left open."
    ),
]
SecondsForAll = Annotated[
    float | None, _seconds("Time after which mixing is given up; an hour if not said.")
]
SecondsForEach = Annotated[
    float, _seconds("Time after which an unproven answer will do.", metavar=None)
]
SearchText = Annotated[
    str,
    typer.Argument(
        metavar="[TEXT]",
        help="Words that must all occur; plurals and small slips will do.",
        show_default=False,
    ),
]
