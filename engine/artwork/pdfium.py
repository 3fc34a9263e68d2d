"""PDFium, entered by one thread at a time: it is not safe otherwise (pypdfium2's own README)."""

from __future__ import annotations

from threading import Lock

PDFIUM = Lock()
"""Held while a PDF is opened, drawn and closed, by whoever in the program does it."""
