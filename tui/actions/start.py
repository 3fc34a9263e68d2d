"""The first steps, each of which can be taken again at any time from any screen."""

from __future__ import annotations

from tui.act import Act

START_ACTIONS: tuple[Act, ...] = (
    Act(
        "start",
        "S",
        "Start",
        "Walk from the list to the check page: each step says what it came to, and can be skipped "
        "or taken again.",
        changes=True,
    ),
    Act(
        "take_list",
        "",
        "Take in list",
        "Take in a list of games: a file, or titles that are pasted.",
        changes=True,
    ),
    Act("take_pictures", "", "Take in covers", "Take in a folder of pictures.", changes=True),
    Act("papers", "", "Papers", "Choose the paper, or describe one of your own.", changes=True),
    Act(
        "check_page",
        "",
        "Check page",
        "Write a check page, and type what was measured on it.",
        changes=True,
    ),
    Act("health", "", "Health", "See whether all is well with the collection's folder."),
)
"""What leads to the first sheet. The list of steps leads to each, and the palette."""
