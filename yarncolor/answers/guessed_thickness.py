"""On what every length hangs while nobody said how thick the single is."""

from yarncolor.answers.answer import Preview
from yarncolor.layout.assumptions import Why


def if_single_is(preview: Preview) -> str:
    """Return the thickness that was guessed, in words; nothing where it was given."""
    grist = [one for one in preview.resolved.assumptions if one.key == "single_tex"]
    if any(one.why is not Why.USUAL for one in grist):
        return ""
    return f"if your single is about {1000 / grist[0].value[0]:.0f} m/g"
