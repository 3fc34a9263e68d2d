"""The folder on disk: one file written whole or not at all, a lock, what can be undone."""
