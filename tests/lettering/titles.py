"""A made-up shelf: invented titles of 1 to 90 characters in ten scripts."""

import random

_WORDS = {
    "Latin": "Lantern Keeper Harbour Moss Quiet Signal Rook Éclair Łódka Đảo Ångel Ñandú "
    "Winter Fjord jigsaw Tower the of and Voyage gypsy Quartz Zephyr",
    "Greek": "Φάρος λιμάνι Νησί Άνεμος θάλασσα Ψηλό κύμα",
    "Cyrillic": "Маяк остров Ёлка берег Щука тихий йод Южный",
    "Hebrew": "מגדלור נמל הישן ספינה שקט אור",
    "Arabic": "كتاب البحر القديم منارة جزيرة ليل",
    "Devanagari": "द्वीप दीपक समुद्र क्षितिज शांति रात्रि",
    "Thai": "ประภาคาร ทะเล เกาะ ที่นี่ ครู้ คืน",
    "Tamil": "கலங்கரை தீவு கடல் இரவு விளக்கு",
}
_CHARACTERS = {
    "Han": "灯台守海島夜風雨光星月山川物語第二章航路",
    "Kana": "あかさたなはまやらゎっァイウエオーンのをが、。「」",
}
_LENGTHS = (1, 3, 6, 8, 10, 12, 14, 16, 18, 20, 22, 25, 28, 32, 38, 45, 60, 75, 90)


def shelf(count: int, seed: int = 7, plain: float = 0.6) -> list[str]:
    """Return ``count`` titles, no two alike; the part ``plain`` of them Latin alone."""
    dice = random.Random(seed)
    titles: dict[str, None] = {}
    while len(titles) < count:
        length = dice.choice(_LENGTHS)
        script = "Latin" if dice.random() < plain else dice.choice([*_WORDS, *_CHARACTERS])
        title = _text(script, length, dice)
        if dice.random() < 0.1:
            title = f"{title} {dice.randint(2, 99)}"[-90:].strip()
        titles[title] = None
    return list(titles)


def _text(script: str, length: int, dice: random.Random) -> str:
    if script in _CHARACTERS:
        first = "灯" if script == "Han" else "あ"
        return first + "".join(dice.choice(_CHARACTERS[script]) for _ in range(length - 1))
    words = _WORDS[script].split()
    title = dice.choice(words)
    while len(title) + 8 < length:
        title += dice.choice([" ", " ", " ", " ", ": ", " - ", "-"]) + dice.choice(words)
    return title if length > 2 else title[0]
