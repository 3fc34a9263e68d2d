"""Writes the page of keys: ``python -m tui.actions > docs/keys.md``."""

from __future__ import annotations

import sys

from tui.actions.page import keys_page

sys.stdout.write(keys_page())
