"""``fewtubes box`` without a scenario: what the box at home holds."""

from collections.abc import Sequence
from pathlib import Path

from fewtubes.errors import Fault, InputError

__all__ = ["show_alone"]


def show_alone(
    box: Path | None,
    catalogue: Path | None,
    *,
    needing: Sequence[str],
    paper: str | None,
    light: str | None,
    no_cache: bool,
) -> None:
    """Print what the box holds.

    Parameters
    ----------
    box, catalogue
        Its file, and the folder of tables; None for those that the box names, or the demo ones.
    needing
        Options given that mean nothing without a scenario.
    paper, light
        Ids of the catalogue.
    no_cache
        Whether nothing is to be kept from run to run.

    Raises
    ------
    InputError
        If there is no box, or an option that needs a scenario.
    """
    from fewtubes.command_line.asked import box_asked, cache_asked, told_of_options
    from fewtubes.command_line.put_out import put_out
    from fewtubes.comparison.box_contents import box_contents
    from fewtubes.report.terminal.box_contents import print_box_contents
    from fewtubes.scenario.home_box import BoxAtHome

    faults = [Fault(option, "needs a scenario; name its file.") for option in needing]
    if box is None:
        what = "is missing; name its file, or a box at home with --box."
        faults.insert(0, Fault("SCENARIO.toml", what))
    if box is None or faults:
        raise InputError(faults)
    with told_of_options():
        tables, kept = box_asked(box, catalogue)
        contents = box_contents(
            tables,
            kept or BoxAtHome(),
            paper=paper,
            light=light,
            cache=cache_asked(no_cache=no_cache),
        )
    put_out(lambda console: print_box_contents(contents, console))
