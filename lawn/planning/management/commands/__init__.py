"""The command that plans a season, a module of its own name."""
