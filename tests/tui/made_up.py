"""Made-up games: what the workshop in memory is filled with."""

from __future__ import annotations

import io
from dataclasses import dataclass, field

from PIL import Image, ImageDraw

from engine import ArtReport, EdgeReport, Proposal, SheetReport
from engine.cases import CaseKind
from engine.model import (
    Art,
    Colours,
    Decision,
    Design,
    EdgeTitle,
    Fit,
    InkMode,
    Loss,
    Stage,
    Stock,
)
from engine.model.settings import Settings

KINDS = {"snap-shell": "Clear snap shell", "soft-cassette": "Soft cassette case"}
SIZES = {"snap-shell": (74.0, 66.0), "soft-cassette": (94.0, 79.0)}
STOCK = Stock(id="a4-card", name="A4 card", width=210.0, height=297.0)
A_SHEETFUL = 6
BATCH = 6
SWATCHES = ("#1f4e79", "#7a2e2e", "#2f5d3a", "#6b4e8a", "#8a6d1f", "#2f6f73", "#444444")
FIRST = ("Lantern", "Harbour", "Tin", "Paper", "Glass", "Moss", "Copper", "Salt", "Kite", "Ember")
SECOND = ("Bay", "Orchard", "Parade", "Engine", "Lighthouse", "Postman", "Caravan", "Garden")


WORDS = {
    Fit.FILL: "crops 11 % left and right",
    Fit.STRETCH: "stretched 6 % taller",
    Fit.MATTE: "whole, 12 % matte",
}


def title_of(n: int) -> str:
    return f"{FIRST[n % 10]} {SECOND[n // 10 % 8]}" + (f" {n // 80 + 1}" if n >= 80 else "")


def source(picture: str) -> str:
    """Return the file name that a picture came with."""
    return f"{title_of(int(picture[1:4])).lower().replace(' ', '_')}.png"


def made_up(n: int, case: str, confidence: float) -> FakeGame:
    """Return the ``n``-th game; without a picture where there is no confidence at all."""
    title = title_of(n)
    return FakeGame(
        id=title.lower().replace(" ", "-"),
        title=title,
        case=case,
        picture=f"p{n:03}.png" if confidence else None,
        confidence=confidence,
        series=f"{FIRST[n % 10]} tales" if n % 3 == 0 else "",
        maker=("North Pier", "Quayworks", "Attic Nine")[n % 3],
    )


@dataclass(frozen=True)
class FakeGame:
    id: str
    title: str
    case: str
    picture: str | None
    confidence: float
    series: str = ""
    maker: str = ""
    accepted: frozenset[Decision] = frozenset()
    art: Art | None = None
    base: str | None = None
    lines: tuple[str, ...] | None = None
    printed: str | None = None
    fitted: str | None = None
    left_out: tuple[str, ...] = ()
    ink: InkMode = InkMode.FULL

    @property
    def stage(self) -> Stage:
        design = self.design.fingerprint
        if self.fitted == design:
            return Stage.FITTED
        if self.printed == design:
            return Stage.PRINTED
        if {Decision.ART, Decision.TITLE} <= self.accepted:
            return Stage.TITLE_SET
        return Stage.ART_CHOSEN if Decision.ART in self.accepted else Stage.LISTED

    @property
    def reprint(self) -> bool:
        return self.printed is not None and self.stage is Stage.TITLE_SET

    @property
    def chosen_art(self) -> Art:
        return self.art if self.art is not None else Art(picture=self.picture, fit=Fit.FILL)

    @property
    def design(self) -> Design:
        lines = self.lines or (self.title,)
        return Design(
            case=self.case,
            art=self.chosen_art,
            colours=Colours(self.base or SWATCHES[len(self.title) % len(SWATCHES)], "#ffffff"),
            title=tuple(
                EdgeTitle(panel=p, lines=lines, size=11.5)
                for p in ("long", "short")
                if p not in self.left_out
            ),
            left_out=self.left_out,
            ink=self.ink,
        )

    @property
    def doubts(self) -> tuple[str, ...]:
        if Decision.ART in self.accepted:
            return ()
        if self.picture is None:
            return ("No picture was found. Choose one, or go plain.",)
        if self.confidence < 0.85:
            return (f"The picture is this game's with {self.confidence:.0%} confidence only.",)
        return ()

    @property
    def proposal(self) -> Proposal:
        design = self.design
        name = design.art.picture
        return Proposal(
            game=self.id,
            title=self.title,
            case=self.case,
            stage=self.stage,
            sure=not self.doubts,
            doubts=self.doubts,
            accepted=tuple(d for d in Decision if d in self.accepted),
            design=design,
            art=ArtReport(
                source=None if name is None else source(name),
                confidence=self.confidence,
                fit=design.art.fit,
                loss=Loss(cropped=0.11),
                ppi=0 if name is None else 312,
                words="plain" if name is None else WORDS[design.art.fit],
            ),
            contrast=8.31,
            edges=tuple(
                EdgeReport(t.panel, t.lines, t.size, 2.84, 488.0, 270) for t in design.title
            ),
        )


@dataclass(frozen=True)
class State:
    games: dict[str, FakeGame]
    batch: tuple[str, ...] = ()
    pressed: tuple[SheetReport, ...] = ()
    settled: tuple[SheetReport, ...] = ()
    number: int = 0
    settings: Settings = field(default_factory=Settings)
    own: tuple[CaseKind, ...] = ()


def drawn(size: tuple[float, float], base: str, words: str) -> bytes:
    """Return a PNG of ``size`` mm: an edge in the base colour, a drawn scene, the words."""
    width, height = (round(mm * 4) for mm in size)
    image = Image.new("RGB", (width, height), "#ffffff")
    draw = ImageDraw.Draw(image)
    draw.rectangle((0, 0, width, 40), fill=base)
    draw.text((12, 8), words, fill="#ffffff", font_size=22)
    draw.rectangle((0, 44, width, height), fill="#9fb8c8")
    draw.ellipse((width // 4, height // 3, width * 3 // 4, height * 9 // 10), fill=base)
    out = io.BytesIO()
    image.save(out, "PNG")
    return out.getvalue()
