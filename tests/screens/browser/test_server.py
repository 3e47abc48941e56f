"""Who may reach the view of a book, and what its page asks for."""

from __future__ import annotations

import re
import shlex
import sys

import aiohttp
import pytest
from aiohttp.test_utils import TestClient, TestServer

from screens.browser.server import LOOPBACK, MOST_VIEWS, PAGE, BookServer
from tests.drive.jobs import before, book_at

TUNNEL = "localhost:9123"
"""How a browser at the end of a tunnel calls the view."""


@pytest.fixture
def server(tmp_path):
    """Return the server of a book whose name means something to a shell and to a page."""
    return BookServer(book_at(tmp_path / "a b'; $(touch x) <i>&.book", before("89")), 8000)


@pytest.fixture
async def client(server):
    """Return what asks the server."""
    async with TestClient(TestServer(await server._make_app())) as asking:
        yield asking


@pytest.mark.parametrize(
    ("host", "status"),
    [
        ("127.0.0.1:8000", 200),
        (TUNNEL, 200),
        ("localhost", 200),
        ("elsewhere.example", 403),
        ("127.0.0.1.elsewhere.example:8000", 403),
        ("10.0.0.5:8000", 403),
    ],
)
async def test_it_answers_to_the_names_of_this_machine_alone(client, host, status):
    for path in ("/", "/static/js/textual.js"):
        async with client.get(path, headers={"Host": host}) as answer:
            assert answer.status == status, path


@pytest.mark.parametrize("origin", ["http://elsewhere.example", "null", "http://localhost:1"])
async def test_a_page_of_another_site_gets_no_line_to_the_book(client, server, origin):
    with pytest.raises(aiohttp.WSServerHandshakeError) as refused:
        await client.ws_connect("/ws", headers={"Host": TUNNEL, "Origin": origin})
    assert refused.value.status == 403
    assert server._views == 0


async def test_the_page_asks_for_nothing_from_elsewhere(client):
    async with client.get("/", headers={"Host": TUNNEL}) as answer:
        page = await answer.text()
        policy = answer.headers["Content-Security-Policy"]
    assert f'data-session-websocket-url="ws://{TUNNEL}/ws"' in page
    assert re.findall(r"""(?:https?:|["'])//[^"' ]+""", page) == []
    assert "<i>" not in page
    assert policy.startswith("default-src 'none'; script-src 'self'; ")
    assert re.findall(r"wss?://\S+|https?://\S+", policy) == [f"ws://{TUNNEL};"]


@pytest.mark.parametrize(
    "path", re.findall(r'"(/static/[^"]+)"', (PAGE / "app_index.html").read_text("utf-8"))
)
async def test_what_the_page_asks_for_is_in_the_package(client, path):
    async with client.get(path) as answer:
        assert answer.status == 200
        assert await answer.read()


async def test_more_pages_than_a_few_are_refused(client, server):
    server._views = MOST_VIEWS
    async with client.get("/ws") as answer:
        assert answer.status == 503
        assert f"{MOST_VIEWS} pages are open" in await answer.text()
    assert server._views == MOST_VIEWS


def test_it_listens_on_loopback_and_starts_the_view_by_words_that_a_shell_leaves_alone(server):
    assert server.host == LOOPBACK == "127.0.0.1"
    words = shlex.split(server.command)
    assert words == [
        "exec",
        sys.executable,
        "-m",
        "screens.browser.view",
        str(server._book.absolute()),
    ]
