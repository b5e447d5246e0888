"""Holeplacer: where the mounting holes of a thin metal sign go."""
