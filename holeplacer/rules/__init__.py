"""The rules a plan is held to: edge_distance, process, spacing, turning, neighbours, strength."""
