"""The hand-out as one page to print for each painter, and fit to be copied in black and white.

It is set as closely as it takes to stand on one sheet of A4 or US Letter (`handout_setting`); what
cannot be read on one runs on to further sheets, which part neither a flower from its drawing nor a
puddle.
"""

from importlib.resources import files

from markupsafe import Markup

from fewtubes.picture.line_drawing import line_drawing
from fewtubes.picture.sheet import Sheet
from fewtubes.report.illustrated.basis import Basis
from fewtubes.report.illustrated.handout import (
    Handout,
    HandoutPuddle,
    HandoutSubject,
    handout_subjects,
    handout_tubes,
    white_sheet,
)
from fewtubes.report.illustrated.handout_height import setting_for, span
from fewtubes.report.illustrated.handout_setting import Setting
from fewtubes.report.illustrated.markup import drawn, fill
from fewtubes.report.illustrated.page import inks_style, style_digest
from fewtubes.report.sentences.painters import leader_words, painter_cautions
from fewtubes.shopping.plan import Plan
from fewtubes.words.lists import joined
from fewtubes.words.printable import printable

__all__ = ["handout_of", "handout_page"]

COMPUTED = "Mixes are computed, not measured: try them."


def handout_page(basis: Basis) -> str:
    """Return the page: paints, flowers with their puddles, cautions; the name is left blank."""
    group = basis.plan.scenario.group
    handout = handout_of(basis)
    setting = setting_for(handout)
    style, sheet = _style(basis, setting), white_sheet(basis)
    return fill(
        "handout.html",
        handout=handout,
        style=style,
        style_digest=style_digest(style),
        setting=setting,
        subjects=[
            (subject, _drawn(subject, turn, setting, sheet), _spans(subject, setting))
            for turn, subject in enumerate(handout.subjects)
        ],
        again=any(
            wash.twice for one in handout.subjects for mix in one.puddles for wash in mix.washes
        ),
        missed=any(one.left_out for one in handout.subjects),
        pans=group is not None and group.tubes.value == "pans",
    )


def handout_of(basis: Basis) -> Handout:
    """Return what stands on the page."""
    plan = basis.plan
    group, tubes = plan.scenario.group, handout_tubes(basis)
    pupils = None if group is None else group.pupils
    letters = {
        planned.tube.name: tube.letter for planned, tube in zip(plan.tubes, tubes, strict=True)
    }
    source = printable(plan.catalogue_label)
    return Handout(
        title=printable(plan.scenario.title),
        tubes=tuple(tubes),
        subjects=tuple(handout_subjects(basis)),
        cautions=painter_cautions(pupils),
        about=tuple(_about(plan, letters)),
        leader=f"{leader_words(pupils)} {COMPUTED} Written by fewtubes from: {source}.",
    )


def _spans(subject: HandoutSubject, setting: Setting) -> list[tuple[HandoutPuddle, int]]:
    """Return the puddles of a subject, each with the number of columns it reaches over."""
    return [(puddle, span(setting, subject, puddle)) for puddle in subject.puddles]


def _drawn(
    subject: HandoutSubject, turn: int, setting: Setting, sheet: Sheet
) -> list[tuple[str, Markup]]:
    """Return names and drawings of a subject, whose ids are told apart by its turn.

    A name is left out where the subject bears it already.
    """
    several = len(subject.pictures) > 1
    lines = [
        (name, line_drawing(picture, sheet, number=setting.number))
        for name, picture in subject.pictures
    ]
    return [
        (name if several else "", drawn(picture, prefix=f"drawing{turn}-{number}-"))
        for number, (name, picture) in enumerate(lines)
    ]


def _about(plan: Plan, letters: dict[str, str]) -> list[tuple[str, str]]:
    """Return what some paints call for, by their letters, each letters' cautions together."""
    told: dict[str, list[str]] = {}
    for caution in plan.cautions:
        if caution.tubes:
            named = joined([letters.get(name, printable(name)) for name in caution.tubes])
            told.setdefault(named, []).append(caution.short or caution.text)
    return [(named, " ".join(texts)) for named, texts in told.items()]


def _style(basis: Basis, setting: Setting) -> Markup:
    written = (files("fewtubes.report.illustrated") / "handout.css").read_text(encoding="utf-8")
    return Markup(inks_style(white_sheet(basis)) + setting.css() + written)  # noqa: S704  # our own file, hex colours
