"""Write the reference into the README: python -m tests.docs --write."""

from __future__ import annotations

import sys

from tests.docs.reference import README, reference, written

if "--write" in sys.argv[1:]:
    README.write_text(written(README.read_text("utf-8")), "utf-8")
else:
    sys.stdout.write(reference() + "\n")
