"""What the person decided, as one immutable value in one file. Knows how nothing is computed."""
