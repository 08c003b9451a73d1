"""Every route over HTTP: who may, who may not, and in which words."""
