"""Caution: what every paper says about its figures, in one place and in the same words."""

SHORT = (
    "Estimates for planning, not an approval. Local code and the permit office govern; "
    "a licensed engineer decides where people may be hurt."
)
"""One line, for lists and terminal output."""

FULL = (
    "These figures are estimates for planning, not an approval.",
    "Local code and the permit office govern.",
    (
        "A sign over people or a public way, higher than 60 ft (18 m), in a hurricane or "
        "earthquake region, or on a wall nobody knows needs a licensed engineer."
    ),
    "Anchors hold what their maker says in that wall; prove them by pull tests.",
    "Find wires, gas and water before drilling, and keep clear of power lines.",
)
"""Every sentence, for the report and the papers. The limits of 60 ft and of who needs an
engineer are common practice, no source; the permit office's word goes before them."""
