"""The command itself: served on the loopback address, closed by the keyboard, nothing left."""

import http.client
import os
import re
import signal
import socket
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import closing
from pathlib import Path
from urllib.parse import urlencode

import pytest
from typer.testing import CliRunner

from fewtubes.catalogue.reading import read_catalogue
from fewtubes.command_line import page as command
from fewtubes.command_line.main import app
from fewtubes.page.form import first_values

Asked = Callable[..., http.client.HTTPResponse]


@pytest.fixture
def running(cache_folder: Path) -> Iterator[tuple[subprocess.Popen[str], str, int]]:
    """Return the process, the path that opens the page, and the port."""
    with subprocess.Popen(
        [sys.executable, "-m", "fewtubes", "page", "--no-browser"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
        env={**os.environ, "FEWTUBES_CACHE": str(cache_folder)},
        preexec_fn=lambda: signal.signal(signal.SIGINT, signal.default_int_handler),  # noqa: PLW1509
    ) as process:
        assert process.stdout is not None
        line = process.stdout.readline()
        found = re.fullmatch(r"The page is at http://127\.0\.0\.1:(\d+)(/open/\S+)\n", line)
        assert found is not None, line
        yield process, found[2], int(found[1])
        process.kill()


def test_served_here_alone_and_closed_by_the_keyboard(
    running: tuple[subprocess.Popen[str], str, int],
) -> None:
    process, path, port = running
    with pytest.raises(OSError, match=r"refused|reachable|assign"):
        socket.create_connection((_other_address(), port), timeout=2).close()
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=20)
    connection.request("GET", path)
    answer = connection.getresponse()
    assert answer.status == 303
    assert "server" not in answer.headers
    connection.close()
    process.send_signal(signal.SIGINT)
    out, err = process.communicate(timeout=20)
    assert out.endswith("closed\n")
    assert err == ""
    assert process.returncode == 0


@pytest.mark.parametrize("name", ["SIGINT", "SIGTERM", "SIGHUP"])
def test_ended_from_outside_it_leaves_no_work_behind(
    running: tuple[subprocess.Popen[str], str, int], name: str
) -> None:
    sent = getattr(signal, name, None)
    children = Path(f"/proc/{running[0].pid}/task/{running[0].pid}/children")
    if sent is None or not children.exists():
        pytest.skip("the system knows no such signal, or does not tell a process's children")
    process, path, port = running
    with closing(http.client.HTTPConnection("127.0.0.1", port, timeout=60)) as connection:
        tab, asked = _opened(path, connection)
        values = {**first_values(read_catalogue()), "flower": list(read_catalogue().flowers)}
        asked("POST", f"{tab}ask", urlencode(values, doseq=True))
    begun = [int(word) for word in _of_all_threads(process.pid)]
    assert begun
    process.send_signal(sent)
    out, err = process.communicate(timeout=60)
    keyboard = sent is signal.SIGINT
    assert process.returncode == (0 if keyboard else -sent)
    assert err == ""
    assert out.endswith("closed\n") is keyboard
    end = time.monotonic() + 60
    while any(Path(f"/proc/{one}").exists() for one in begun):
        assert time.monotonic() < end
        time.sleep(0.02)


def _opened(path: str, connection: http.client.HTTPConnection) -> tuple[str, Asked]:
    """Open the page and a tab; return the tab's path, and what asks something of the page."""
    connection.request("GET", path)
    answer = connection.getresponse()
    answer.read()
    cookie = answer.headers["set-cookie"].partition(";")[0]
    headers = {"Cookie": cookie, "Origin": f"http://127.0.0.1:{connection.port}"}

    def asked(method: str, place: str, body: str | None = None) -> http.client.HTTPResponse:
        kind = {"Content-Type": "application/x-www-form-urlencoded"} if body else {}
        connection.request(method, place, body, {**headers, **kind})
        answer = connection.getresponse()
        answer.read()
        return answer

    return asked("GET", "/").headers["location"], asked


def _of_all_threads(process_id: int) -> list[str]:
    """Return the numbers of the processes that any thread of a process has begun."""
    threads = Path(f"/proc/{process_id}/task").iterdir()
    return [word for thread in threads for word in (thread / "children").read_text().split()]


def _other_address() -> str:
    """Return an address of this machine that is not the one served (127.0.0.2 is loopback too)."""
    return "127.0.0.2"


def test_a_port_that_is_taken_is_told(cache_folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("FEWTUBES_CACHE", str(cache_folder))
    with socket.socket() as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        port = taken.getsockname()[1]
        result = CliRunner().invoke(app, ["page", "--no-browser", "--port", str(port)])
    assert result.exit_code == 2
    assert f"--port: is {port}, which cannot be used" in result.stderr


def test_without_the_extra_it_says_what_to_install(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(command, "NEEDED", ("starlette", "no_such_package_at_all"))
    result = CliRunner().invoke(app, ["page"])
    assert result.exit_code == 2
    assert "pip install 'fewtubes[page]'" in result.stderr
    assert "Traceback" not in result.stderr
