"""Formulas shared by two or more calculations."""
