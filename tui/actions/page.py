"""The page of keys, ``docs/keys.md``."""

from __future__ import annotations

from tui.actions import sections


def keys_page() -> str:
    """Return ``docs/keys.md``."""
    lines = [
        "# Keys",
        "",
        "<!-- Written by `python -m tui.actions > docs/keys.md`; change tui/actions/. -->",
        "",
        "The arrow keys, Page Up, Page Down, Home and End move through every list, and a mouse",
        "works too: click a game, a screen's name, a key in the footer, an insert on a sheet.",
        "Every action also stands in the command palette (`^p`; `^` is the Control key).",
        "",
        "`spinery keys` prints this card with the keys of your own, which a file can name:",
        "[Keys of your own](terminals.md#keys-of-your-own).",
    ]
    for name, acts in sections():
        lines += ["", f"## {name}", "", "| key | action | what it does |", "| --- | --- | --- |"]
        for act in acts:
            key = f"`{act.shown}`" if act.key else "in the list"
            lines.append(f"| {key} | {act.label} | {act.help} |")
    return "\n".join(lines) + "\n"
