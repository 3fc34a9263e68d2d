"""Words in names that tell of the copy or of the scan, not of the game."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from functools import lru_cache
from itertools import pairwise

from engine.intake.titles import word_set
from engine.model import PictureRole

_REGIONS = word_set(
    "usa us europe eu eur euro japan jp jpn world uk france germany spain italy australia "
    "korea china brazil canada asia sweden netherlands pal ntsc "
    "english french german spanish italian dutch japanese multi"
)
_LANGUAGES = word_set("en fr de es it nl pt sv no da fi ja ko zh pl ru el tr uk cs")  # ISO 639-1
_PARTS = word_set("disc disk cart side")
_REVISIONS = _PARTS | word_set(
    "rev revision ver version v beta proto prototype demo sample final alt alternate "
    "unlicensed unl reprint"
)
_SCANS = word_set(
    "scan scans scanned copy hq lq art artwork image picture img "
    "numerise kopie kopia copia escaneado skan скан"
)

ROLE_WORDS: Mapping[PictureRole, frozenset[str]] = {
    PictureRole.SPINE: word_set(
        "spine spines buchrucken ruecken rucken tranche lomo dorso lombada rug rygg grzbiet корешок"
    ),
    PictureRole.BACK: word_set(
        "back backs rear backcover verso ruckseite rueckseite hinten arriere "
        "reverso trasera contraportada contracapa retro achterkant achterzijde baksida bakside "
        "bagside tyl оборот задняя οπισθοφυλλο 裏"
    ),
    PictureRole.SCREEN: word_set(
        "screen screens screenshot screenshots titlescreen shot shots snap snaps ingame gameplay "
        "bildschirm bildschirmfoto titelbild ecran pantalla captura tela schermata skarmbild "
        "скриншот экран 画面"
    ),
    PictureRole.LOGO: word_set("logo logos wordmark clearlogo schriftzug logotipo логотип ロゴ"),
    PictureRole.CARTRIDGE: word_set(
        "cart carts cartridge cartridges label labels sticker modul aufkleber etikett cartouche "
        "etiquette cartucho etiqueta etichetta картридж наклейка"
    ),
    PictureRole.WRAP: word_set(
        "wrap wraps wraparound inlay inlays inlaycard insert fullcover sleeve jacket flat "
        "umschlag einleger einlage jaquette"
    ),
    PictureRole.OTHER: word_set(
        "manual manuals booklet leaflet instructions poster map anleitung handbuch notice "
        "carte manuel instrucciones karte"
    ),
    PictureRole.FRONT: word_set(
        "front fronts frontcover recto cover covers box boxes boxart boxfront "
        "vorderseite vorne titelseite hulle huelle avant devant couverture "
        "frente portada caratula capa fronte copertina voorkant voorzijde omslag framsida "
        "forside okladka przod обложка лицевая εξωφυλλο 表紙"
    ),
}
"""What says the role of a picture, folded: English, German, French, Spanish, Portuguese, Italian,
Dutch, Scandinavian, Polish, Russian, Greek, Japanese. Where a name says two, as in 'back cover',
the earlier here holds."""

_TITLE = word_set("title titel titre titulo titolo")
_WHOLE = word_set("full whole")
_COVERS = word_set("cover covers")
_BEFORE: Mapping[PictureRole, frozenset[str]] = {
    PictureRole.SCREEN: _TITLE,
    PictureRole.LOGO: _TITLE,
    PictureRole.WRAP: _WHOLE,
}
"""Words that belong to a role's where they stand before it: 'title screen'."""

_ROLES = frozenset[str]().union(*ROLE_WORDS.values())
_SAYING = frozenset[str]().union(*_BEFORE.values())
_COPY = _SCANS | _ROLES
_REMARKS = _REGIONS | _LANGUAGES | _REVISIONS | _COPY

SURE_TAILS = (
    word_set("usa eur jpn pal ntsc hq lq scan scans scanned img numerise kopie escaneado skan скан")
    | _WHOLE
    | (ROLE_WORDS[PictureRole.FRONT] - word_set("box boxes capa avant devant"))
)
"""At the end of a file's name these are remarks, whatever stands before."""
TAILS = _REGIONS | _COPY
"""These are, where more than a word stands before: 'fight back' may be a whole title."""
DOUBTFUL = _REGIONS - SURE_TAILS
"""And these may belong to the title even then."""


def is_remark(words: Sequence[str]) -> bool:
    """Return whether the folded words of a bracket tell only of the copy or the scan.

    A number is a remark only beside a revision ('rev 2') or a role ('back 2'): elsewhere it
    may be a sequel's.
    """
    if not any(word in _REMARKS for word in words):
        return _is_code(words)
    counted = _REVISIONS | _COPY | {"multi"}
    numbered = any(word in counted for word in words)
    said = frozenset(words)
    return all(
        word in _REMARKS
        or _belongs(word, said)
        or (word.isdecimal() and numbered)
        or _is_letter(word)
        for word in words
    )


def _is_code(words: Sequence[str]) -> bool:
    """Return whether the words are a letter with or without a number, or nothing at all."""
    rest_is_short = all(word.isdecimal() or _is_letter(word) for word in words[1:])
    return not words or (_is_letter(words[0]) and rest_is_short)


def _is_letter(word: str) -> bool:
    return len(word) == 1 and not word.isdecimal()


def part_of(words: Sequence[str]) -> str:
    """Return which of several discs or sides a remark names: 'disc 2'; empty for none."""
    for word, which in pairwise(words):
        if word in _PARTS and (which.isdecimal() or _is_letter(which)):
            return which
    return ""


def says_only_scan(words: Sequence[str]) -> bool:
    """Return whether a file's whole name is 'cover' or '3', so that its folder names the game."""
    return all(word.isdecimal() or word in _COPY or word in _SAYING for word in words)


@lru_cache(maxsize=1 << 12)
def role_said(words: frozenset[str]) -> PictureRole | None:
    """Return the role that remarks speak of, if any does; a full cover is a wrap."""
    if not (words.isdisjoint(_WHOLE) or words.isdisjoint(_COVERS)):
        words |= {"fullcover"}
    return next((role for role, said in ROLE_WORDS.items() if not said.isdisjoint(words)), None)


def tails_of(words: Sequence[str]) -> tuple[int, ...]:
    """Return how many words at the end of a name may be remarks, with the numbers that count them.

    None is said where there are none. The first word of a name never is one. A word that belongs
    to a role where it stands before it may as well be the title's last: 'the jug is full cover'.
    """
    start = len(words)
    while start > 1:
        before = start - 1
        if words[before].isdecimal() and before > 1 and words[before - 1] in _COPY:
            before -= 1
        if words[before] not in TAILS:
            break
        start = before
    if start == len(words):
        return ()
    longer = start
    while longer > 1 and _belongs(words[longer - 1], frozenset(words[longer - 1 :])):
        longer -= 1
    return tuple(len(words) - at for at in dict.fromkeys((longer, start)))


def _belongs(word: str, remarks: frozenset[str]) -> bool:
    """Return whether a word belongs to the role that it speaks of together with the others."""
    role = role_said(remarks)
    return role is not None and word in _BEFORE.get(role, ())
