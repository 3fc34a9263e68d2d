"""Pictures: opening them safely, fitting them, their colours."""
