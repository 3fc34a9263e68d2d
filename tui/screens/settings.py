"""Asks for a setting, each in the dialog that suits what it takes."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from pathlib import Path
from typing import Any, NamedTuple

from textual.screen import ModalScreen

from engine import (
    SETTINGS,
    ByKind,
    Figure,
    FontChoice,
    FontFile,
    Lengths,
    Name,
    Of,
    Phrases,
    Pins,
    Settable,
    Settings,
    Several,
    SpineryError,
    Takes,
    There,
    Usual,
    Words,
    Workshop,
    figure,
)
from tui.screens.base import WorkScreen
from tui.screens.choosers import Pick
from tui.screens.coloursettings import ask_for_groups
from tui.screens.forms import FormLine, Outcome, Typed
from tui.screens.setupwords import cautions_of
from tui.screens.trying import (
    SettingForm,
    SettingPanels,
    SettingPick,
    SettingSearch,
    Trying,
    show_effect,
)
from tui.widgets.table import Column, Row

FONTS_SHOWN = 200


class Present(NamedTuple):
    """What is set, and what can be chosen."""

    settings: Settings
    there: There
    cautions: Mapping[str, str]
    """Of case kinds, by id."""


class SettingQuestion(NamedTuple):
    """What is asked for."""

    setting: Settable
    title: str
    takes: Takes
    value: Any
    """What is set now."""
    fields: Callable[[Any], Mapping[str, Any]]
    """Returns the settings that an answer changes."""


class Asking:
    """Asks for settings on one screen, and changes them."""

    def __init__(self, screen: WorkScreen[Any]) -> None:
        """Show dialogs over ``screen``."""
        self._screen = screen
        self.kind: str | None = None
        """The case kind to begin with where one is asked for."""

    def setting(self, setting: Settable, kind: str | None = None) -> None:
        """Ask for a setting; for one set by case kind, of ``kind``, or ask of which first."""
        self._screen.fetch(
            lambda workshop: _present(workshop, kind or ""),
            partial(self._ask, setting, kind),
            group="setting",
        )

    def of_kind(self, kind: str, present: Settings, there: There) -> None:
        """Show what is set for one case kind, to change one of it."""
        rows = [
            Row(
                one.id,
                (short_title(one), takes.one.words(takes.of(one.value(present), kind), there)),
            )
            for one in SETTINGS.values()
            if isinstance(takes := one.takes, ByKind)
        ]
        self.open(
            Pick(there[Of.KIND][kind], (Column("", 16), Column("")), rows),
            lambda chosen: self.setting(SETTINGS[chosen], kind),
        )

    def open(self, dialog: ModalScreen[Any], then: Callable[[Any], None]) -> None:
        """Open a dialog; ``then`` takes what was chosen, unless it was left."""
        self._screen.app.push_screen(
            dialog, lambda value: then(value) if value is not None else None
        )

    def change(self, **fields: Any) -> None:
        """Change settings."""
        self._screen.work.change(lambda workshop: workshop.setup.change(**fields))

    def _ask(self, setting: Settable, kind: str | None, present: Present) -> None:
        takes, value = setting.takes, setting.value(present.settings)
        if isinstance(takes, Pins):
            ask_for_groups(self._screen)
        elif not isinstance(takes, ByKind):
            question = SettingQuestion(
                setting, setting.title, takes, value, lambda answer: {setting.id: answer}
            )
            self._show(question, present)
        elif kind is None:
            self._ask_kind(setting, takes, present)
        else:
            title = f"{short_title(setting)}: {present.there[Of.KIND].get(kind, 'every case kind')}"
            question = SettingQuestion(
                setting,
                title,
                takes.one,
                takes.of(value, kind),
                lambda answer: {setting.id: {kind: answer}},
            )
            self._show(question, present)

    def _ask_kind(self, setting: Settable, takes: ByKind, present: Present) -> None:
        kinds = {**({"": "every case kind"} if takes.every else {}), **present.there[Of.KIND]}
        value = setting.value(present.settings)
        rows = [
            Row(kind, (name, takes.one.words(takes.of(value, kind), present.there)))
            for kind, name in kinds.items()
        ]
        pick = Pick(setting.title, (Column("case kind", 30), Column("")), rows, at=self.kind)
        self.open(pick, lambda kind: self.setting(setting, kind))

    # --- dialogs -----------------------------------------------------------------------

    def _show(self, question: SettingQuestion, present: Present) -> None:
        match question.takes:
            case Usual(one=FontFile()):
                self._search(question, _fonts, _font)
            case Usual(one=Name(of=Of.MARK)):
                self._search(question, partial(_marks, question.takes, present.there), str)
            case Several(of=Of.PANEL):
                panels = question.takes.choices(present.there)
                self._try(question, SettingPanels(question.title, panels, question.value))
            case Figure() | Lengths() | Phrases() | Several() | Usual(one=Words()):
                self._try(question, typed_form(question, present))
            case _:
                self._pick(question, present)

    def _pick(self, question: SettingQuestion, present: Present) -> None:
        takes, choices = question.takes, question.takes.choices(present.there)
        values = {takes.typed(value): value for value in choices}
        pick = SettingPick(
            question.title,
            (Column(""),),
            [Row(takes.typed(value), (words,)) for value, words in choices.items()],
            at=takes.typed(question.value),
            about={row: present.cautions.get(row, question.setting.about) for row in values},
        )
        self._try(question, pick, values.__getitem__)

    def _search(
        self,
        question: SettingQuestion,
        find: Callable[[str, Workshop], Sequence[Row]],
        value_of: Callable[[str], object],
    ) -> None:
        def look(words: str, then: Callable[[Sequence[Row]], None]) -> None:
            self._screen.fetch(partial(find, words), then, group="search")

        search = SettingSearch(question.title, (Column("", 30), Column("")), look)
        self._try(question, search, value_of)

    def _try(
        self,
        question: SettingQuestion,
        dialog: Trying,
        value_of: Callable[[Any], object] = lambda value: value,
    ) -> None:
        """Open a dialog that shows what each answer would do; change the setting to that taken."""

        def fields(answer: Any) -> Mapping[str, Any]:
            return question.fields(value_of(answer))

        def look(answer: Any) -> None:
            work, setting = self._screen.work, question.setting.id
            show_effect(work, dialog, dialog.view, setting, fields(answer))

        dialog.look = look
        self.open(dialog, lambda answer: self.change(**fields(answer)))


def short_title(setting: Settable) -> str:
    """Return what a setting of a case kind is called where the kind is named beside it."""
    return setting.title.removesuffix(" of a case kind")


def typed_form(question: SettingQuestion, present: Present) -> SettingForm:
    """Return the lines in which figures or short forms are typed."""
    takes, setting = question.takes, question.setting
    about = setting.about
    if isinstance(takes, Lengths):
        fields = [
            FormLine(name, f"{name.capitalize()}, mm", f"{getattr(question.value, name):g}")
            for name in takes.names
        ]
    elif isinstance(takes, Figure):
        unit = f"{takes.unit}s" if takes.whole else takes.unit
        label = f"{setting.title}, {unit}" if unit else setting.title
        fields = [FormLine(setting.id, label, takes.typed(question.value))]
        about = f"{about} It is {takes.may_be}."
    else:
        hint = "Adventure=Adv., Lantern=Ln." if isinstance(takes, Phrases) else ""
        if isinstance(takes, Several):
            hint = " ".join(present.there[takes.of])
        fields = [FormLine(setting.id, setting.title, takes.typed(question.value), hint, wide=True)]

    def read(typed: Typed) -> Outcome[Any]:
        try:
            value = _read(takes, typed, question.value)
            setting.changed(present.settings, value, present.there)
        except ValueError as error:
            return Outcome(None, f"{error}.")
        except SpineryError as error:
            return Outcome(None, str(error))
        return Outcome(value)

    return SettingForm(question.title, fields, read, words=about)


def _read(takes: Takes, typed: Typed, present: Any) -> Any:
    """Return what was typed. Raises ValueError with a sentence."""
    if isinstance(takes, Lengths):
        return tuple(_length(name, line) for name, line in typed.items())
    (line,) = typed.values()
    if isinstance(takes, Phrases):
        forms = (part for part in line.split(",") if part.strip())
        return {**dict.fromkeys(present, ""), **dict(map(takes.parse, forms))}
    return line.split() if isinstance(takes, Several) else takes.parse(line)


def _length(name: str, line: str) -> float:
    value = figure(line)
    if value is None or value < 0:
        raise ValueError(f"{name.capitalize()}: give mm, 0 or more")
    return value


def _present(workshop: Workshop, kind: str) -> Present:
    return Present(
        workshop.setup.settings(), workshop.setup.there(kind), cautions_of(workshop.kinds.lines())
    )


def _fonts(words: str, workshop: Workshop) -> list[Row]:
    found = workshop.titles.fonts(words)[:FONTS_SHOWN]
    rows = [Row(f"{face}:{path}", (name, path)) for path, face, name in found]
    return rows if words.strip() else [Row("", ("the font that ships", "")), *rows]


def _font(row: str) -> FontChoice | None:
    face, _, path = row.partition(":")
    return FontChoice(Path(path), int(face)) if path else None


def _marks(takes: Usual, there: There, words: str, _: Workshop) -> list[Row]:
    """Return the columns that are like some words, and the words as a sign of one's own."""
    wanted = words.strip().casefold()
    if wanted.startswith("="):
        return [Row(words.strip(), (words.strip(), "a sign of your own"))]
    return [
        Row(str(value), (said, ""))
        for value, said in takes.choices(there).items()
        if wanted in said.casefold()
    ]
