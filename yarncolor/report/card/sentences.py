"""What the card says of one single's order: where it closes, what is left out, what is meant."""

from dataclasses import dataclass

from markupsafe import Markup

_LONG_NAME = 30
_LAID_ASIDE = {
    False: "that was laid aside, in one piece",
    True: "closing pieces, in one",
}
_TAIL_AT = {False: "very end", True: "beginning"}


def named(name: str) -> Markup:
    """Return a lot's name as it stands in a sentence of the card."""
    look = "name long" if len(name) > _LONG_NAME else "name"
    return Markup('<bdi class="{}">{}</bdi>').format(look, name)


@dataclass(frozen=True)
class OrderSentences:
    """Sentences on the order of one single.

    Parameters
    ----------
    closing : str
        The way of closing in force; empty where none is.
    closing_lot : str or None
        Name of the lot on which the sequence closes; None where it does not.
    repeats : int
        Times through the sequence.
    is_reversed : bool
        Whether the single is spun the other way round.
    turns_back : bool
        Whether the colours turn back on the way.
    copies : int
        How many alike are spun one after the other.
    """

    closing: str
    closing_lot: str | None
    repeats: int
    is_reversed: bool
    turns_back: bool
    copies: int = 1

    @property
    def closes(self) -> Markup:
        """Where the sequence closes and how; nothing where nothing shows of it."""
        shows = self.repeats > 1 or self.closing not in ("keep", "tail", "swap")
        if self.closing_lot is None or not shows:
            return Markup()
        sentence = Markup("Where the sequence closes on {}: {}.")
        return sentence.format(named(self.closing_lot), self._how_it_closes())

    def _how_it_closes(self) -> str:
        at = _TAIL_AT[self.is_reversed]
        return {
            "keep": "both pieces are spun wherever one time through meets the next",
            "tail": "its last piece is left out where one time through meets the next; "
            f"all of them are spun together at the {at}",
            "share": f"{self.repeats + 1} equal pieces, one before each time through and one at "
            "the end",
            "halve": "half a piece at both ends of each time through",
            "swap": "the last two pieces change places wherever one time through meets the next",
        }.get(self.closing, "its last piece is left out of each time through")

    @property
    def left_out(self) -> Markup:
        """What is said where the closing lot is left out of a time through."""
        after = "before the first" if self.is_reversed else "after the last"
        aside = ", it was spun at the beginning"
        if not self.is_reversed:
            aside = " and lay it aside for the very end"
        words = {
            "drop": " stands here in the sequence too: leave it out, it is not spun.",
            "share": f" would stand here twice: spin it once, it closes {after} time only.",
        }.get(self.closing, f" closes the sequence here: leave it out{aside}.")
        return named(self.closing_lot or "") + words

    def of_each_copy(self, times: str) -> str:
        """Return how often the sequence is run through, where there are copies for each."""
        each = f"for each of {self.copies} alike" if self.copies > 1 else ""
        return ", ".join(filter(None, (times, each)))

    def heading(self, kind: str, number: int, copy: int) -> str:
        """Return what stands above a group of rows.

        Parameters
        ----------
        kind : str
            time, first side, second side, there, back, band or nothing.
        number : int
            Which time through.
        copy : int
            Which of several alike, from 1.
        """
        which = f"{copy} of {self.copies} alike" if self.copies > 1 else ""
        time = {
            "time": f"time {number} of {self.repeats}",
            "first side": self._of_side("first", number),
            "second side": self._of_side("second", number),
            "there": "there",
            "back": "and back again",
            "band": f"close once, at the {_TAIL_AT[self.is_reversed]}",
        }.get(kind, "")
        return ": ".join(filter(None, (which, time)))

    def _of_side(self, side: str, number: int) -> str:
        return f"{side} side" + f", time {number} of {self.repeats}" * (self.repeats > 1)

    def meant(self, piece: str, goes_on: str | None) -> Markup:
        """Return why a row is as it is; nothing where there is nothing to say.

        Parameters
        ----------
        piece : str
            half, equal, band or swapped, where the way of closing made it so.
        goes_on : str or None
            Name of the lot, where it goes on from the row before.
        """
        words = {
            "half": "half a piece",
            "equal": f"one of {self.repeats + 1} equal pieces",
            "swapped": "last two swapped: meant",
            "band": f"close once: all {_LAID_ASIDE[self.is_reversed]}",
        }.get(piece, "")
        if goes_on is None:
            return Markup(words)  # noqa: S704 - our own words
        back = ", here the colours turn back" if self.turns_back else ""
        again = Markup("again {}: meant{}").format(named(goes_on), back)
        return Markup("; ").join([words, again]) if words else again
