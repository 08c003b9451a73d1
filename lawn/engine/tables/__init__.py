"""Coefficient rows and the glossary: facts the formulas read, each with its source."""
