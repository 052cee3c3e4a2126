"""The templates of the illustrated report, filled in: whatever is not markup already is escaped.

Somebody who knows HTML can change the report in the folder `templates`; the modules beside this one
say what goes into them.
"""

from functools import cache

from jinja2 import ChoiceLoader, Environment, PackageLoader, PrefixLoader, StrictUndefined
from markupsafe import Markup

from fewtubes.picture.shapes import Picture
from fewtubes.picture.sheet import BEYOND, MISSED
from fewtubes.picture.svg import svg_inline
from fewtubes.words.printable import printable
from fewtubes.words.unparted import FIXED_BLANK, unparted

__all__ = ["drawn", "environment", "fill"]

REPORT = "fewtubes.report.illustrated"
"""The package that holds the report's templates."""

LONGEST_TEXT = 4000
"""Characters in one piece of text; longer than anything the program itself has to say."""


def environment(package: str) -> Environment:
    """Return the setting of all templates: they escape, and a missing name is a fault.

    Parameters
    ----------
    package
        The one whose folder `templates` is meant by a plain file name. Those of the report are
        found under ``report/`` as well, so that what both show is written once.
    """
    report = PrefixLoader({"report": PackageLoader(REPORT)})
    return Environment(
        loader=ChoiceLoader([PackageLoader(package), report]),
        autoescape=True,
        undefined=StrictUndefined,
        trim_blocks=True,
        lstrip_blocks=True,
        keep_trailing_newline=True,
    )


def fill(template: str, **values: object) -> Markup:
    """Return a template of this report with values put in, as markup.

    Parameters
    ----------
    template
        Its file name.
    values
        Texts are made fit to print and escaped; pictures are drawn by `drawn`.
    """
    return Markup(_templates().get_template(template).render(values))  # noqa: S704  # escaped there


def drawn(picture: Picture, *, prefix: str = "", spoken: bool = True) -> Markup:
    """Return a picture as markup; see `fewtubes.picture.svg.svg_inline`."""
    return Markup(svg_inline(picture, prefix=prefix, spoken=spoken))  # noqa: S704  # escaped there


@cache
def _templates() -> Environment:
    made = environment(REPORT)
    made.finalize = _fit_to_print
    made.globals.update(BEYOND=BEYOND, MISSED=MISSED)
    return made


def _fit_to_print(value: object) -> object:
    """Return a value as it is put in; in texts a number is not parted from the unit beside it."""
    if isinstance(value, Markup):
        return value
    pieces = (printable(piece, LONGEST_TEXT) for piece in str(value).split(FIXED_BLANK))
    return unparted(FIXED_BLANK.join(pieces))
