"""The canvas: the sign itself, drawn at true size, and every gesture made on it."""
