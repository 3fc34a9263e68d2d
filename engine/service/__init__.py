"""The use cases: what a person does with a collection, a module for each part of the work.

What a method changes is on the disk when it returns, as one change that ``undo`` takes back.
Every method may be called from any thread.
"""

from engine.service.workshop import Workshop, open_workshop, restore

__all__ = ["Workshop", "open_workshop", "restore"]
