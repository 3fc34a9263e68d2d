"""The whole job: a messy list and sixty real photographs become full, true-size sheets.

Everything is done through the command line, as a person would, and measured from the PDFs
by readers that had no hand in writing them: pdfplumber and pypdf for lengths, PDFium for
pixels. Where a figure comes from stands beside it.
"""

from __future__ import annotations

import json
import shutil
from collections.abc import Iterator, Sequence
from contextlib import redirect_stdout
from io import StringIO
from itertools import combinations
from pathlib import Path
from typing import Any, NamedTuple

import pytest
from PIL import Image, ImageChops, ImageStat
from pypdf import PdfReader

from engine import Art, Fit, Proposal, open_workshop
from tests.corpus import Corpus, Shot, build
from tests.measuring import (
    A4,
    ART,
    BLEED,
    EDGES,
    GUTTER,
    MARGINS,
    MM,
    PPI,
    TRUE,
    Box,
    Page,
    figures,
    nearest,
    net_height,
    panel,
    read,
    with_bleed,
)
from tui.cli.dispatch import run

pytestmark = pytest.mark.xdist_group("the main job")  # done once, whichever process measures it


class Job(NamedTuple):
    """What went in and what came out."""

    corpus: Corpus
    folder: Path
    intake: dict[str, Any]
    proposed: dict[str, dict[str, Any]]
    """Proposals after intake, by title."""
    designs: dict[str, Proposal]
    """What was accepted, by game."""
    first: list[dict[str, Any]]
    """The full sheets of the first press."""
    again: dict[str, bytes]
    """The same sheets pressed from a copy of the collection, by file name."""
    pages: list[Page]
    stages: dict[str, int]
    turns: dict[str, int]
    """How each case kind's main art panel is turned on its net, in degrees."""


def spinery(folder: Path, *arguments: str) -> dict[str, Any]:
    """Run a command and return its JSON answer; it must have done something."""
    out = StringIO()
    with redirect_stdout(out):
        code = run([*arguments, "--collection", str(folder), "--json"])
    assert code == 0, (arguments[:3], out.getvalue())
    answer: dict[str, Any] = json.loads(out.getvalue())
    return answer


@pytest.fixture(scope="module")
def job(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Job]:
    base = tmp_path_factory.mktemp("main_job")
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_STATE_HOME", str(base / "state"))
        yield _do_the_job(base)


def _do_the_job(base: Path) -> Job:
    corpus, folder = build(base / "source"), base / "shelf"
    delivery = [str(corpus.list_file), "--pictures", str(corpus.pictures), "--case", "snap-shell"]
    intake = spinery(folder, "intake", *delivery, "--no-reading")
    shutil.rmtree(corpus.pictures)  # from here on the collection stands on its own
    proposed = spinery(folder, "propose")["games"]
    spinery(folder, "propose", "--accept", "--sure")
    left = [game["id"] for game in proposed if not game["sure"]]
    if left:
        spinery(folder, "propose", *left, "--accept")
    twin = Path(shutil.copytree(folder, base / "twin"))
    first = spinery(folder, "press")["sheets"]
    again = [Path(sheet["file"]) for sheet in spinery(twin, "press")["sheets"]]
    rest = spinery(folder, "press", "--part-full")["sheets"] if _waits(folder) else []
    workshop = open_workshop(folder)
    try:
        designs = {line.id: workshop.designs.proposal(line.id) for line in workshop.games.lines()}
        turns = {
            kind: workshop.kinds.net(kind).panels[0].turn
            for kind in ("snap-shell", "soft-cassette")
        }
    finally:
        workshop.close()
    return Job(
        corpus=corpus,
        folder=folder,
        intake=intake,
        proposed={game["title"]: game for game in proposed},
        designs=designs,
        first=first,
        again={path.name: path.read_bytes() for path in again},
        pages=[read(sheet) for sheet in (*first, *rest)],
        stages=spinery(folder, "progress")["stages"],
        turns=turns,
    )


def _waits(folder: Path) -> bool:
    return bool(spinery(folder, "sheets")["open"])


# --- Intake and deciding -----------------------------------------------------------------


def test_every_game_is_taken_in(job: Job) -> None:
    assert job.intake["added"] == 60
    assert job.intake["matched"] + job.intake["doubtful"] + job.intake["bare"] == 60


def test_no_game_gets_the_picture_of_another_and_hardly_one_goes_without(job: Job) -> None:
    own = {shot.title: shot.file for shot in job.corpus.shots}
    given = {title: game["art"]["source"] for title, game in job.proposed.items()}
    assert {t: s for t, s in given.items() if s is not None and s != own[t]} == {}
    assert sum(source is None for source in given.values()) <= 1
    # Covers are not read here, so that few proposals are sure: `tests.bench.blind` counts those.
    assert sum(game["art"]["confidence"] >= 0.85 for game in job.proposed.values()) >= 54


def test_every_title_reads_on_its_base_colour(job: Job) -> None:
    """WCAG 2.2, 1.4.3: at least 4.5 to 1, by its own formula."""

    def luminance(colour: str) -> float:
        channels = [int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5)]
        light = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
        return 0.2126 * light[0] + 0.7152 * light[1] + 0.0722 * light[2]

    for title, game in job.proposed.items():
        pair = sorted(luminance(game["colour"][part]) for part in ("base", "text"))
        ratio = (pair[1] + 0.05) / (pair[0] + 0.05)
        assert ratio >= 4.5, title
        assert game["colour"]["contrast"] == pytest.approx(ratio, abs=0.01)


def test_all_sixty_are_printed(job: Job) -> None:
    placed = [one["game"] for page in job.pages for one in page.said["placements"]]
    assert len(placed) == len(set(placed)) == 60
    assert job.stages["listed"] == 0


# --- The pages, measured -----------------------------------------------------------------


def test_a_page_is_its_paper_and_asks_for_true_size(job: Job) -> None:
    for page in job.pages:
        reader = PdfReader(page.file)
        (only,) = reader.pages
        size = (float(only.mediabox.width) * MM, float(only.mediabox.height) * MM)
        assert size == pytest.approx(A4, abs=TRUE)
        assert reader.trailer["/Root"]["/ViewerPreferences"]["/PrintScaling"] == "/None"


def inside(one: Sequence[float], other: Sequence[float]) -> bool:
    """Whether a box lies within another and meets two of its sides, as a picture on a matte."""
    gaps = (one[0] - other[0], one[1] - other[1], other[2] - one[2], other[3] - one[3])
    return min(gaps) >= -TRUE and sum(gap <= TRUE for gap in gaps) >= 2


def pictured(job: Job, placement: dict[str, Any], bleed: float) -> list[float]:
    """Return where the picture lies on the page with its bleed: on all but the band of words.

    Read upright the band is at the foot, a positive part of the height, or at the right, a negative
    one of the width. A quarter turn takes each side to the next one, from the right to the top.
    """
    whole, bare = list(with_bleed(placement, bleed)), panel(placement, ART[placement["case"]])
    band = job.designs[placement["game"]].design.art.band
    if band:
        quarters = turn_of(job, placement) // 90
        side = ("right", "top", "left", "bottom")[((3 if band > 0 else 0) + quarters) % 4]
        at, far = {"right": (2, 0), "top": (3, 1), "left": (0, 2), "bottom": (1, 3)}[side]
        whole[at] = bare[at] + abs(band) * (bare[far] - bare[at])
    return whole


def turn_of(job: Job, placement: dict[str, Any]) -> int:
    """Return how far the art of a placement is turned on the page, in degrees."""
    return (job.turns[placement["case"]] + 90 * placement["rotated"]) % 360


def test_every_edge_and_every_art_panel_is_true_to_size_and_in_its_place(job: Job) -> None:
    checked = 0
    for page in job.pages:
        for placement in page.said["placements"]:
            for name in EDGES[placement["case"]]:
                off = nearest(page.fills, panel(placement, name))
                assert off <= TRUE, (placement["game"], name)
                checked += 1
            if job.designs[placement["game"]].art.source is not None:
                whole = pictured(job, placement, page.said["bleed_mm"])
                matted = nearest(page.fills, whole) <= TRUE and any(
                    inside(image, whole) for image in page.images
                )
                assert matted or nearest(page.images, whole) <= TRUE, placement["game"]
                checked += 1
    assert checked > 150


def test_ticks_stand_on_the_line_of_every_outer_cut(job: Job) -> None:
    """A rule laid on the ticks lies on the cut, to a tenth of a millimetre."""
    for page in job.pages:
        upright = [line for line in page.lines if abs(line[0] - line[2]) < 0.01]
        level = [line for line in page.lines if abs(line[1] - line[3]) < 0.01]
        for one in page.said["placements"]:
            x, y, w, h = (one[side] for side in ("x_mm", "y_mm", "width_mm", "height_mm"))
            for at in (x, x + w):
                assert any(
                    abs(line[0] - at) <= TRUE and y - 5 < line[1] < y + h + 5 for line in upright
                ), (one["game"], "upright cut")
            for at in (y, y + h):
                assert any(
                    abs(line[1] - at) <= TRUE and x - 5 < line[0] < x + w + 5 for line in level
                ), (one["game"], "level cut")


def test_each_page_has_a_check_bar_of_100_mm_both_ways(job: Job) -> None:
    for page in job.pages:
        wide = [x1 - x0 for x0, y0, x1, y1 in page.lines if abs(y1 - y0) < 0.01]
        tall = [y1 - y0 for x0, y0, x1, y1 in page.lines if abs(x1 - x0) < 0.01]
        assert min(abs(length - 100) for length in wide) <= TRUE
        assert min(abs(length - 100) for length in tall) <= TRUE


def test_no_two_inserts_overlap(job: Job) -> None:
    """The whole of each insert against every other, from places that the test above measures."""
    for page in job.pages:
        whole = []
        for one in page.said["placements"]:
            parts = [panel(one, name) for name in figures(one["case"])]
            whole.append(
                (
                    min(part[0] for part in parts),
                    min(part[1] for part in parts),
                    max(part[2] for part in parts),
                    max(part[3] for part in parts),
                )
            )
        for a, b in combinations(whole, 2):
            apart = max(a[0] - b[2], b[0] - a[2], a[1] - b[3], b[1] - a[3])
            assert apart >= GUTTER - TRUE


def test_everything_lies_inside_the_printers_margins(job: Job) -> None:
    left, bottom, right, top = MARGINS
    for page in job.pages:
        for x0, y0, x1, y1 in (*page.lines, *page.images, *page.fills, *page.letters):
            assert x0 >= left - TRUE
            assert x1 <= right + TRUE
            assert y1 <= top + TRUE
            assert y0 >= bottom - 1.0  # a line of text is measured with its descent
        inked = page.picture.convert("L").point(lambda level: 255 * (level < 250)).getbbox()
        assert inked is not None
        pixel = 25.4 / PPI
        assert inked[0] * pixel >= left - 1.5 * pixel  # ink spreads over the pixels it touches
        assert A4[1] - inked[3] * pixel >= bottom - 1.5 * pixel
        assert inked[2] * pixel <= right + 1.5 * pixel


def test_a_ready_sheet_has_no_room_for_anything_that_is_printed_later(job: Job) -> None:
    """What a person would see at once: an empty place beside an insert that waits."""
    tested = 0
    for number, said in enumerate(job.first):
        taken = [
            (
                one["x_mm"],
                one["y_mm"],
                one["x_mm"] + one["width_mm"],
                one["y_mm"] + one["height_mm"],
            )
            for one in said["placements"]
        ]
        later = {one["case"] for sheet in job.first[number + 1 :] for one in sheet["placements"]}
        for kind in later:
            panels = figures(kind).values()
            size = (max(p.x + p.width for p in panels), net_height(kind))
            for width, height in (size, size[::-1]):
                assert not _room(taken, width, height), (said["number"], kind)
                tested += 1
    assert tested > 10


def _room(taken: Sequence[Box], width: float, height: float) -> bool:
    """Return whether a rectangle could be added at a corner that the others leave."""
    side, foot = 6.0, 8.0  # the strips for the check bars
    left, bottom = MARGINS[0] + side + BLEED, MARGINS[1] + foot + BLEED
    right, top = MARGINS[2] - BLEED, MARGINS[3] - BLEED
    xs = [left, *(x1 + GUTTER for _, _, x1, _ in taken)]
    ys = [bottom, *(y1 + GUTTER for _, _, _, y1 in taken)]
    for x in xs:
        for y in ys:
            if x + width > right or y + height > top:
                continue
            if all(
                max(x - x1, x0 - x - width, y - y1, y0 - y - height) >= GUTTER - 1e-6
                for x0, y0, x1, y1 in taken
            ):
                return True
    return False


def test_titles_are_text_in_embedded_subset_fonts(job: Job) -> None:
    for page in job.pages:
        for placement in page.said["placements"]:
            for edge in job.designs[placement["game"]].edges:
                for word in edge.lines[0].split():
                    assert word in page.text.replace("\n", " ") or word in _turned_text(page)
        fonts = [
            font["/DescendantFonts"][0]["/FontDescriptor"]
            for font in (
                ref.get_object()
                for ref in PdfReader(page.file).pages[0]["/Resources"]["/Font"].values()
            )
        ]
        assert fonts
        for font in fonts:
            assert "+" in font["/FontName"]  # ISO 32000-1, 9.6.4: a subset's tag
            assert "/FontFile2" in font or "/FontFile3" in font


def _turned_text(page: Page) -> str:
    """Return the text of a page in the order it was drawn, whichever way it reads."""
    return PdfReader(page.file).pages[0].extract_text()


def test_no_picture_prints_finer_than_300_ppi(job: Job) -> None:
    for page in job.pages:
        assert max(page.ppi, default=0) <= 301


def test_the_same_collection_gives_the_same_bytes(job: Job) -> None:
    files = {Path(sheet["file"]).name: Path(sheet["file"]).read_bytes() for sheet in job.first}
    assert files
    assert files == job.again


# --- The pictures, looked at -------------------------------------------------------------

WAYS: tuple[Image.Transpose | None, ...] = (None, *Image.Transpose)
UPRIGHT_WITHIN = 7.0
"""Mean difference, in levels of 255, of a picture as printed from what it should be: JPEG
twice over and a palette of 255 colours stay below."""
CAST_WITHIN = 4.0
"""The same for the mean of a channel: wide-gamut numbers taken for sRGB shift it by 5 to 6 here,
inks taken for light by more than 60."""


def as_printed(job: Job, page: Page, placement: dict[str, Any]) -> Image.Image:
    """Return the art panel of a placement as the page shows it, turned to its reading frame."""
    x0, y0, x1, y1 = panel(placement, ART[placement["case"]])
    at = [v * PPI / 25.4 for v in (x0, A4[1] - y1, x1, A4[1] - y0)]
    shown = page.picture.crop(tuple(round(v) for v in at))
    return shown.rotate(-turn_of(job, placement), expand=True)


def as_wanted(shot: Image.Image, proposal: Proposal, panel_shape: float) -> tuple[Image.Image, Box]:
    """Return what the panel should show of a picture, and where on it: fractions from top left.

    ``panel_shape`` is the panel's width over its height.
    """
    art = proposal.design.art
    wide, tall = 1.0 + min(0.0, art.band), 1.0 - max(0.0, art.band)
    part, (x0, y0, x1, y1) = without_band(shot, art, panel_shape * wide / tall)
    return part, (x0 * wide, y0 * tall, x1 * wide, y1 * tall)


def without_band(shot: Image.Image, art: Art, panel_shape: float) -> tuple[Image.Image, Box]:
    """Return that for what of a panel no band of words takes: the upper left."""
    left, top, right, bottom = art.trim
    w, h = shot.size
    part = shot.crop((round(left * w), round(top * h), round(w - right * w), round(h - bottom * h)))
    shape = part.width / part.height
    if art.fit is Fit.STRETCH:
        return part, (0.0, 0.0, 1.0, 1.0)
    # The side that is drawn too short is drawn longer by the stretch, at most to cover the panel.
    eased = 1.0 + art.stretch
    shape = (
        max(panel_shape, shape / eased) if shape > panel_shape else min(panel_shape, shape * eased)
    )
    if art.fit is Fit.FILL:
        keep = (panel_shape / shape, 1.0) if shape > panel_shape else (1.0, shape / panel_shape)
        x, y = (min(max(f - k / 2, 0), 1 - k) for f, k in zip(art.focus, keep, strict=True))
        inside = (x, y, x + keep[0], y + keep[1])
        sides = (part.width, part.height) * 2
        return part.crop(tuple(round(v * s) for v, s in zip(inside, sides, strict=True))), (
            0.0, 0.0, 1.0, 1.0,
        )  # fmt: skip
    wide, tall = (1.0, panel_shape / shape) if shape > panel_shape else (shape / panel_shape, 1.0)
    return part, ((1 - wide) / 2, (1 - tall) / 2, (1 + wide) / 2, (1 + tall) / 2)


def within(picture: Image.Image) -> Image.Image:
    """Leave out its edges: beside a fold the colour of the edge lies on them, 0.5 mm wide."""
    x, y = picture.width * 0.02, picture.height * 0.02
    return picture.crop((round(x), round(y), round(picture.width - x), round(picture.height - y)))


def difference(one: Image.Image, other: Image.Image) -> tuple[float, float]:
    """Return the mean difference of two pictures at a small size, and that of channel means."""
    a, b = (picture.resize((20, 20), Image.Resampling.BOX) for picture in (one, other))
    apart = sum(ImageStat.Stat(ImageChops.difference(a, b)).mean) / 3
    means = zip(ImageStat.Stat(a).mean, ImageStat.Stat(b).mean, strict=True)
    return apart, max(abs(x - y) for x, y in means)


def shown_and_wanted(job: Job) -> Iterator[tuple[Shot, Image.Image, Proposal]]:
    shots = {shot.file: shot for shot in job.corpus.shots}
    for page in job.pages:
        for placement in page.said["placements"]:
            proposal = job.designs[placement["game"]]
            if proposal.art.source is not None:
                yield shots[proposal.art.source], as_printed(job, page, placement), proposal


def test_every_picture_is_printed_upright_and_in_srgb(job: Job) -> None:
    seen = set()
    for shot, printed, proposal in shown_and_wanted(job):
        shape = printed.width / printed.height
        found = {}
        for way in WAYS:
            source = shot.expected if way is None else shot.expected.transpose(way)
            wanted, (x0, y0, x1, y1) = as_wanted(source, proposal, shape)
            w, h = printed.size
            inside = printed.crop((round(x0 * w), round(y0 * h), round(x1 * w), round(y1 * h)))
            found[way] = difference(within(inside), within(wanted))
        apart, cast = found[None]
        assert min(found, key=lambda way: found[way][0]) is None, (shot.file, shot.encoding)
        assert apart <= UPRIGHT_WITHIN, (shot.file, shot.encoding)
        assert cast <= CAST_WITHIN, (shot.file, shot.encoding)
        seen.add(shot.encoding)
    assert {"cmyk", "png16", "wide gamut", "palette", "webp alpha", "turned 5"} <= seen
