"""The window: views that draw values and gestures that propose new plans. Computes nothing."""
