"""What a cover can show. A scene draws itself and says where the title may stand."""

from __future__ import annotations

from collections.abc import Callable
from random import Random

from harbour.canvas import Canvas, Room
from harbour.palettes import Palette
from harbour.scenes import faces, night, patterns, things, town, water

Scene = Callable[[Canvas, Random, Palette], Room]

SCENES: dict[str, Scene] = {
    "balloons": night.balloons,
    "bees": things.bees,
    "birds": faces.bird_row,
    "buoys": water.buoys,
    "buttons": things.buttons,
    "cards": things.cards,
    "constellation": night.constellation,
    "crane": things.crane,
    "cups": patterns.cups,
    "dominoes": things.dominoes,
    "flags": patterns.flags,
    "garden": town.garden,
    "gears": patterns.gears,
    "gull": faces.gull,
    "gulls": water.gulls,
    "hills": night.hills,
    "horizon": water.horizon,
    "houses": town.houses,
    "island": water.island,
    "keeper": faces.keeper,
    "kettle": night.kettle,
    "keys": patterns.keys,
    "lantern": night.lantern,
    "lemons": things.lemons,
    "letters": things.letters,
    "lighthouse": water.lighthouse,
    "maze": patterns.maze,
    "owl": faces.owl,
    "paper boat": water.paper_boat,
    "planet": night.planet,
    "rays": patterns.rays,
    "regatta": water.regatta,
    "shoal": water.shoal,
    "stairs": town.stairs,
    "stripes": patterns.stripes,
    "submarine": things.submarine,
    "theatre": town.theatre,
    "tiles": patterns.tiles,
    "tram": town.tram,
    "umbrella": town.umbrella,
    "viaduct": town.viaduct,
    "whelk": faces.whelk,
    "windows": town.windows,
}

__all__ = ["SCENES", "Scene"]
