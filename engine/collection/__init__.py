"""The folder on disk: one file written whole or not at all, a lock, what can be undone."""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
