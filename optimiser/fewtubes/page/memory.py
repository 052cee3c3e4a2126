"""The file of the painter's own in which the page remembers questions, from run to run.

It holds what was typed, never a photograph. The box at home has a file beside it, the same as
`fewtubes at-home` keeps. Two windows or two runs may write at once: each adds to what the file
holds by then.
"""

import hashlib
import json
import os
import threading
from collections.abc import Callable, Mapping
from dataclasses import dataclass, replace
from pathlib import Path

from fewtubes.errors import Fault, InputError
from fewtubes.files.real_path import real_path
from fewtubes.files.regular_files import read_regular
from fewtubes.files.writing import ChangedMeanwhileError, write_together
from fewtubes.page.forgetting import forgotten
from fewtubes.page.sums_form import SUMS
from fewtubes.page.tabs import FormValues
from fewtubes.words.printable import printable

__all__ = [
    "DamagedError",
    "Memory",
    "Question",
    "Remembered",
    "catalogue_key",
    "question_of",
]

NAME = "questions.json"

SCHEMA = 1
"""Raised when older content would be read wrongly."""

MOST_QUESTIONS = 20
"""Remembered; the oldest is given up for another."""

MOST_BYTES = 2_000_000
"""Longest file that is read or written; a question takes some thousand."""

ATTEMPTS = 5
"""Times that a change is made anew because another window wrote meanwhile."""

LEFT_OUT = ("photograph", "take", "box-known")
"""Beginnings of fields that are no part of a question."""


class DamagedError(Exception):
    """A file is none that this program wrote."""


@dataclass(frozen=True)
class Question:
    """A question as it was typed."""

    catalogue: str
    """Folder of the tables it was asked of; blank for the demo's."""
    values: FormValues

    @property
    def key(self) -> str:
        """What tells it from any other; the same with other sums is the same question."""
        asked = {field: typed for field, typed in self.values.items() if field != SUMS}
        held = json.dumps([self.catalogue, asked], sort_keys=True, ensure_ascii=True)
        return hashlib.sha256(held.encode("ascii")).hexdigest()[:16]


@dataclass(frozen=True)
class Remembered:
    """What the file holds."""

    on: bool = True
    """Whether further questions are to be remembered."""
    questions: tuple[Question, ...] = ()
    """The latest first."""

    def with_question(self, question: Question) -> "Remembered":
        """Return this with a question on top, each once, as many as there is room for.

        One for which alone there is no room changes nothing.
        """
        others = (one for one in self.questions if one.key != question.key)
        kept = (question, *others)[:MOST_QUESTIONS]
        while len(_text(replace(self, questions=kept))) > MOST_BYTES and kept:
            kept = kept[:-1]
        return replace(self, questions=kept) if kept else self


class Memory:
    """The file with the questions.

    Parameters
    ----------
    folder
        Made when something is first written.
    """

    def __init__(self, folder: Path) -> None:
        self.folder = folder.absolute()
        self.path = self.folder / NAME
        self._lock = threading.Lock()

    def read(self) -> Remembered:
        """Return what is remembered; nothing if there is no file yet.

        Raises
        ------
        InputError
            If there is a file that cannot be read, or is damaged.
        """
        return self._held()[1]

    def add(self, question: Question) -> None:
        """Remember a question, if questions are to be remembered.

        Raises
        ------
        InputError
            As of `read`; the file is left as it is.
        OutputError
            If the file could not be written.
        """
        self._change(lambda held: held.with_question(question) if held.on else held)

    def switch(self, *, on: bool) -> None:
        """Remember questions from now on, or not; those that are there stay.

        Raises
        ------
        InputError, OutputError
            As of `add`.
        """
        self._change(lambda held: replace(held, on=on))

    def forget(self) -> Path | None:
        """Forget every question, of a damaged file too; whether to remember stays as it is.

        Where the file is a link, the questions are forgotten in the file that it leads to. Returns
        that file if it stays, since this program did not write it.

        Raises
        ------
        OutputError
            If the file could not be written.
        """
        with self._lock:
            try:
                on = self.read().on
            except InputError:
                on = True
            stays = forgotten(self.path, is_own=_holds_questions)
        if not on:
            self.switch(on=False)
        return stays

    def _change(self, change: Callable[[Remembered], Remembered]) -> None:
        with self._lock:
            for attempt in range(1, ATTEMPTS + 1):
                before, held = self._held()
                changed = change(held)
                if changed == held:
                    return
                try:
                    real = real_path(self.path)  # a link goes on leading where it led
                    write_together(
                        {real.parent: {real.name: _text(changed)}},
                        earlier={real.parent: {real.name: before}},
                    )
                except ChangedMeanwhileError:
                    if attempt == ATTEMPTS:
                        raise
                else:
                    return

    def _held(self) -> tuple[bytes | None, Remembered]:
        """Return the content of the file and what it says; None and nothing without a file."""
        if not os.path.lexists(self.path):
            return None, Remembered()
        content = read_regular(self.path, most=MOST_BYTES)
        if content is None:
            raise _fault(self.path, "cannot be read")
        try:
            return content, _read(content)
        except DamagedError:
            raise _fault(self.path, "is damaged, or was written by another program") from None


def _read(content: bytes) -> Remembered:
    """Return what the content of a file says; raise `DamagedError` as `_remembered` does."""
    try:
        values = json.loads(content)
        json.dumps(values, ensure_ascii=False).encode("utf-8")  # half a character is no text
    except (ValueError, RecursionError):
        raise DamagedError from None
    return _remembered(values)


def _holds_questions(path: Path) -> bool:
    """Return whether a file holds questions, as this program writes them."""
    content = read_regular(path, most=MOST_BYTES)
    if content is None:
        return False
    try:
        _read(content)
    except DamagedError:
        return False
    return True


def _fault(path: Path, what: str) -> InputError:
    remedy = "nothing is remembered until you put it right or let it be forgotten here."
    return InputError([Fault(printable(str(path)), f"{what}; {remedy}")])


def _text(remembered: Remembered) -> str:
    values = {
        "fewtubes_questions": SCHEMA,
        "remember": remembered.on,
        "questions": [
            {
                "catalogue": question.catalogue,
                "values": {key: list(texts) for key, texts in question.values.items()},
            }
            for question in remembered.questions
        ],
    }
    return json.dumps(values, ensure_ascii=True, indent=1) + "\n"


def _remembered(values: object) -> Remembered:
    """Return what a file says; raise `DamagedError` if it is none that this program wrote."""
    if not isinstance(values, dict) or values.get("fewtubes_questions") != SCHEMA:
        raise DamagedError
    on, questions = values.get("remember"), values.get("questions")
    if not isinstance(on, bool) or not isinstance(questions, list):
        raise DamagedError
    return Remembered(on, tuple(_question(one) for one in questions[:MOST_QUESTIONS]))


def _question(values: object) -> Question:
    if not isinstance(values, dict):
        raise DamagedError
    catalogue, typed = values.get("catalogue"), values.get("values")
    sound = isinstance(typed, dict) and all(
        isinstance(texts, list) and all(isinstance(text, str) for text in texts)
        for texts in typed.values()
    )
    if not isinstance(catalogue, str) or not isinstance(typed, dict) or not sound:
        raise DamagedError
    return Question(catalogue, {key: tuple(texts) for key, texts in typed.items()})


def question_of(values: FormValues, catalogue: Path | None) -> Question:
    """Return what is to be remembered of a form: what was filled in, without any photograph."""
    kept: Mapping[str, tuple[str, ...]] = {
        key: tuple(texts)
        for key, texts in values.items()
        if any(texts) and not key.startswith(LEFT_OUT)
    }
    return Question(catalogue_key(catalogue), kept)


def catalogue_key(catalogue: Path | None) -> str:
    """Return by what questions of a catalogue are known: its folder, blank for the demo's."""
    return "" if catalogue is None else str(catalogue.resolve())
