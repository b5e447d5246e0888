"""Where holes go: covering the axis with proven fewest holes. Proposes, never decides."""
