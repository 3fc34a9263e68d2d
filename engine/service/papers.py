"""The papers there are: those that ship, and a person's own."""

from __future__ import annotations

import msgspec

from engine.cases.own import kind_id
from engine.model import Margins, Stock, Value
from engine.model.errors import InputError, RefusedError
from engine.model.naming import Of, known
from engine.model.settings import SETTINGS
from engine.model.stocks import STOCKS
from engine.service.session import Session
from engine.service.setting_up import refuse_narrow
from engine.service.setup import Setup

SMALLEST, LARGEST = 50.0, 1300.0
"""Sides of paper in mm: below the first no insert fits, the second is what wide printers feed by
the sheet (common practice, no published source)."""

LIGHTEST, HEAVIEST = 10.0, 1000.0
"""Grammage in g/m² (ISO 536), from tissue to board (common practice, no published source)."""


class PaperLine(Value, frozen=True):
    """A paper as it is listed."""

    stock: Stock
    own: bool
    """Described by the person."""
    used: bool
    """Something is printed on it."""


class Papers:
    """Stocks."""

    def __init__(self, session: Session, setup: Setup) -> None:
        """Work in ``session``."""
        self._session = session
        self._setup = setup

    def lines(self) -> tuple[PaperLine, ...]:
        """Return all papers."""
        settings = self._session.snapshot.settings
        used = {settings.stock.id, *settings.stocks.values()}
        return tuple(
            PaperLine(one, one.id in settings.own_papers, one.id in used) for one in settings.papers
        )

    def add(
        self,
        name: str,
        size: tuple[float, float] | None = None,
        margins: Margins | None = None,
        **more: object,
    ) -> Stock:
        """Keep a paper of the person's own, or change the one of that name or id; return it.

        ``size`` is in mm, either side first; only a new paper needs one. Without ``margins`` those
        of the printer hold; ``more`` are a stock's grammage, caliper, grain and feed. Raises
        InputError.
        """
        words = name.strip()
        new = kind_id(words)
        if new in STOCKS or words in {stock.name for stock in STOCKS.values()}:
            raise InputError(name, "is no name for a paper of your own", "Give another")
        with self._session.change():
            settings = self._session.snapshot.settings
            before = settings.own_papers.get(new)
            if before is not None and words == before.id:
                words = before.name
            if size is None:
                if before is None:
                    raise InputError(name, "no such paper", "Give its --size to describe it")
                size = before.width, before.height
            short, long = sorted(size)
            if not SMALLEST <= short <= long <= LARGEST:
                what = f"{short:g} × {long:g} mm: sides are from {SMALLEST:g} to {LARGEST:g} mm"
                raise InputError("size", what, "Give it in mm, as 250x353")
            base = before or Stock(new, words, short, long, margins=settings.stock.margins)
            given = {field: value for field, value in more.items() if value is not None}
            if margins is not None:
                given["margins"] = margins
            if "caliper" in given:
                SETTINGS["caliper"].changed(settings, given["caliper"], self._setup.there())
            stock = msgspec.structs.replace(base, name=words, width=short, height=long, **given)
            if not LIGHTEST <= stock.grammage <= HEAVIEST:
                what = f"it is from {LIGHTEST:g} to {HEAVIEST:g} g/m²"
                raise InputError("grammage", what, "Give another value")
            papers = {**settings.own_papers, new: stock}
            later = msgspec.structs.replace(settings, own_papers=papers)
            if settings.stock.id == new:
                later = msgspec.structs.replace(later, stock=stock)
            # Whether anything can be printed on it is seen as if it were the paper in use.
            refuse_narrow(msgspec.structs.replace(later, stock=stock))
            self._session.keep(f"described the paper {words}", settings=later)
            return stock

    def forget(self, said: str) -> None:
        """Take a paper of the person's own off the list.

        Raises InputError for one that is not there, RefusedError for one that is in use.
        """
        with self._session.change():
            settings = self._session.snapshot.settings
            stock = known(Of.STOCK, said, self._setup.there())
            if stock not in settings.own_papers:
                raise RefusedError(stock, "is a paper that ships", "Leave it unused")
            if stock == settings.stock.id or stock in settings.stocks.values():
                raise RefusedError(stock, "inserts are printed on it", "Set up another first")
            left = {key: one for key, one in settings.own_papers.items() if key != stock}
            later = msgspec.structs.replace(settings, own_papers=left)
            self._session.keep(f"forgot the paper {stock}", settings=later)
