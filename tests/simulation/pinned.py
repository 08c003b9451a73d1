"""Seeds that once showed a fault; each stays in the suite."""

PINNED = [
    15,  # a row missing from the storage was noticed only at the next start
    21,  # a dead page's transaction held its tables
    41,  # an entry withdrawn while the server's record of it was missing from the storage
    97,  # what a server set aside before it was restored is on the phone's list only
    2109,  # a mended row was missing again after a power cut
    2131,  # a phone that slept past the 30 days let go of what the restored server lacked
    102452,  # the checker took a later write, brought back to a restored server, for an older one
    200620,  # the checker knew no older write than one that was held, and took the one shown again for a newer
    301386,  # an edit had met a deletion, which the server was restored to before: the checker missed "not deleted"
    310183,  # a member removed between two pages: what was judged vanished before the later page was here
    74,  # a judged write vanished between two pages: its number was passed, its record was in the later one
]
