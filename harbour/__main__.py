"""Draw the covers of the demo: python -m harbour [--look | --check].

Draws every cover of ``covers.csv`` into ``engine/demo/pictures/`` and writes what intake finds
and reads in them to ``engine/demo/found.json``, the same bytes each time on one machine. With
--look the covers stay as they are and only that file is written anew. With --check nothing is
written: the covers that ship are looked at and compared with it.
"""

from __future__ import annotations

import sys

from engine.demo import FOUND, PICTURES, found_pictures
from harbour import finding, scans
from harbour.covers import draw
from harbour.shelf import covers


def main(arguments: list[str]) -> int:
    """Do what is asked; return the exit code: 1 where a check finds something, 2 for nonsense."""
    if arguments == ["--check"]:
        faults = check()
        print("\n".join(faults) or "The covers are those of the list, and found as the file says.")
        return 1 if faults else 0
    if arguments not in ([], ["--look"]):
        print(__doc__, file=sys.stderr)
        return 2
    if not arguments:
        draw_all()
    found = finding.read(PICTURES, finding.look(PICTURES), found_pictures())
    FOUND.write_bytes(finding.as_text(found))
    return 0


def draw_all() -> None:
    """Draw every cover into the folder that ships, which then holds nothing else."""
    PICTURES.mkdir(exist_ok=True)
    wanted = covers()
    for left in {path.name for path in PICTURES.iterdir()} - {cover.file for cover in wanted}:
        (PICTURES / left).unlink()
    for cover in wanted:
        scans.write(PICTURES / cover.file, draw(cover), cover.finish)


def check() -> list[str]:
    """Return what is wrong with the covers that ship and with what is said of them."""
    wanted = {cover.file for cover in covers()}
    there = {path.name for path in PICTURES.iterdir()}
    return [
        *(f"{name}: not drawn" for name in sorted(wanted - there)),
        *(f"{name}: no cover of the list" for name in sorted(there - wanted)),
        *finding.differences(found_pictures(), finding.look(PICTURES)),
    ]


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
