"""The stroke ribbon: the medial axis unrolled, stroke after stroke, to look along it."""
