"""Plan, outline and axis together: findings, spans and figures."""
