"""Loads: what wind, weight, temperature and hands do to the sign; knows no outline and no holes."""
