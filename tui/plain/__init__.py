"""The program as linear text, for screen readers and terminals that show nothing else.

A line is typed and lines are answered: nothing is drawn, moved or coloured.
"""
