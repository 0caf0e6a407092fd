// What fingers do with chips: keys move them, a pointer drags them; who holds them says what follows.

export class Fingers {
  onKey(event, entry) {
    const last = this.frame.entries.length - 1;
    const at = this.order().indexOf(entry);
    const to = { ArrowLeft: at - 1, ArrowUp: at - 1, ArrowRight: at + 1, ArrowDown: at + 1, Home: 0, End: last }[event.key];
    if (to === undefined) return;
    event.preventDefault();
    if (to >= 0 && to <= last) this.move(entry, this.nextLoose(at, to));
  }

  // Steps back and on again, as everywhere: with control or command and Z.
  onUndoKey(event) {
    if (!(event.ctrlKey || event.metaKey) || event.altKey || event.key.toLowerCase() !== "z") return;
    event.preventDefault();
    event.stopPropagation();
    this.model.send({ do: event.shiftKey ? "redo" : "undo" });
  }

  // The next place in that direction that is not held.
  nextLoose(at, to) {
    const step = Math.sign(to - at);
    const order = this.order();
    let place = to;
    while (order[place] !== undefined && this.held.has(order[place])) place += step;
    return order[place] === undefined ? at : place;
  }

  // With many places the tables of a lot are sent when it is taken in hand.
  grab(entry) {
    const known = [...this.ahead.keys()].some((key) => key.startsWith(`${entry} `));
    if (!known) this.model.send({ do: "grab", entry });
  }

  onGrab(event, entry) {
    if (this.held.has(entry) || event.button !== 0) return;
    const handle = event.currentTarget;
    handle.setPointerCapture(event.pointerId);
    this.grab(entry);
    const edges = this.order().map((each) => this.chip[each].getBoundingClientRect());
    this.drag = { entry };
    handle.classList.add("grabbed");
    const drag = (at) => {
      const here = edges.findIndex(({ left, right, top, bottom }) =>
        at.clientX >= left && at.clientX < right && at.clientY >= top - 40 && at.clientY < bottom + 40);
      if (here >= 0) this.move(entry, here);
    };
    const drop = () => {
      handle.removeEventListener("pointermove", drag);
      handle.classList.remove("grabbed");
      this.drag = null;
      this.layChips(this.order());
    };
    handle.addEventListener("pointermove", drag);
    handle.addEventListener("lostpointercapture", drop, { once: true });
  }
}
