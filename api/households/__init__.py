"""A household: invitations into it and the devices that write in it."""
