"""Words for the first steps, and for finding one's way."""

from __future__ import annotations

from typing import TYPE_CHECKING

from engine import InputError
from tui.plain.word import Words
from tui.startwords import STEPS

if TYPE_CHECKING:
    from tui.plain.desk import Desk

AROUND = Words("To find your way")

word = AROUND.word

TYPED = {
    "list": "intake FILE, or paste",
    "pictures": "covers FOLDER",
    "case": "set usual case and the kind; cases lists them",
    "storage": "set storage and the way; set storage lists them",
    "paper": "set paper and its id; papers lists them",
    "check": "check-page --out FILE.pdf, then check-page --measured",
    "begin": "next",
}
"""What is typed to take each of the first steps."""


@word("start", acts="start")
def start(desk: Desk, _: str) -> None:
    """Tell the first steps, what each came to, and what to type for it."""
    report = desk.shop.starting.report()
    for key, step in STEPS.items():
        state = step.state(report)
        desk.say(f"{step.label}{state and f', {state}'}. {step.about} Type {TYPED[key]}.")


@word("help", "[WORD|all]", acts="help palette")
def tell_help(desk: Desk, rest: str) -> None:
    """List the words; with one behind it, tell what that does; with all, of every one."""
    from tui.plain.commands import command_lines  # takes long to import
    from tui.plain.vocabulary import KINDS, WORDS

    if rest in WORDS:
        desk.say(f"{WORDS[rest].shown}: {WORDS[rest].about}")
    elif rest in desk.commands:
        desk.say(command_lines(rest))
    elif rest == "all":
        for kind in KINDS:
            desk.say((f"{kind.title}:", *(f"{one.shown}: {one.about}" for one in kind.values())))
        desk.say("Commands, each with what it takes behind its name:")
        desk.say(f"{name}: {about[0].upper()}{about[1:]}." for name, about in desk.commands.items())
    elif rest:
        raise InputError(rest, "no such word", "help lists them")
    else:
        desk.say(f"{kind.title}: {', '.join(kind)}." for kind in KINDS)
        commands = ", ".join(name for name in desk.commands if name not in WORDS)
        desk.say(f"For the rest: {commands}.")
        desk.say("help and a word tells what it does; help all tells of every one.")


@word("quit", acts="quit")
def leave(_desk: Desk, _: str) -> None:
    """Leave; everything is saved already."""
    from tui.plain.desk import Leave

    raise Leave
