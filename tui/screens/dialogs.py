"""The dialogs that say something: confirm, read, look closely."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from typing import ClassVar, Generic, TypeVar

from textual.app import ComposeResult
from textual.binding import BindingType
from textual.containers import Vertical, VerticalScroll
from textual.content import Content
from textual.screen import ModalScreen
from textual.widgets import Static

from tui.actions import BY_ID, DIALOG, PLACES, acts_of, bindings, sections
from tui.actions.footer import FooterItem
from tui.widgets.flowing import Flowing, hanging
from tui.widgets.keybar import KeyBar, Run
from tui.widgets.proof import Proof

T = TypeVar("T")


class Dialog(ModalScreen[T], Generic[T]):
    """A box over the screen, with its keys at the foot."""

    CSS_PATH = "dialogs.tcss"
    BINDINGS: ClassVar[list[BindingType]] = [*bindings(DIALOG)]

    def __init__(
        self, title: str, choice: str = "Choose", *, leave: str = BY_ID["leave"].label
    ) -> None:
        """Call what Enter does ``choice``, and what Escape does ``leave``.

        Nothing is chosen in a dialog where the first is empty.
        """
        super().__init__()
        self._title = title
        self._choice = choice
        self._leave = leave

    def compose(self) -> ComposeResult:
        """Lay out the box."""
        with Vertical(id="box"):
            yield Static(Content(self._title), id="title")
            yield from self.body()
            yield Run(id="keys")

    def body(self) -> ComposeResult:
        """Lay out what is inside."""
        yield from ()

    def on_mount(self) -> None:
        """Show the keys."""
        self.query_one(Run).items = self.keys()

    @property
    def in_sight(self) -> bool:
        """Whether it stands open: what comes late, after it was left, finds no widgets."""
        return self.is_mounted and self in self.app.screen_stack

    def keys(self) -> tuple[FooterItem, ...]:
        """Return what stands at the foot."""
        labels = {act: act.label for act in acts_of(DIALOG)}
        labels |= {BY_ID["choose"]: self._choice, BY_ID["leave"]: self._leave}
        return tuple(FooterItem(act.shown, label, act.id) for act, label in labels.items() if label)

    async def on_key_bar_pressed(self, message: KeyBar.Pressed) -> None:
        """Do what was clicked at the foot."""
        message.stop()
        await self.run_action(message.act)

    def on_input_submitted(self) -> None:
        """Enter in a line of text chooses too."""
        self.action_choose()

    def result(self) -> T | None:
        """Return what Enter takes; None is not yet anything."""
        return None

    def action_choose(self) -> None:
        """Take what is highlighted or typed."""
        taken = self.result()
        if taken is not None:
            self.dismiss(taken)

    def action_leave(self) -> None:
        """Change nothing."""
        self.dismiss(None)


class Confirm(Dialog[bool]):
    """Say what will happen, and ask."""

    def __init__(self, title: str, lines: Sequence[str], choice: str) -> None:
        super().__init__(title, choice)
        self._lines = lines

    def body(self) -> ComposeResult:
        """Lay out what will happen."""
        with VerticalScroll():
            yield Static(Content("\n".join(self._lines)))

    def result(self) -> bool:
        """Return that Enter was pressed."""
        return True


class Report(Confirm):
    """Say what happened."""

    def __init__(self, title: str, lines: Sequence[str], *, wide: bool = False) -> None:
        """Take the width of the screen where the lines are ``wide``."""
        super().__init__(title, lines, "")
        self.set_class(wide, "-broad")


class Closeup(Dialog[bool]):
    """A proof as large as the screen."""

    def __init__(self, title: str, load: Callable[[Callable[[bytes], None]], None]) -> None:
        """Show what ``load`` hands on when it has it."""
        super().__init__(title, "")
        self._load = load

    def body(self) -> ComposeResult:
        """Lay out the picture."""
        yield Proof()

    def on_mount(self) -> None:
        """Ask for the picture."""
        self.query_one(Proof).show(None, "Drawing the proof…")
        self._load(self._loaded)

    def _loaded(self, png: bytes) -> None:
        if self.in_sight:
            self.query_one(Proof).show(png)


class Keys(Dialog[bool]):
    """Every key of the program."""

    def __init__(self, place: str = "") -> None:
        """Begin with the keys of the screen in sight."""
        super().__init__("Keys", "")
        self._place = place

    def body(self) -> ComposeResult:
        """Lay out the actions, screen by screen."""
        with VerticalScroll():
            yield KeyList(self._place)


class KeyList(Flowing):
    """The actions, screen by screen."""

    def __init__(self, place: str = "") -> None:
        super().__init__()
        self._here = PLACES.get(place, "")

    def lines(self, width: int) -> list[Content]:
        """Return each screen's name and its actions; first what works here, then everywhere."""
        lines: list[Content] = []
        first = {self._here: 0, "Everywhere": 1}
        for name, acts in sorted(sections(), key=lambda section: first.get(section[0], 2)):
            lines.append(Content.from_markup("[bold underline]$name[/]", name=name))
            for act in acts:
                head = Content.from_markup(
                    "[bold $accent]$key[/] [bold]$label[/]",
                    key=f"{act.shown or 'list':>5}",
                    label=f"{act.label:<16}",
                )
                text = Content.from_markup("[$secondary]$help[/]", help=act.help)
                lines += hanging(head, text, width)
            lines.append(Content(""))
        return lines
