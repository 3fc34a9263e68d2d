"""The values that the rooms hand each other: frozen, checked on reading, lengths in mm.

What a person decided and what happened is stored in these structs; everything else
(stages, proposals, full sheets) is worked out from them when it is asked for.
"""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
