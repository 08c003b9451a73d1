"""A household: its members, the invitations into it, the phones that write in it, and what is held for its keeper."""
