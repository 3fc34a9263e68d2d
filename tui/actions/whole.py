"""The collection as a whole: room, supplies, files written of it, and going back.

None of it has a key: each stands in the palette.
"""

from __future__ import annotations

from tui.act import Act

WHOLE_ACTIONS: tuple[Act, ...] = (
    Act("where", "", "Where", "Find a game's place and the colour of its edge by some letters."),
    Act(
        "room",
        "",
        "Room",
        "Describe shelves, drawers and boxes, see what they hold, and settle what goes where.",
        changes=True,
    ),
    Act(
        "labels",
        "",
        "Labels",
        "Add the dividers and shelf labels that are wanted to the backlog.",
        changes=True,
    ),
    Act(
        "supplies",
        "",
        "Supplies",
        "See what is still needed to finish, and note what is in the house and what it costs.",
    ),
    Act(
        "ink_use",
        "",
        "Ink",
        "See how much ink the game and all sheets take, and what each mode would save.",
    ),
    Act("index_file", "", "Index to file", "Write every title with its place, as PDF or CSV."),
    Act("shelf_file", "", "Shelf to file", "Write the picture of all edges, as PNG or PDF."),
    Act("proof_file", "", "Proof to file", "Write the picture of the game's insert, as PNG."),
    Act("net_file", "", "Net to file", "Write the net of a case kind, as SVG, DXF, PDF or PNG."),
    Act("export", "", "Export", "Write the collection out as CSV, JSON and files."),
)
