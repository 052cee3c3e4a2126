"""The help of each command: short first lines, options in groups, none forgotten."""

from collections import Counter
from collections.abc import Callable, Iterator
from typing import Any

import pytest
import typer

from fewtubes.command_line.grouped_help import GROUPS, LEAST_TO_GROUP
from fewtubes.command_line.main import app

Run = Callable[..., Any]

LONGEST_LINE = 80
"""Columns of a usual terminal."""


def commands(
    group: Any = None, path: tuple[str, ...] = ()
) -> Iterator[tuple[tuple[str, ...], Any]]:
    """Yield every command with the words it is called by."""
    group = group or typer.main.get_command(app)
    for name, command in group.commands.items():
        if hasattr(command, "commands"):
            yield from commands(command, (*path, name))
        else:
            yield (*path, name), command


COMMANDS = list(commands())

every_command = pytest.mark.parametrize(
    ("path", "command"), COMMANDS, ids=[" ".join(path) for path, _ in COMMANDS]
)


@every_command
def test_every_option_is_told_once(run: Run, path: tuple[str, ...], command: Any) -> None:
    told = run(*path, "--help").out.splitlines()
    first_words = Counter(line.split()[0].rstrip(",") for line in told if line.startswith("  -"))
    shown = [it for it in command.params if it.param_type_name == "option" and not it.hidden]
    names = {option.opts[0] for option in shown} - {"-h"}
    assert {name for name in names if first_words[name.split("/")[0]] != 1} == set()


@every_command
def test_it_keeps_to_the_terminal(run: Run, path: tuple[str, ...], command: Any) -> None:
    told = run(*path, "--help").out.splitlines()
    assert max(map(len, told)) <= LONGEST_LINE
    many = sum(it.param_type_name == "option" and not it.hidden for it in command.params)
    grouped = [line for line in told if line.removesuffix(":") in GROUPS]
    assert bool(grouped) == (many >= LEAST_TO_GROUP)


def test_the_list_of_commands_is_not_cut_short(run: Run) -> None:
    for path in ((), ("catalogue",)):
        listed = run(*path, "--help").out.partition("Commands:")[2]
        assert listed.count("\n") > 4
        assert "..." not in listed


def test_groups_name_options_that_there_are() -> None:
    known = {name for _, command in COMMANDS for it in command.params for name in it.opts}
    named = [name for names in GROUPS.values() for name in names]
    assert len(named) == len(set(named))
    assert set(named) <= known
