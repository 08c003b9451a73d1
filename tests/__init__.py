"""The proofs, in folders named by what they prove (DEVELOPERS.md)."""
