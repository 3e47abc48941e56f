"""The view of a book in a browser: pages of text from this machine, for this machine alone.

What the browser shows is the same program as `shoedown watch` in a terminal; each page that is
opened has a process of its own. Fonts and scripts come from the installed package: nothing is
fetched from anywhere else.
"""

from __future__ import annotations

import logging
import shlex
import socket
import sys
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import Any
from urllib.parse import urlsplit

from aiohttp import web
from textual_serve.server import Server

from screens.commands.telling import say
from tally.errors import ShoedownError
from tally.reports.guard import visible

LOOPBACK = "127.0.0.1"
"""The only address that is listened at; there is no option for another."""
NAMES = frozenset({"127.0.0.1", "localhost"})
"""What a browser of this machine, or one at the end of a tunnel, may call it."""
MOST_VIEWS = 8
PAGE = Path(__file__).parent / "page"
POLICY = (
    "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; font-src 'self'; "
    "img-src 'self' data:; connect-src 'self' ws://{host}; base-uri 'none'; form-action 'none'; "
    "frame-ancestors 'none'"
)
"""The browser itself refuses to fetch anything of the page from elsewhere."""
Handler = Callable[[web.Request], Awaitable[web.StreamResponse]]


def serve(book: Path, port: int) -> None:
    """Serve views of a book until the program is interrupted.

    Raises
    ------
    ShoedownError
        If the port is taken.
    """
    try:
        with socket.create_server((LOOPBACK, port)):
            pass
    except OSError as fault:
        raise ShoedownError(
            f"Port {port} of this machine is taken or not to be had; choose another with --port."
        ) from fault
    BookServer(book, port).serve()


class BookServer(Server):
    """Serves views of one book on loopback."""

    def __init__(self, book: Path, port: int) -> None:
        words = [sys.executable, "-m", "screens.browser.view", str(book.absolute())]
        command = shlex.join(words if sys.platform == "win32" else ["exec", *words])
        title = f"{book.name} - look only"
        super().__init__(command, LOOPBACK, port, title, templates_path=PAGE)
        self._book = book
        self._views = 0

    def initialize_logging(self) -> None:
        """Say nothing of each request; faults go to the error output."""
        logging.basicConfig(level="WARNING", format="%(message)s", force=True)

    async def on_startup(self, app: web.Application) -> None:
        """Say where the view is."""
        say(f"{visible(self._book.name)}, look only: {self.public_url} (from this machine only)")
        say("Ctrl+C ends it.")
        sys.stdout.flush()

    async def handle_index(self, request: web.Request) -> Any:
        """Serve the page; its line goes back to whatever name and port it was called by."""
        from aiohttp_jinja2 import render_template

        fields = {
            "application": {"name": self.title},
            "app_websocket_url": f"ws://{request.host}/ws",
            "font_size": 16,
        }
        return render_template("app_index.html", request, fields)

    async def handle_websocket(self, request: web.Request) -> Any:
        """Start a view of its own for each page, up to a few."""
        if self._views >= MOST_VIEWS:
            raise web.HTTPServiceUnavailable(text=f"{MOST_VIEWS} pages are open; close one first.")
        self._views += 1
        try:
            return await super().handle_websocket(request)
        finally:
            self._views -= 1

    async def _make_app(self) -> web.Application:
        app = await super()._make_app()
        app.middlewares.append(for_this_machine)
        return app


@web.middleware
async def for_this_machine(request: web.Request, handler: Handler) -> web.StreamResponse:
    """Refuse a page of another site that reaches for the view through somebody's browser."""
    host = request.host
    origin = request.headers.get("Origin")
    if urlsplit(f"//{host}").hostname not in NAMES:
        raise web.HTTPForbidden(text="This view is for this machine only.")
    if origin is not None and origin != f"http://{host}":
        raise web.HTTPForbidden(text="This view is not for pages of other sites.")
    response = await handler(request)
    if not response.prepared:
        response.headers["Content-Security-Policy"] = POLICY.format(host=host)
        response.headers["Cache-Control"] = "no-store"
        response.headers["X-Content-Type-Options"] = "nosniff"
    return response
