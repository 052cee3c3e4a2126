"""The command line as a whole."""

import subprocess
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

import fewtubes

Run = Callable[..., Any]

HEAVY = ("pandas", "scipy", "colour", "pulp", "matplotlib", "highspy", "numpy")


def python(*arguments: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(  # noqa: S603  # this very interpreter
        [sys.executable, *arguments], capture_output=True, text=True, encoding="utf-8", check=False
    )


def test_the_import_is_light() -> None:
    code = "import sys, fewtubes.command_line.main; print(*sys.modules)"
    loaded = set(python("-c", code).stdout.split())
    assert "fewtubes.command_line.main" in loaded
    assert loaded.isdisjoint(HEAVY)


def test_it_runs_as_a_module() -> None:
    told = python("-m", "fewtubes", "--version")
    assert (told.returncode, told.stdout, told.stderr) == (
        0,
        f"fewtubes {fewtubes.__version__}\n",
        "",
    )


@pytest.mark.parametrize("arguments", [(), ("-h",), ("--help",)])
def test_help_names_every_command(run: Run, arguments: tuple[str, ...]) -> None:
    told = run(*arguments)
    for command in ("shop", "mix", "flowers", "tubes", "check"):
        assert f"  {command} " in told.out + told.err


@pytest.mark.parametrize("command", ["shop", "mix", "flowers", "tubes", "check"])
def test_every_command_explains_itself(run: Run, command: str) -> None:
    told = run(command, "--help")
    assert told.code == 0
    assert "--catalogue" in told.out


@pytest.mark.parametrize(
    "arguments",
    [
        ("paint",),
        ("shop",),
        ("shop", "x.toml", "--budget", "much"),
        ("mix",),
        ("flowers", "--blue"),
    ],
)
def test_wrong_usage_exits_with_2_and_no_traceback(run: Run, arguments: tuple[str, ...]) -> None:
    told = run(*arguments)
    assert told.code == 2
    assert "Traceback" not in told.err
    assert told.err


def test_a_reader_that_goes_away_causes_no_traceback() -> None:
    code = (
        "import os, sys; reader, writer = os.pipe(); os.close(reader); os.dup2(writer, 1);"
        "sys.argv = ['fewtubes', 'flowers'];"
        "from fewtubes.command_line.main import run; run()"
    )
    told = python("-c", code)
    assert told.returncode == 1
    assert told.stderr == ""


def test_an_encoding_without_the_signs_does_not_end_the_program() -> None:
    code = (
        "import sys; sys.stdout.reconfigure(encoding='ascii');"
        "sys.argv = ['fewtubes', 'flowers', 'nothing-of-that-name-Δ'];"
        "from fewtubes.command_line.main import run; run()"
    )
    told = python("-c", code)
    assert told.returncode == 0, told.stderr


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a disk always full")
def test_a_full_disk_is_told_in_one_sentence() -> None:
    with Path("/dev/full").open("w") as full:
        told = subprocess.run(
            [sys.executable, "-m", "fewtubes", "flowers"],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            check=False,
        )
    assert told.returncode == 2
    assert told.stderr.startswith("The report cannot be put out (No space left on device)")
    assert told.stderr.count("\n") == 1
