"""Weather from outside: one client of an open forecast service, and what it said, kept for each rounded place.

Nothing is asked before a keeper has turned it on in their household, and nothing leaves the server but a place rounded
to 0.1° (about 11 km). Whatever the service does, the app goes on from the climate.
"""
