"""What is set for the whole collection, each with the key that changes it."""

from __future__ import annotations

from typing import NamedTuple

from textual.content import Content
from textual.reactive import reactive

from tui.actions import BY_ID
from tui.widgets.flowing import Flowing, hanging, joined


class Setting(NamedTuple):
    """Something that is set."""

    act: str
    """The action that changes it."""
    value: str


class SettingsList(Flowing):
    """The settings: each with its key, its name and its value."""

    DEFAULT_CSS = """
    SettingsList { padding: 0 1; }
    """

    settings: reactive[tuple[Setting, ...]] = reactive((), layout=True)

    def lines(self, width: int) -> list[Content]:
        """Return a line for each setting."""
        return [
            line
            for setting in self.settings
            for line in hanging(_head(setting, 11), Content(setting.value), width)
        ]


class SettingsBand(SettingsList):
    """The same, as many to a line as fit."""

    def lines(self, width: int) -> list[Content]:
        """Return the settings, none of them broken."""
        items = (_head(setting) + Content(setting.value) for setting in self.settings)
        return joined(items, "  ", width)


def _head(setting: Setting, width: int = 0) -> Content:
    act = BY_ID[setting.act]
    return Content.from_markup(
        "[bold $accent]$key[/] [$secondary]$name[/] ",
        key=act.shown,
        name=f"{act.label:<{width}}",
    )
