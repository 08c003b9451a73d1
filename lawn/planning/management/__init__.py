"""The command that plans a season."""
