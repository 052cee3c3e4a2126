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
from fewtubes.shopping.plan import Plan
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
        about=_about(plan, letters),
        leader=leader_words(pupils),
        source=printable(plan.catalogue_label),
    )


def _drawn(subject: HandoutSubject, turn: int) -> list[tuple[str, Markup]]:
    """Return names and drawings of a subject, whose ids are told apart by its turn.

    A name is left out where the subject bears it already.
    """
    several = len(subject.pictures) > 1
    return [
        (name if several else "", drawn(picture, prefix=f"drawing{turn}-{number}-"))
        for number, (name, picture) in enumerate(subject.pictures)
    ]


def _about(plan: Plan, letters: dict[str, str]) -> list[tuple[str, str]]:
    """Return what some paints call for, by their letters, each letters' cautions together."""
    told: dict[str, list[str]] = {}
    for caution in plan.cautions:
        if caution.tubes:
            named = joined([letters.get(name, printable(name)) for name in caution.tubes])
            told.setdefault(named, []).append(caution.short or caution.text)
    return [(named, " ".join(texts)) for named, texts in told.items()]


def _style(basis: Basis) -> Markup:
    written = (files("fewtubes.report.illustrated") / "handout.css").read_text(encoding="utf-8")
    return Markup(inks_style(white_sheet(basis)) + written)  # noqa: S704  # our own file, hex colours
