"""The bench of the dial: invented households, four ways of setting a dial, and what each puts on the ground."""
