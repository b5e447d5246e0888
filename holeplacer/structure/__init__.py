"""Load effects: what pressure, weight and temperature do to strokes and standoffs.

Elastic bodies on the medial axis, and what they answer to loads. Knows outline, axis and holes'
places; nothing of resistances, rules or the window.
"""
