"""The sections of the whole bench, by the words on their buttons, in their order."""

SECTIONS = (
    *("Lots", "Photographs", "Mixtures"),
    *("Every option", "Colour order", "Which order", "Yarn and fabric", "Side by side"),
    *("Weigh-out", "Grist and twist", "What hands do", "In numbers"),
    *("At the wheel", "At the plying wheel", "What came out", "Files"),
)
