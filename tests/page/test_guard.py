"""Only this machine's browser, by this run's token and from the page itself, gets anything."""

import http

import pytest
from starlette.testclient import TestClient

TOKEN = "a-token-for-tests"  # noqa: S105
ORIGIN = "http://127.0.0.1:8123"


@pytest.mark.parametrize(
    "host",
    [
        "example.org",
        "example.org:8123",
        "127.0.0.1",
        "127.0.0.1:8124",
        "127.0.0.1:8123.example.org",
        "0.0.0.0:8123",
        "",
    ],
)
def test_another_host_is_refused(browser: TestClient, host: str) -> None:
    # A name that a hostile site lets point to this machine ends up here (DNS rebinding).
    answer = browser.get("/", headers={"host": host}, follow_redirects=False)
    assert answer.status_code == http.HTTPStatus.MISDIRECTED_REQUEST
    assert "its own address only" in answer.text


def test_the_own_host_is_served(browser: TestClient) -> None:
    assert browser.get("/").status_code == 200


@pytest.mark.parametrize(
    "origin",
    [
        "http://example.org",
        "null",
        "http://127.0.0.1:8124",
        "https://127.0.0.1:8123",
        "http://localhost:8123",
    ],
)
@pytest.mark.parametrize("method", ["GET", "POST"])
def test_another_origin_is_refused(browser: TestClient, origin: str, method: str) -> None:
    answer = browser.request(method, "/", headers={"origin": origin}, follow_redirects=False)
    assert answer.status_code == 403
    assert "nothing from other pages" in answer.text


def test_a_form_without_origin_is_refused(browser: TestClient) -> None:
    place = browser.get("/").url.path
    del browser.headers["origin"]
    answer = browser.post(f"{place}keep")
    assert answer.status_code == 403
    assert "its own pages only" in answer.text


@pytest.mark.parametrize("method", ["PUT", "DELETE", "PATCH", "OPTIONS", "TRACE"])
def test_other_methods_are_refused(browser: TestClient, method: str) -> None:
    assert browser.request(method, "/").status_code == 405


@pytest.mark.parametrize("path", ["/", "/static/page.css", "/tab/x/", "/tab/x/last/plan.json"])
def test_nothing_without_the_token(stranger: TestClient, path: str) -> None:
    answer = stranger.get(path, follow_redirects=False)
    assert answer.status_code == 403
    assert "printed in the terminal" in answer.text


@pytest.mark.parametrize("token", ["guessed", "%E2%82%AC", "%0D%0Ax", "%ff", "", f"{TOKEN}/"])
def test_a_wrong_token_opens_nothing(stranger: TestClient, token: str) -> None:
    answer = stranger.get(f"/open/{token}", follow_redirects=False)
    assert answer.status_code == 403
    assert "set-cookie" not in answer.headers  # else a page of the web could lock the painter out


def test_a_wrong_cookie_opens_nothing(stranger: TestClient) -> None:
    answer = stranger.get("/", headers={"cookie": "fewtubes-8123=guessed; other=1"})
    assert answer.status_code == 403


def test_the_cookie_is_kept_from_scripts_and_other_sites(stranger: TestClient) -> None:
    cookie = stranger.get(f"/open/{TOKEN}", follow_redirects=False).headers["set-cookie"]
    assert "HttpOnly" in cookie
    assert "SameSite=strict" in cookie
    assert cookie.startswith("fewtubes-8123=")


@pytest.mark.parametrize("path", ["/", "/static/page.js", "/nowhere", "/open/guessed"])
def test_every_answer_has_the_headers(browser: TestClient, path: str) -> None:
    headers = browser.get(path).headers
    policy = headers["content-security-policy"]
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    assert "http" not in policy
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["cache-control"] == "no-store"


def test_refusals_have_the_headers_too(stranger: TestClient) -> None:
    answer = stranger.get("/", headers={"host": "example.org"})
    assert "content-security-policy" in answer.headers


def test_pages_hold_no_script_or_style_of_their_own(browser: TestClient) -> None:
    text = browser.get("/").text
    assert " style=" not in text
    assert "<style" not in text
    assert " onclick=" not in text
    for script in ("page.js", "flower.js"):
        assert text.count(f'<script src="/static/{script}" defer></script>') == 1
    assert text.count("<script") == 2
    assert "http://" not in text.replace("http://www.w3.org/2000/svg", "")
    assert "https://" not in text


def test_a_form_that_is_too_large_is_refused(browser: TestClient) -> None:
    place = browser.get("/").url.path
    answer = browser.post(f"{place}ask", data={"title": "a" * 600_000})
    assert answer.status_code == 413
    assert "what is typed into this form may have 0.5 MB in all" in answer.text
    assert "photograph" not in answer.text


@pytest.mark.parametrize(
    ("place", "field", "size", "told"),
    [
        ("open", "scenario", 600_000, "a scenario file: it may have 0.5 MB"),
        ("paints/table", "swatches", 600_000, "a table of swatches: here it may have 0.5 MB"),
        ("paints/photograph", "photograph", 11_200_000, "a photograph may have 10 MB"),
        ("flower/photograph", "photograph", 11_200_000, "a photograph may have 10 MB"),
    ],
)
def test_a_file_that_is_too_large_is_called_what_it_is(
    browser: TestClient, place: str, field: str, size: int, told: str
) -> None:
    """10 MB are 10,485,760 bytes, and the form of the demo takes 0.57 million besides."""
    tab = browser.get("/").url.path
    answer = browser.post(f"{tab}{place}", files={field: ("a-file", bytes(size))})
    assert answer.status_code == 413
    assert told in answer.text


def test_a_body_that_hides_its_size_is_refused(browser: TestClient) -> None:
    place = browser.get("/").url.path
    answer = browser.post(
        f"{place}ask",
        content=(b"a" * 100_000 for _ in range(6)),
        headers={"content-type": "application/x-www-form-urlencoded"},
    )
    assert answer.status_code == 413


def test_odd_cookies_of_other_programs_are_passed_over(stranger: TestClient) -> None:
    cookies = f'a="b; =; c d=é; fewtubes-8123={TOKEN}; e=[1,2]'
    headers = {b"cookie": cookies.encode("latin-1")}
    assert stranger.get("/", headers=headers, follow_redirects=False).status_code == 303


@pytest.mark.parametrize("length", ["9" * 5000, "-1", "²", "1e3"])
def test_a_length_that_is_none(browser: TestClient, length: str) -> None:
    place = browser.get("/").url.path
    headers = {b"content-length": length.encode("latin-1")}
    assert browser.post(f"{place}ask", content=b"", headers=headers).status_code == 413
