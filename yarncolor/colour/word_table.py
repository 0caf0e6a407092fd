"""Words for colours and what they mean: plain names of our own, and words that change a colour.

All by eye: our own, no source. The names of CSS stand beside them (`words`), as do common dyed
colours (`dyes`).
"""

PLAIN = {
    "brick red": "#9f4236", "blood red": "#7a1620", "wine": "#6b2035", "burgundy": "#6d1f33",
    "rust": "#a4512a", "russet": "#85492f", "terracotta": "#b9674a", "copper": "#a9653b",
    "apricot": "#eab181", "peach": "#f0bd9c", "rose": "#c8677f", "old rose": "#b5838a",
    "raspberry": "#a5304f", "plum": "#6a3552", "aubergine": "#40283c", "mauve": "#9a7b9d",
    "lilac": "#b8a2c8", "heather": "#93809b", "ochre": "#c3913c", "mustard": "#c2992b",
    "straw": "#dcc88a", "honey": "#cf9a43", "gold brown": "#94682a", "camel": "#b98f60",
    "brown": "#6f4a2f", "chocolate": "#4a2f22", "dark grey": "#4d4d4d", "dark gray": "#4d4d4d",
    "sand": "#cdb893", "fawn": "#b59a7a", "oatmeal": "#d8cbb3", "cream": "#f3ead3",
    "off white": "#f2ede1", "natural white": "#efe8d8", "moorit": "#6d4b38", "peat": "#3d2e27",
    "charcoal": "#3c3d40", "silver grey": "#b9b9b6", "slate": "#5d6872", "denim": "#45618a",
    "petrol": "#215562", "duck egg": "#b6d0c6", "sea green blue": "#5b9a98", "ink": "#20283d",
    "moss": "#66702f", "sage": "#9aa583", "bottle green": "#214a37", "leaf green": "#5a8a3c",
    "lichen": "#a8ab8a", "pea green": "#8fa04a", "grass green": "#4f8239",
}  # fmt: skip
"""CSS hex colours by plain names; these win over the names of CSS, whose brown is a red."""

GREY = ""
"""A colour's own grey."""

CHANGES = {
    "pale": ("#ffffff", 0.55), "light": ("#ffffff", 0.3), "whitish": ("#ffffff", 0.4),
    "faint": ("#ffffff", 0.65), "misty": ("#dfe0e0", 0.45), "creamy": ("#f3ead3", 0.35),
    "dark": ("#000000", 0.4), "deep": ("#000000", 0.25), "blackish": ("#000000", 0.55),
    "dusky": ("#4a4446", 0.35), "smoky": ("#6e6a68", 0.35), "earthy": ("#6f5a41", 0.3),
    "dull": (GREY, 0.4), "muted": (GREY, 0.5), "soft": (GREY, 0.25), "dusty": (GREY, 0.45),
    "faded": ("#d8d4cc", 0.35), "greyish": (GREY, 0.55), "grayish": (GREY, 0.55),
    "silvery": ("#b9b9b6", 0.35), "medium": (GREY, 0.0), "mid": (GREY, 0.0),
    "bright": (GREY, -0.4), "brilliant": (GREY, -0.5), "vivid": (GREY, -0.4),
    "strong": (GREY, -0.25), "rich": (GREY, -0.25),
    "reddish": ("#b3312c", 0.25), "rusty": ("#a4512a", 0.3), "rosy": ("#c8677f", 0.3),
    "orangey": ("#d9772a", 0.25), "orangish": ("#d9772a", 0.25),
    "yellowish": ("#dcc13a", 0.25), "golden": ("#c99a2e", 0.25),
    "greenish": ("#4f8239", 0.25), "bluish": ("#3f6aa8", 0.25), "blueish": ("#3f6aa8", 0.25),
    "purplish": ("#6b3f80", 0.25), "pinkish": ("#d98a9c", 0.25),
    "brownish": ("#6f4a2f", 0.25), "tawny": ("#b07a45", 0.3),
    "red": ("#b3312c", 0.45), "orange": ("#d9772a", 0.45), "yellow": ("#dcc13a", 0.45),
    "green": ("#4f8239", 0.45), "blue": ("#3f6aa8", 0.45), "purple": ("#6b3f80", 0.45),
    "violet": ("#6b3f80", 0.45), "pink": ("#d98a9c", 0.45), "brown": ("#6f4a2f", 0.45),
    "grey": (GREY, 0.65), "gray": (GREY, 0.65),
    "warm": ("#d9772a", 0.12), "cool": ("#3f6aa8", 0.12),
}  # fmt: skip
"""Words before a name: what it is mixed with, and by how much; less than 0 is away from it."""

BESIDE = 0.5
"""How much a name before a name counts, as moss in moss green."""

STRENGTHS = {"very": 2.0, "rather": 1.0, "quite": 1.0, "slightly": 0.5, "faintly": 0.5}
"""Words before one that changes: how many times that counts."""

MOST_TIMES = 4.0
