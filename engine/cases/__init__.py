"""Case kinds: nets of paper, folded in space; built-in ones and a person's own."""
