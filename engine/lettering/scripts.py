"""Which scripts a text has, as far as setting it hangs on that."""

from __future__ import annotations

import re

_EAST_ASIAN = re.compile(
    "[\u1100-\u11ff\u2e80-\u303f\u3040-\u30ff\u3100-\u31ff\u3400-\u9fff\uac00-\ud7ff"
    "\uf900-\ufaff\uff00-\uffef\U00020000-\U0003ffff]"
)
_OTHER_LETTER = re.compile(
    "[^\\W\\d_\u1100-\u11ff\u2e80-\u9fff\uac00-\ud7ff\uf900-\ufaff\uff00-\U0003ffff]"
)


def is_east_asian(text: str) -> bool:
    """Return whether a text has ideographs, kana or hangul, by the blocks of Unicode."""
    return not text.isascii() and _EAST_ASIAN.search(text) is not None


def is_all_east_asian(text: str) -> bool:
    """Return whether a text has ideographs, kana or hangul and no letters of other scripts."""
    return is_east_asian(text) and not _OTHER_LETTER.search(text)
