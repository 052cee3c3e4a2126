"""The hand-out as one page to print for each painter: A4, and fit to be copied in black and white.

It is made small enough for five or six paints and two or three flowers; more flowers run on to
further sheets, none of which parts a puddle.
"""

from importlib.resources import files

from markupsafe import Markup

from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.handout import (
    HandoutSubject,
    handout_subjects,
    handout_tubes,
    white_sheet,
)
from fewtubes.report.illustrated.markup import drawn, fill
from fewtubes.report.illustrated.page import inks_style, style_digest
from fewtubes.report.sentences.painters import leader_words, painter_cautions
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["handout_page"]


def handout_page(basis: Basis) -> str:
    """Return the page: paints, flowers with their puddles, cautions; the name is left blank."""
    plan = basis.plan
    group = plan.scenario.group
    pupils = None if group is None else group.pupils
    style = _style(basis)
    tubes, subjects = handout_tubes(basis), handout_subjects(basis)
    letters = {
        planned.tube.name: tube.letter for planned, tube in zip(plan.tubes, tubes, strict=True)
    }
    return fill(
        "handout.html",
        title=printable(plan.scenario.title),
        style=style,
        style_digest=style_digest(style),
        tubes=tubes,
        subjects=[(subject, _drawn(subject, turn)) for turn, subject in enumerate(subjects)],
        pans=group is not None and group.tubes.value == "pans",
        cautions=painter_cautions(pupils),
        about=[
            (
                joined([letters.get(name, printable(name)) for name in caution.tubes]),
                caution.short or caution.text,
            )
            for caution in plan.cautions
            if caution.tubes
        ],
        leader=leader_words(pupils),
        source=printable(plan.catalogue_label),
    )


def _drawn(subject: HandoutSubject, turn: int) -> list[Markup]:
    """Return the drawings of a subject, whose ids are told apart by its turn."""
    return [
        drawn(picture, prefix=f"drawing{turn}-{number}-")
        for number, picture in enumerate(subject.pictures)
    ]


def _style(basis: Basis) -> Markup:
    written = (files("fewtubes.report.illustrated") / "handout.css").read_text(encoding="utf-8")
    return Markup(inks_style(white_sheet(basis)) + written)  # noqa: S704  # our own file, hex colours
