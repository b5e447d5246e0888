"""Paper: what is printed, as values in mm, and the files that carry it; knows no sign."""
