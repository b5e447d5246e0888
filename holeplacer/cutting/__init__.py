"""Cutting: how contours are cut from a sheet: kerf, order, pierce points, lead-ins, sheets."""
