"""The bench of the mow: invented lawns on published weather, ways of saying when they want cutting, and soil warmth."""
