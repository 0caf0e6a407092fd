"""At the plying wheel: how far it is, what changes next, what to do when a single runs out."""
