"""Standoffs and the clearance hole they need."""
