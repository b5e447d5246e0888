"""The command line: one module per verb. Knows no widget."""
