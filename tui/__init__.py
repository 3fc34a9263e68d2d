"""The terminal program and the command line."""
