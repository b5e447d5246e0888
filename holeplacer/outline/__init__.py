"""The sign as metal: pieces with their counters, true size, y up, mm. Knows no file and no rule."""
