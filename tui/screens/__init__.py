"""The screens and the dialogs, each imported when it is gone to."""

import lazy_loader

__getattr__, __dir__, __all__ = lazy_loader.attach_stub(__name__, __file__)
