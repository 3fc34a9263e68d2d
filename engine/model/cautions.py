"""The usual cautions for work that can hurt someone.

They are reminders, not instructions: the product's own safety sheet and local rules go
before them. The adhesive's are the hazard and precautionary statements usual on such cans
(Regulation (EC) No 1272/2008, numbers as commonly printed); a given can may carry others.
"""

from __future__ import annotations

from typing import Final

FIRST: Final = "The product's safety sheet and local rules go before these reminders."

CUTTING: Final = (
    (
        "Cutting: a mat larger than the work, a steel safety rule, a sharp blade. Keep the "
        "holding hand behind the blade and out of its path, and cut away from the body. Spent "
        "blades go in a sharps box."
    ),
    FIRST,
)

PLASTIC: Final = (
    "Snipping plastic: wear eye protection (EN 166 or ANSI Z87.1); pieces fly.",
    FIRST,
)

ADHESIVE: Final = (
    (
        "Spray adhesive: extremely flammable aerosol (H222, H229); irritates skin and eyes, may "
        "cause drowsiness (H315, H319, H336). Keep away from heat and sparks, outdoors or in a "
        "well-ventilated place (P210, P211, P271). The can's own label counts."
    ),
    FIRST,
)

LAMINATING: Final = (
    (
        "Laminating: the rollers are hot. Use pouches made for the machine, and unplug it before "
        "clearing a jam."
    ),
    FIRST,
)

TRIMMING: Final = (
    "Keep fingers behind the guard, and lock or sheathe the blade when it rests.",
    "With a knife: a mat larger than the work, a steel safety rule, the holding hand behind it.",
    "The instructions of your trimmer and local rules go before any of this.",
)
