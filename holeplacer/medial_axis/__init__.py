"""Centres of maximal inscribed discs, as a graph with the disc's radius. Knows no hole."""
