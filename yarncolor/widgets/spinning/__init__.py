"""At the wheel: what lies on the bobbins, whether it matters, how to go on."""
