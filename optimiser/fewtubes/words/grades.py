"""The word for a grade of lightfastness or transparency, as files and scenarios write it."""

from fewtubes.catalogue.records import Lightfastness
from fewtubes.mixing.opacity import Transparency

__all__ = ["grade_word"]


def grade_word(grade: Lightfastness | Transparency | None) -> str | None:
    """Return e.g. ``II`` or ``semi-transparent``; None where there is no grade."""
    if grade is None:
        return None
    return grade.word if isinstance(grade, Transparency) else grade.name
