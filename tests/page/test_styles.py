"""The page takes the report's styles along, so a name may mean one thing only in both."""

import re
from importlib.resources import files

MEANT_FOR_BOTH = {"over", "ribbon"}
"""Styled in the report and styled anew, or the same, on the page."""


def named(package: str, *path: str) -> set[str]:
    """Return the classes that are styled as they stand, wherever they stand."""
    text = files(package).joinpath(*path).read_text(encoding="utf-8")
    return set(re.findall(r"^\s*\.([\w-]+)(?=\s*[{,])", text, re.MULTILINE))


def test_no_class_of_the_page_is_one_of_the_report() -> None:
    """A row of a flower's colours once shrank to the box for the painter's own swatch."""
    report = named("fewtubes.report.illustrated", "page.css")
    page = named("fewtubes.page", "static", "page.css")
    assert report
    assert page
    assert report & page == MEANT_FOR_BOTH
