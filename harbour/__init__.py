"""Draws the covers of the Harbour Street lending shelf; the program only ships them finished.

``python -m harbour`` draws them all and says anew what is found in them.
"""
