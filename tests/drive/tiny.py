"""A tiny full-screen program with which the harness tests itself: python -m tests.drive.tiny."""

from __future__ import annotations

from textual.app import App, ComposeResult
from textual.events import Key, Paste, Resize
from textual.widgets import Static


class Tiny(App[int]):
    """Show the last key, the number of keys, the size and the length of what was pasted."""

    ENABLE_COMMAND_PALETTE = False

    def __init__(self) -> None:
        super().__init__()
        self.keys = 0

    def compose(self) -> ComposeResult:
        yield Static("key none", id="key", markup=False)
        yield Static("size none", id="size")
        yield Static("pasted none", id="pasted")

    def on_key(self, event: Key) -> None:
        """Show the key; Q leaves with code 3."""
        self.keys += 1
        self.query_one("#key", Static).update(f"key {self.keys} {event.key}.")
        if event.key == "Q":
            self.exit(return_code=3)

    def on_paste(self, event: Paste) -> None:
        """Show how much was pasted."""
        self.query_one("#pasted", Static).update(f"pasted {len(event.text)}.")

    def on_resize(self, event: Resize) -> None:
        """Show the size."""
        self.query_one("#size", Static).update(f"size {event.size.width}x{event.size.height}.")


if __name__ == "__main__":
    app = Tiny()
    app.run()
    raise SystemExit(app.return_code)
