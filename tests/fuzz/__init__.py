"""Fuzzing: whatever a file holds, it is used or refused in a sentence, within the limits."""
