"""The words all calculations speak."""
