"""The sections of the whole bench, by the words on their buttons, in their order."""

SECTIONS = (
    "Lots",
    "Colour order",
    "Which order",
    "Weigh-out",
    "At the wheel",
    "At the plying wheel",
    "What came out",
    "Every option",
    "Grist and twist",
    "What hands do",
    "Yarn and fabric",
    "In numbers",
    "Side by side",
    "Mixtures",
    "Photographs",
    "Files",
)
