"""The command line as a whole."""

import errno
import os
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


FULL = pytest.mark.skipif(not Path("/dev/full").exists(), reason="only Linux has a full disk")


def put_out_to(stdout: Any, *arguments: str) -> "subprocess.CompletedProcess[str]":
    return subprocess.run(  # noqa: S603  # this very interpreter
        [sys.executable, "-m", "fewtubes", *arguments],
        stdout=stdout,
        stderr=subprocess.PIPE,
        text=True,
        check=False,
    )


@FULL
@pytest.mark.parametrize(
    "arguments", [("flowers",), ("--help",), ("-h",), ("shop", "--help"), ("--version",)]
)
def test_a_full_disk_is_told_in_one_sentence(arguments: tuple[str, ...]) -> None:
    with Path("/dev/full").open("w") as full:
        told = put_out_to(full, *arguments)
    assert told.returncode == 2
    assert told.stderr.startswith("The report cannot be put out (No space left on device)")
    assert told.stderr.count("\n") == 1


@pytest.mark.parametrize("arguments", [("flowers",), ("--help",), ("mix", "--help")])
def test_an_output_that_is_not_to_be_written_is_told(arguments: tuple[str, ...]) -> None:
    with Path(__file__).open() as reading:
        told = put_out_to(reading, *arguments)
    assert told.returncode == 2
    assert told.stderr.startswith("The report cannot be put out (Bad file descriptor)")
    assert told.stderr.count("\n") == 1


@pytest.mark.parametrize("arguments", [("--help",), ("shop", "--help"), ("--version",)])
def test_a_reader_of_help_that_goes_away_causes_no_traceback(arguments: tuple[str, ...]) -> None:
    reader, writer = os.pipe()
    os.close(reader)
    try:
        told = put_out_to(writer, *arguments)
    finally:
        os.close(writer)
    assert (told.returncode, told.stderr) == (1, "")


@FULL
def test_errors_that_nobody_can_hear_leave_the_exit_code() -> None:
    code = "from fewtubes.command_line.main import run; run()"
    with Path("/dev/full").open("w") as full:
        told = subprocess.run(  # noqa: S603  # this very interpreter
            [sys.executable, "-c", code, "shop", "none.toml"],
            stdout=subprocess.PIPE,
            stderr=full,
            check=False,
        )
    assert told.returncode == 2


@pytest.mark.parametrize(
    "error",
    [
        MemoryError(),
        OSError(errno.ENOMEM, "Cannot allocate memory"),
        ImportError("libx.so: failed to map segment from shared object"),
        ImportError("libx.so: cannot allocate memory in static TLS block"),
        RuntimeError("can't start new thread"),
    ],
    ids=repr,
)
@pytest.mark.parametrize(
    "place", ["catalogue.reading.read_catalogue", "command_line.output.report_console"]
)
def test_too_little_memory_is_told_in_one_sentence(
    run: Run, monkeypatch: pytest.MonkeyPatch, error: Exception, place: str
) -> None:
    def short(*_args: object, **_options: object) -> None:
        raise error

    monkeypatch.setattr(f"fewtubes.{place}", short)
    told = run("flowers")
    assert told.code == 3
    assert told.err.startswith("There is too little memory for that; ")
    assert told.err.count("\n") == 1


@pytest.mark.parametrize("error", [RuntimeError("odd"), ImportError("odd"), OSError(5, "odd", "x")])
def test_a_defect_is_not_taken_for_something_else(
    run: Run, monkeypatch: pytest.MonkeyPatch, error: Exception
) -> None:
    def odd(*_args: object, **_options: object) -> None:
        raise error

    monkeypatch.setattr("fewtubes.catalogue.reading.read_catalogue", odd)
    with pytest.raises(type(error), match="odd"):
        run("flowers")
