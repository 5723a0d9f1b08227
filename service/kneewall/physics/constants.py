"""Numbers that stand everywhere."""

from math import pi

STANDARD_GRAVITY = 9.80665
"""m/s2, exact by definition (3rd General Conference on Weights and Measures, 1901)"""
QUARTER_PI = pi / 4.0
"""A circle over the square around it"""
