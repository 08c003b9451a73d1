"""The season's solver on the server: HiGHS, thin. The model comes from the engine, and goes back to it."""
