"""The customer's file, read strictly, mended openly, accounted for whole. Knows no rule."""
