"""The weather's command, a module of its own name."""
