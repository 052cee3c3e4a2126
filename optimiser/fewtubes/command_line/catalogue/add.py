"""``fewtubes catalogue add``: one tube by hand, or a pack of one that is there."""

from collections.abc import Sequence
from decimal import Decimal
from fractions import Fraction
from typing import TYPE_CHECKING, Annotated

import typer

from fewtubes.command_line.options.keeping import FromOption, IntoOption, ReplaceOption
from fewtubes.command_line.typed import number_reader

if TYPE_CHECKING:
    from fewtubes.catalogue.records import Hazard
    from fewtubes.fitting.sheet import LabelSays
    from fewtubes.keeping.by_hand import WantedPack

__all__ = ["add"]

OPTIONS = {
    "name": "NAME",
    "id": "--id",
    "pigments": "--pigments",
    "packs": "--pack",
    "currency": "--currency",
    "seller": "--seller",
    "strength": "--strength",
    "note": "--note",
}
"""The option, or argument, that gives each field of a tube."""

NONE = "none"
"""Said of a label that names no hazard."""


def add(
    name: Annotated[
        str, typer.Argument(metavar="NAME", help="As on the tube; for a pack alone, name or id.")
    ],
    *,
    into: IntoOption,
    pigments: Annotated[
        str | None,
        typer.Option(
            "--pigments",
            metavar="LIST",
            help="As on the label: 'PB29', 'PR122 + PB29', with parts 'PR122 60 + PB29 40'.",
        ),
    ] = None,
    pack: Annotated[
        list[str] | None,
        typer.Option(
            "--pack", metavar="ML=PRICE", help="A pack and its price, 5=3.90; may be repeated."
        ),
    ] = None,
    currency: Annotated[
        str | None,
        typer.Option("--currency", metavar="CODE", help="Of the prices, if several are there."),
    ] = None,
    seller: Annotated[
        str | None,
        typer.Option("--seller", metavar="NAME", help="Who sells the pack, by id or name."),
    ] = None,
    tube_id: Annotated[
        str | None, typer.Option("--id", metavar="ID", help="Else it is made from the name.")
    ] = None,
    strength: Annotated[
        float | None,
        typer.Option(
            "--strength",
            parser=number_reader("--strength"),
            metavar="NUMBER",
            help="Pigment in it against the profile; 1 if not said, about 0.6 for study grade.",
        ),
    ] = None,
    note: Annotated[str, typer.Option("--note", metavar="TEXT", help="A remark.")] = "",
    lightfastness: Annotated[
        str | None,
        typer.Option("--lightfastness", metavar="I…V", help="What the label says of it."),
    ] = None,
    hazard: Annotated[
        list[str] | None,
        typer.Option(
            "--hazard",
            metavar="WORD",
            help="What the label warns of, such as cobalt, or 'none'; may be repeated.",
        ),
    ] = None,
    hazard_note: Annotated[
        str,
        typer.Option("--hazard-note", metavar="TEXT", help="What care the label calls for."),
    ] = "",
    profiles_from: FromOption = None,
    replace: ReplaceOption = False,
) -> None:
    """Add one tube by hand, or packs to one that is there.

    Without pigments, packs and prices are added to a tube that is there. A tube is made of pigment
    profiles of the catalogue, or of another with --from. A pack alone touches no colour.
    """
    from fewtubes.catalogue.limits import shown
    from fewtubes.command_line.asked import told_of_options
    from fewtubes.command_line.catalogue.finishing import catalogue_from, finish, settle_folder
    from fewtubes.errors import Fault, InputError
    from fewtubes.keeping.by_hand import WantedTube, packs_added, tube_added

    packs = _packs(pack or ())
    label = _label(lightfastness, hazard, hazard_note)
    settle_folder(into)
    with told_of_options(OPTIONS):
        if pigments is None:
            if tube_id or strength is not None or note or label != _label(None, None, ""):
                what = "only a new tube takes more than packs; name its pigments with --pigments."
                raise InputError([Fault(shown(name), what)])
            if not packs:
                what = "is to be added, but of what? Name its pigments, or a pack of it."
                raise InputError([Fault(shown(name), what)])
            change = packs_added(
                into, name, packs, currency=currency, seller=seller, replace=replace
            )
        else:
            wanted = WantedTube(
                name=name,
                pigments=_pigments(pigments),
                packs=packs,
                currency=currency,
                seller=seller,
                id=tube_id,
                strength=1.0 if strength is None else strength,
                note=note,
                label=label,
            )
            source = None if profiles_from is None else catalogue_from(profiles_from)
            change = tube_added(into, wanted, profiles_of=source, replace=replace)
    finish(change)


def _pigments(text: str) -> tuple[tuple[str, Fraction], ...]:
    from fewtubes.errors import Fault, InputError
    from fewtubes.keeping.pigment_words import named_pigments

    pigments, fault = named_pigments(text)
    if fault:
        raise InputError([Fault("pigments", f"{fault}.")])
    return pigments


def _packs(texts: Sequence[str]) -> "tuple[WantedPack, ...]":
    """Return packs typed as content and price, 5=3.90."""
    from fewtubes.catalogue.limits import shown
    from fewtubes.errors import Fault, InputError
    from fewtubes.keeping.by_hand import WantedPack

    packs: list[WantedPack] = []
    for text in texts:
        ml, equals, price = text.partition("=")
        amounts = [_amount(part) for part in (ml, price)]
        if not equals or None in amounts:
            how = "write its millilitres and its price with points, 5=3.90 for example"
            raise InputError([Fault("--pack", f"is {shown(text)}; {how}.")])
        packs.append(WantedPack(*(amount for amount in amounts if amount is not None)))
    return tuple(packs)


def _amount(text: str) -> Decimal | None:
    from fewtubes.catalogue.money import exact_amount

    return exact_amount(text.strip())


def _label(lightfastness: str | None, hazards: Sequence[str] | None, note: str) -> "LabelSays":
    from fewtubes.command_line.choices import chosen_lightfastness
    from fewtubes.fitting.sheet import LabelSays

    return LabelSays(
        lightfastness=chosen_lightfastness("--lightfastness", lightfastness),
        hazards=None if not hazards else _hazards(hazards),
        hazard_note=note,
    )


def _hazards(words: Sequence[str]) -> "tuple[Hazard, ...]":
    from fewtubes.catalogue.limits import word_fault
    from fewtubes.catalogue.records import Hazard
    from fewtubes.errors import Fault, InputError

    known = {hazard.value: hazard for hazard in Hazard}
    chosen = [word.lower() for word in words]
    faults = [
        Fault("--hazard", fault)
        for word in chosen
        if (fault := word_fault(word, [*known, NONE])) is not None
    ]
    if NONE in chosen and len(chosen) > 1:
        faults.append(Fault("--hazard", f"is {NONE!r} beside others; leave one of them out."))
    if faults:
        raise InputError(faults)
    return tuple(hazard for word, hazard in known.items() if word in chosen)
