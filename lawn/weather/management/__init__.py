"""The weather's command."""
