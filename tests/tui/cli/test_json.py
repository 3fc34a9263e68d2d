"""What ``--json`` prints: what docs/json.md says, and what it printed before."""

from __future__ import annotations

import json
import re
from collections.abc import Iterable, Iterator
from contextlib import redirect_stdout
from io import StringIO
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from tests.conftest import draw_cover
from tui.cli.dispatch import run

ROOT = Path(__file__).parents[3]
MOLES = "The Extraordinarily Patient Lighthouse Keeper and the Seventeen Moles"

FIGURES = (
    "--level 186.2 --upright 266 --rising 263 --falling 263.1 --left-below 9.5 --left-above 9.8 "
    "--bottom 14 --back-right 0.5 --back-up -0.3"
)

pytestmark = pytest.mark.xdist_group("json")  # the session is run once

SESSION = """
intake: intake {list} --pictures {covers} --case snap-shell --no-reading
read: read
sides: sides copper-kite-1 --give "back=Copper Kite 5.png"
undo: undo
progress: progress
propose: propose
propose: propose copper-kite-1 --without short
batch: batch --next
setup: setup --lettering even --short Kite=Kt. --upright snap-shell --colour-by series
titles: titles
titles: titles moles
setup --what-if: setup --bleed 0.5 --stored stack --lines 1 --what-if
setup: setup --stock-of snap-shell=a4-heavy --stored-of snap-shell=drawer --without
colours: colours Harbour=#aa3311
setup: setup --stock-of snap-shell=usual --lettering free
titles GAME --words: titles moles --words "{words}"
titles GAME --logo: titles copper-kite-3 --logo {covers}/logo.png
propose: propose copper-kite-1 copper-kite-2 copper-kite-3 copper-kite-4 copper-kite-5 --accept
propose: propose copper-kite-6 copper-kite-7 moles --accept
sheets: sheets
press: press
press --part-full --fillers: press --part-full --fillers
press: press --part-full --fill strip --job --reverse long --machine dxf
sheets: sheets
sheets --cuts: sheets --cuts
sheets SHEET: sheets 2
ink: ink
progress: settle 1 --spoiled 2
progress: settle 2
offcuts: offcuts 2 --keep 1
sheets SHEET: sheets 2
colours: colours Harbour=#1133aa
progress: fit copper-kite-3
progress: progress
room: room Hall --size 500x120x90 --keep
where: where "copper kite"
dividers: dividers --add
index: index --out {covers}/index.pdf
supplies: supplies --have snap-shell=3 --pack a4-card=50:12.90 --sample 1
undo: undo
redo: redo
history: history
history GAME: history copper-kite-3
undo: undo
cases: cases
cases: cases snap-shell --correct back.width=+0.5 --without short
cases new: cases new --shape wrap --name Tin --measure height=100 front=64 spine=3
cases KIND --trial: cases tin --trial
proof, cases KIND --out: cases tin --out {covers}/tin.svg
proof, cases KIND --out: proof copper-kite-1 --out {covers}/proof.png
shelf: shelf --file copper-kite-1=Kite --what-if order=series
papers: papers Board --size 250x353 --grain long
check-page: check-page --duplex
check-page: check-page {figures}
check-page: check-page --corrected
keys: keys
completion: completion bash
check: check
check: check --mend
export: export {covers}/out
restore: restore
restore --list: restore --list
intake --look: intake {bay} --pictures {sides} --look
intake: intake {bay} --pictures {sides} --case keep-case --no-reading
propose: propose lantern-bay
history --to, history --day: history --to 1
history --days: history --days
"""
"""Commands that bring a collection through all its states, by the object that they print."""

Printed = dict[str, list[dict[str, Any]]]


@pytest.fixture(scope="module")
def printed(tmp_path_factory: pytest.TempPathFactory) -> Printed:
    """Everything that the commands of the session print, by object."""
    folder = tmp_path_factory.mktemp("session")
    (folder / "covers").mkdir()
    rows = [f"Copper Kite {n},{('Harbour', 'Orchard')[n % 2]}" for n in range(1, 9)]
    text = "\n".join(["title,series", *rows, f"{MOLES}: Low Tide,Orchard"])
    (folder / "games.csv").write_text(text, encoding="utf-8")
    for n in range(1, 7):
        draw_cover(folder / "covers" / f"Copper Kite {n}.png", (30 * n, 60, 120))
    draw_cover(folder / "covers" / "logo.png", (120, 30, 30), (1200, 140))
    (folder / "bay.txt").write_text("Lantern Bay\n", encoding="utf-8")
    (folder / "sides").mkdir()
    for n, side in enumerate(("front", "back")):
        draw_cover(folder / "sides" / f"Lantern Bay {side}.png", (90, 60 * n, 40))
    names = {
        "list": folder / "games.csv",
        "covers": folder / "covers",
        "words": MOLES,
        "bay": folder / "bay.txt",
        "sides": folder / "sides",
        "figures": FIGURES,
    }
    found: Printed = {}
    with pytest.MonkeyPatch.context() as patch:
        patch.setenv("XDG_STATE_HOME", str(folder / "state"))
        for line in SESSION.strip().splitlines():
            name, _, asked = line.partition(": ")
            told = spinery(folder / "shelf", *split(asked.format(**names)))
            found.setdefault(name, []).append(told)
            (folder / "shelf" / "sheets" / "stray.pdf").write_bytes(b"")  # for the check to find
    return found


def split(asked: str) -> list[str]:
    """Return the words of a command line; quoted ones are one, and so is a game's beginning."""
    words = [quoted or plain for quoted, plain in re.findall(r'"([^"]*)"|(\S+)', asked)]
    return ["extraordinarily" if word == "moles" else word for word in words]


def spinery(folder: Path, *asked: str) -> dict[str, Any]:
    out = StringIO()
    with redirect_stdout(out):
        assert run([*asked, "--json", "--collection", str(folder)]) in {0, 1}, asked
    assert out.getvalue(), f"{asked} printed nothing"
    told: dict[str, Any] = json.loads(out.getvalue())
    return told


# --- the page ---------------------------------------------------------------------------


def objects() -> dict[str, dict[str, str]]:
    """Return the keys of each object that the page describes, with what it says of them."""
    page = (ROOT / "docs" / "json.md").read_text(encoding="utf-8")
    return {
        section.partition("\n")[0]: dict(re.findall(r"^\| `([^`]+)` \| (.+) \|$", section, re.M))
        for section in page.split("\n## ")[1:]
    }


class Described(NamedTuple):
    """What the page says of an object."""

    own: set[str]
    """Its keys down to plain values, and not those of objects described elsewhere."""
    all: set[str]
    by_name: set[str]
    """Those of them that hold something by name."""
    linked: dict[str, str]
    """Where it holds objects that are described elsewhere, by key."""


def described(name: str) -> Described:
    """Return what the page says of an object."""
    found = Described(set(), set(), set(), {})
    for key, words in objects()[name].items():
        link = re.search(r"\]\(#([a-z-]+)\)", words)
        if link is None:
            found.own.add(key)
            found.all.add(key)
            if re.search(r"\bby\b", words):
                found.by_name.add(key)
            continue
        found.linked[key] = next(o for o in objects() if o.lower().replace(" ", "-") == link[1])
        inner = described(found.linked[key])
        found.all.update(f"{key}.{one}" for one in inner.all)
        found.by_name.update(f"{key}.{one}" for one in inner.by_name)
    return found


def paths(value: Any, by_name: set[str], path: str = "") -> Iterator[str]:
    """Yield the keys of an object down to plain values; ``by_name`` are not looked into."""
    if path in by_name:
        yield path
    elif isinstance(value, dict):
        for key, one in value.items():
            yield from paths(one, by_name, f"{path}.{key}".removeprefix("."))
    elif isinstance(value, list) and value:
        for one in value:
            yield from paths(one, by_name, f"{path}[]")
    else:
        yield path


def bare(keys: Iterable[str]) -> set[str]:
    """Return keys whether they hold one thing or some: an empty list tells no more."""
    return {key.rstrip("[]") for key in keys}


def with_nothing(keys: Iterable[str]) -> set[str]:
    """Return keys, and what stands in their place where there is nothing: null, an empty list."""
    parts = [re.split(r"(?=\.)", key) for key in keys]
    return bare("".join(part[:n]) for part in parts for n in range(1, len(part) + 1))


def of(printed: Printed, name: str) -> list[dict[str, Any]]:
    """Return what was printed of the object that a heading of the page names."""
    return printed["progress" if name.startswith("progress") else name]


HEADINGS = [name for name in objects() if name[0].islower() and objects()[name]]


@pytest.mark.parametrize("heading", HEADINGS)
def test_what_is_printed_is_what_the_page_says(printed: Printed, heading: str) -> None:
    page = described(heading)
    seen = bare(path for told in of(printed, heading) for path in paths(told, page.by_name))
    assert seen <= with_nothing(page.all), "described on the page"
    assert bare(page.own) <= seen, "printed by the session"


@pytest.mark.parametrize("name", [name for name in objects() if name[0].isupper()])
def test_what_the_page_says_of_an_object_is_printed_somewhere(printed: Printed, name: str) -> None:
    page, seen = described(name), set()
    for told in (told for some in printed.values() for told in some):
        for path in paths(told, set()):
            seen.update(path[at:] for at in range(len(path)) if at == 0 or path[at - 1] == ".")
    lost = {key for key in bare(page.own) if not any(one.startswith(key) for one in seen)}
    assert not lost


def test_a_sheet_is_told_with_its_cuts(printed: Printed) -> None:
    keys = described("A sheet").all | described("A cut order").all
    whole = [sheet for told in printed["sheets --cuts"] for sheet in told["pressed"]]
    seen = bare(path for told in (*printed["sheets SHEET"], *whole) for path in paths(told, set()))
    assert seen <= with_nothing(keys)
    assert (
        bare(key for key in keys if key.startswith(("cuts", "offcuts", "scores", "words"))) <= seen
    )


def test_the_page_is_read_at_all() -> None:
    assert "games[].title_setting.edges[].size_pt" in described("propose").all
    assert len(HEADINGS) == 42


# --- what was promised ------------------------------------------------------------------


def promised() -> dict[str, set[str]]:
    """Return the keys that the first version printed, by object."""
    lines = (Path(__file__).parent / "promised.txt").read_text(encoding="utf-8").splitlines()
    return {
        name: set(keys.split())
        for name, _, keys in (line.partition(": ") for line in lines if not line.startswith("#"))
    }


@pytest.mark.parametrize("name", promised())
def test_no_key_that_was_promised_is_lost(name: str) -> None:
    page = described(name)
    keys = {key for key in promised()[name] if not any(key.startswith(one) for one in page.by_name)}
    assert bare(keys) <= with_nothing(page.all)
