"""Resistance: one limit state per module, newtons and millimetres in, utilisation out."""
