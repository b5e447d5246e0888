"""Seams: where the sign is divided into sections that fit the sheets at hand, and welded again.

The window calls what lies between two seams a section; in engineering that word alone means a
cross-section, so that this package is named by the cut.
"""
