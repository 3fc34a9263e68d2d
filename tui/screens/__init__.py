"""One file a screen, its style sheet beside it."""
