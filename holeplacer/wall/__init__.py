"""The wall the sign hangs on: its size, what is in it and behind it. Knows no hole and no plan."""
