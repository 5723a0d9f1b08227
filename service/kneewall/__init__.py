"""Kneewall: sizing and checking for people who re-engineer a house's heating and cooling."""

VERSION = "1.3.0"
RULEBOOK = "2026.11"
