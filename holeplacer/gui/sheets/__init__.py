"""The sheets at hand with their sections, looked at and moved by hand; no view computes."""
