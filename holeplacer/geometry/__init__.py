"""Plane geometry that knows no sign: curves, their flattening and transformation."""
