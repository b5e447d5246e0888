"""The sheet: metal, gauge, thickness, cutting process."""
