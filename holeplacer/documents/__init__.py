"""What goes out: drawings, lists and the report; each file is read back before it counts."""
