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
    (
        "Find wires, gas and water before drilling, and keep ladders, scaffolds and the sign "
        "itself well away from power lines."
    ),
    (
        "Work above the ground needs fall protection; wide floppy parts need two people or a "
        "hoist, and nobody stands below."
    ),
    (
        "Cutting and welding: clear away what burns and watch for fire afterwards; zinc, plating "
        "and paint give off poisonous fume, so air the place and wear a respirator."
    ),
    "Shade the eyes for the arc, and guard ears and hands: cut edges and dross are sharp.",
)
"""Every sentence, for the report and the papers. The limits of 60 ft and of who needs an
engineer are common practice, no source; the permit office's word goes before them."""
