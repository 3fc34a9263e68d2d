"""Stories that press the key of an action, by the action's id."""

from __future__ import annotations

from collections.abc import Awaitable, Callable

from tests.tui.driving import Hand

Story = Callable[[Hand], Awaitable[None]]
STORIES: dict[str, tuple[Story, str, bool]] = {}


def presses(act: str, stage: str = "listed", *, rests: bool = False) -> Callable[[Story], Story]:
    """Tell which action's key a story presses, and at what stage the collection stands then.

    Proofs are drawn where the keys come to rest.
    """

    def keep(story: Story) -> Story:
        STORIES[act] = (story, stage, rests)
        return story

    return keep
