"""What can hurt, said wherever that work is shown: the usual cautions, common practice, no source.

Makers' data sheets, local rules and those who are licensed know better, and come first.
"""

SHEETS = "The makers' data sheets and your local rules come before anything said here."
POWDERS = (
    "Dye and mordant powders harm when breathed in: still air, gloves, a mask, and no pot or spoon "
    "that goes back to the kitchen."
)
HOT_POTS = (
    "Hot pots and steam scald, acids burn: air the room, keep the lid on, and add acid to water, "
    "never water to acid."
)
DUST = (
    "Weighing and carding raise dust: air the room, and wear a mask where dye or mordant powder "
    "is about. A carder's teeth tear skin: keep fingers off them."
)
HOT_WASH = "Hot water scalds: wear gloves, and lift the yarn out with something else than hands."
WHEEL = (
    "Tie back hair and sleeves. Stop the wheel and let it stand still before you reach for flyer, "
    "hooks or bobbin, or measure."
)
FLYER = "Tie back hair and sleeves, and stop the wheel before you reach for flyer, hooks or bobbin."
"""The same in short, where twist is put right."""
CUTTING = "Stop the wheel and let it stand before you cut, splice or wind."
BREAKS = "Get up and stretch at least once an hour; a hand or shoulder that hurts wants a rest."
LICENCE = (
    "Dyeing for sale, teaching it and pouring spent baths away may need what an authority "
    "licenses: ask yours first."
)
HARM = (
    "After powder or acid in an eye, a burn, or something swallowed: the first aid of the data "
    "sheet, and a doctor or the poison centre at once."
)

DYEING = (POWDERS, HOT_POTS, SHEETS)
"""Beside recipes and baths."""
