"""Messages of the band that shows the yarn whatever is worked on."""

from typing import Literal, TypedDict

from yarncolor.widgets.protocol.order import SceneSize, ShadesState, StripShape, TableHead


class BandWhy(TypedDict):
    """Why the figures of its caption are what they are: each heading with its lines."""

    kind: Literal["why"]
    why: list[tuple[str, list[str]]]


class BandFrame(TypedDict):
    """The whole yarn as a strip, a length of it, and what both are painted with.

    The first two buffers are of the table, the others of the scene.
    """

    kind: Literal["band"]
    strip: StripShape
    scene: SceneSize
    shades: ShadesState
    colours: list[str]
    table: TableHead
    strip_alt: str
    yarn_alt: str
    caption: str
