"""The Harbour Street lending shelf: an invented collection to try everything on."""

from engine.demo.make import DemoInputs, make_demo, make_demo_inputs

__all__ = ["DemoInputs", "make_demo", "make_demo_inputs"]
