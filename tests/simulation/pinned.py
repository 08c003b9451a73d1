"""Seeds that once showed a fault; each stays in the suite."""

PINNED = [
    15,  # a row missing from the storage was noticed only at the next start
    21,  # a dead page's transaction held its tables
    41,  # an entry withdrawn while the server's record of it was missing from the storage
]
