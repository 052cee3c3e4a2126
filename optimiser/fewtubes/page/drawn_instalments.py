"""Buying bit by bit as the page shows it: drawn by the process that found it."""

from collections.abc import Mapping
from dataclasses import dataclass

from fewtubes.comparison.instalment_findings import Instalments, Purchase
from fewtubes.report.answer_files import instalment_files
from fewtubes.report.illustrated.instalment_steps import BoughtBasis
from fewtubes.report.illustrated.instalments_page import InstalmentsReport
from fewtubes.report.illustrated.page import Section, inks_style
from fewtubes.report.sentences.instalment_lines import PurchaseLine, purchase_lines
from fewtubes.report.sentences.instalments import (
    covered_sentence,
    left_sentence,
    newly_sentence,
    nothing_sentence,
)
from fewtubes.shopping.list_lines import LineKind
from fewtubes.tables.spreadsheet import Spreadsheet
from fewtubes.words.counting import counted
from fewtubes.words.money import amount
from fewtubes.words.printable import printable
from fewtubes.words.tubes import packs_words

__all__ = ["DrawnInstalments", "ShortStep", "drawn_instalments"]

REPORT = "report.html"


@dataclass(frozen=True)
class ShortStep:
    """One time of buying before anything is unfolded."""

    section: Section
    """What is folded away."""
    rows: tuple[tuple[str, str, str, str], ...]
    """Of each tube to buy: markup of its dab, name, packs, price; under sellers' terms of each line
    of what is bought, with who sells it, sets and deliveries among them."""
    total: str
    nothing: str
    """What is said where nothing is bought; blank elsewhere."""
    said: str
    """What is left and what can be painted, in sentences."""


@dataclass(frozen=True, eq=False)
class DrawnInstalments:
    """An order of buying with everything the page shows of it."""

    found: Instalments
    ribbon: str
    """Markup: one dab a tube, in the order of buying."""
    steps: tuple[ShortStep, ...]
    further: tuple[Section, ...]
    """What stands behind the times, folded away but for the order to pin up."""
    report: str
    """The illustrated report."""
    inks: str
    """Style sheet with the paper's colour and the inks."""

    def files(self, spreadsheet: Spreadsheet) -> Mapping[str, str]:
        """Return what can be taken away, by name."""
        beside = {REPORT: self.report}
        return {**instalment_files(self.found, spreadsheet, beside=beside), **beside}


def drawn_instalments(found: Instalments) -> DrawnInstalments:
    """Return an order of buying drawn, with the parts of its illustrated report."""
    report = InstalmentsReport(found)
    steps = report.steps
    return DrawnInstalments(
        found=found,
        ribbon=str(report.ribbon),
        steps=tuple(_short(report.basis, place, step) for place, step in enumerate(steps)),
        further=report.sections[len(steps) :],
        report=report.page(),
        inks=inks_style(report.basis.sheet),
    )


def _short(basis: BoughtBasis, place: int, section: Section) -> ShortStep:
    found, time = basis.found, basis.found.times[place]
    said = [left_sentence(found, place)]
    if time.bought or place == 0:
        said += [covered_sentence(found, place), newly_sentence(found, time, full=False)]
    return ShortStep(
        section=section,
        rows=(
            tuple(_row(basis, purchase) for purchase in time.bought)
            if time.purchase is None
            else tuple(_line(basis, line) for line in purchase_lines(time))
        ),
        total=amount(time.cost),
        nothing=nothing_sentence(found, place),
        said=" ".join(one for one in said if one),
    )


def _row(basis: BoughtBasis, purchase: Purchase) -> tuple[str, str, str, str]:
    return (
        str(basis.dabs([purchase.tube])),
        printable(purchase.tube.name),
        packs_words((pack.count, pack.offer.ml) for pack in purchase.packs),
        amount(purchase.cost),
    )


def _line(basis: BoughtBasis, line: PurchaseLine) -> tuple[str, str, str, str]:
    """Return the same of a line of a purchase; what lies in a set has no price of its own."""
    dab = "" if line.tube is None else str(basis.dabs([line.tube]))
    if line.kind is LineKind.DELIVERY:
        return dab, line.seller, line.name, amount(line.price or 0)
    packs = counted(line.count, "set") if line.count else line.packs
    said = f"{packs}, {line.seller}" + (f" ({line.spare})" if line.spare else "")
    return dab, line.name, said, "in the set" if line.price is None else amount(line.price)
