"""Links are followed, and one that leads back to itself is no accident of the program."""

from pathlib import Path

from fewtubes.command_line.results import results_asked
from fewtubes.files.real_path import real_path


def test_links_are_followed(tmp_path: Path) -> None:
    (tmp_path / "link").symlink_to(tmp_path / "there")
    assert real_path(tmp_path / "link") == real_path(tmp_path) / "there"


def test_a_link_to_itself_stays(tmp_path: Path) -> None:
    (tmp_path / "loop").symlink_to("loop")
    assert real_path(tmp_path / "loop") == real_path(tmp_path) / "loop"


def test_a_chart_that_is_such_a_link_is_no_report(tmp_path: Path) -> None:
    (tmp_path / "loop.html").symlink_to("loop.html")
    chart, report = tmp_path / "loop.html", tmp_path / "report.html"
    assert results_asked(out=None, report=report, pictures=None, chart=chart).chart == chart
