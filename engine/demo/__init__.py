"""The Harbour Street lending shelf: an invented collection to try everything on.

A neighbourhood library lends about 120 home-made games for a handheld that does not exist.
"""

from engine.demo.make import FOUND, LIST, PICTURES, found_pictures, make_demo

__all__ = ["FOUND", "LIST", "PICTURES", "found_pictures", "make_demo"]
