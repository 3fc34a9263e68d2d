"""The four decisions of a game, as they stand."""

from __future__ import annotations

from dataclasses import dataclass

from textual.content import Content
from textual.geometry import Size
from textual.reactive import reactive

from engine import Decision, EdgeReport, InkMode, Proposal
from tui.actions import BY_ID
from tui.gamewords import edge_measures, edge_text
from tui.widgets.flowing import Flowing, hanging

_ROWS = (
    (Decision.CASE, "change_case", "Case"),
    (Decision.ART, "change_art", "Art"),
    (Decision.COLOUR, "change_colour", "Colour"),
    (Decision.TITLE, "change_title", "Title"),
)


@dataclass(frozen=True, slots=True)
class Shown:
    """A proposal with the words it is shown in."""

    proposal: Proposal
    kind: str
    """The name of its case kind."""


class Decisions(Flowing):
    """What was accepted (✓) and what is proposed (○), with the numbers behind it."""

    DEFAULT_CSS = """
    Decisions { padding: 0 1; }
    """

    shown: reactive[Shown | None] = reactive(None, layout=True)

    beside = 0
    """Lines of the room around it that are for something else, where they are short."""

    _room = 0
    """Lines that it may take; 0 is any number."""

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        """Be as high as the lines, which are fewer where there is not the room."""
        self._room = max(0, container.height - self.beside) if self.beside else 0
        return super().get_content_height(container, viewport, width)

    def lines(self, width: int) -> list[Content]:
        """Return the title, the doubts and the decisions: a line each where room is short."""
        if self.shown is None:
            return []
        lines = _lines(self.shown, width)
        for brief in (_ROWS_BRIEF, _ALL_BRIEF):
            if 0 < self._room < len(lines):
                lines = _lines(self.shown, width, brief)
        return lines


_ROWS_BRIEF, _ALL_BRIEF = 1, 2


def _lines(shown: Shown, width: int, brief: int = 0) -> list[Content]:
    """Return what there is to say, the decisions or all of it on a line each, cut short."""
    proposal = shown.proposal
    left = len(Decision) - len(proposal.accepted)
    verdict = "all accepted" if not left else "sure" if proposal.sure else "in doubt"
    head = Content.from_markup(
        "[bold]$title[/]  [$secondary]$stage, $verdict[/]",
        title=proposal.title,
        stage=str(proposal.stage),
        verdict=verdict,
    )
    lines = hanging(Content(""), head, width)
    for doubt in proposal.doubts:
        head = Content.from_markup("[bold $warning]  ? [/]")
        said = Content.from_markup("[$warning]$doubt[/]", doubt=doubt)
        lines += _flowing(head, said, width, cut=brief >= _ALL_BRIEF)
    for decision, act, name in _ROWS:
        head = Content.from_markup(
            "[bold $accent]$key[/] $tick [$secondary]$name[/] ",
            key=BY_ID[act].shown,
            tick="✓" if decision in proposal.accepted else "○",
            name=f"{name:<6}",
        )
        lines += _flowing(head, _value(decision, shown), width, cut=brief >= _ROWS_BRIEF)
    return lines


def _flowing(head: Content, body: Content, width: int, *, cut: bool) -> list[Content]:
    if cut:
        return [(head + body).truncate(width, ellipsis=True)]
    return hanging(head, body, width)


def _value(decision: Decision, shown: Shown) -> Content:
    proposal = shown.proposal
    match decision:
        case Decision.CASE:
            return Content(shown.kind)
        case Decision.ART:
            return Content(_art(proposal))
        case Decision.COLOUR:
            colours = proposal.design.colours
            more = [f"of {proposal.group}"] if proposal.group else []
            if proposal.design.ink is not InkMode.FULL:
                more.append(f"printed {proposal.design.ink}")
            return Content.from_markup(
                f"[{colours.text} on {colours.base}] Aa [/] $base, $ink ink, $contrast:1$more",
                base=colours.base,
                ink=_ink(colours.text),
                contrast=f"{proposal.contrast:.1f}",
                more="".join(f" · {words}" for words in more),
            )
        case Decision.TITLE:
            return Content(_title(proposal))


def _art(proposal: Proposal) -> str:
    art = proposal.art
    words = [art.words]
    if art.source is not None:
        words += [f"{art.ppi:.0f} ppi", art.source]
        if Decision.ART not in proposal.accepted:
            words.append(f"{art.confidence * 100:.0f} % match")
    words += [f"on {one.panel}: {one.source}, {one.words}" for one in art.others]
    return " · ".join(words)


def _ink(text: str) -> str:
    return {"#000000": "black", "#ffffff": "white"}.get(text, text)


def _title(proposal: Proposal) -> str:
    """Return each wording once with what it measures on its edges, and how it came to be."""
    edges: dict[str, list[EdgeReport]] = {}
    for edge in proposal.edges:
        edges.setdefault(edge_text(edge), []).append(edge)
    said = "; ".join(f"{words} · {edge_measures(same)}" for words, same in edges.items())
    steps = dict.fromkeys(step for edge in proposal.edges for step in edge.steps)
    notes = dict.fromkeys(note for edge in proposal.edges for note in edge.notes)
    how = [f"{BY_ID['next_wording'].shown} {'; '.join(steps)}"] if steps else []
    told = " ".join(proposal.doubts)
    return " · ".join((said, *how, *(note for note in notes if note not in told)))
