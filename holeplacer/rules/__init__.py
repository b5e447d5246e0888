"""The rules a plan is held to, in the order of what is asked first.

edge_distance, process, spacing, turning, neighbours, seam_distance, wall, strength.
"""
