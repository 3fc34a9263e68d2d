"""Spinery's engine: everything but the terminal. Import from here, not from the rooms.

What there is stands in ``__init__.pyi``; each name is looked up when it is first asked for.
"""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
