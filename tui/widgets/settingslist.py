"""What is set for the whole collection, each with the key that changes it."""

from __future__ import annotations

from typing import NamedTuple

from textual.content import Content
from textual.reactive import reactive

from tui.actions import BY_ID
from tui.widgets.flowing import Flowing, hanging


class Setting(NamedTuple):
    """Something that is set."""

    act: str
    """The action that changes it."""
    value: str


class SettingsList(Flowing):
    """A line for each setting: its key, its name, its value."""

    DEFAULT_CSS = """
    SettingsList { padding: 0 1; }
    """

    settings: reactive[tuple[Setting, ...]] = reactive((), layout=True)

    def lines(self, width: int) -> list[Content]:
        """Return the settings."""
        lines: list[Content] = []
        for setting in self.settings:
            act = BY_ID[setting.act]
            head = Content.from_markup(
                "[bold $accent]$key[/] [$secondary]$name[/] ",
                key=act.shown,
                name=f"{act.label:<11}",
            )
            lines += hanging(head, Content(setting.value), width)
        return lines
