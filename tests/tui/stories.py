"""Stories that press the key of an action, by the action's id."""

from __future__ import annotations

from collections.abc import Awaitable, Callable
from typing import Any

from tests.tui.driving import Hand

Story = Callable[[Hand], Awaitable[None]]
STORIES: dict[str, tuple[Story, dict[str, Any]]] = {}


def presses(act: str, **kind: Any) -> Callable[[Story], Story]:
    """Tell which action's key a story presses, and what workshop it is on."""

    def keep(story: Story) -> Story:
        STORIES[act] = (story, kind)
        return story

    return keep
