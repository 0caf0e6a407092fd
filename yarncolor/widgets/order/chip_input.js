// What fingers do with chips: keys move them, a pointer drags them; who holds them says what follows.

const NEAR_PX = 40; // above and below the chips, where a pointer still drags

export class ChipInput {
  // `order` and `isHeld` say how things stand, `chipOf` gives the chip of an entry; `grab`, `move`
  // and `drop` are told what the fingers do.
  constructor({ order, isHeld, chipOf, grab, move, drop }) {
    Object.assign(this, { order, isHeld, chipOf, grab, move, drop });
    this.isDragging = false;
  }

  onKey(event, entry) {
    const order = this.order();
    const last = order.length - 1;
    const at = order.indexOf(entry);
    const places = { ArrowLeft: at - 1, ArrowUp: at - 1, ArrowRight: at + 1, ArrowDown: at + 1, Home: 0, End: last };
    const to = places[event.key];
    if (to === undefined) return;
    event.preventDefault();
    if (to >= 0 && to <= last) this.move(entry, this.nextLoose(order, at, to));
  }

  // The next place in that direction that is not held.
  nextLoose(order, at, to) {
    const step = Math.sign(to - at);
    let place = to;
    while (order[place] !== undefined && this.isHeld(order[place])) place += step;
    return order[place] === undefined ? at : place;
  }

  onPointer(event, entry) {
    if (this.isHeld(entry) || event.button !== 0) return;
    const handle = event.currentTarget;
    handle.setPointerCapture(event.pointerId);
    this.grab(entry);
    const boxes = this.order().map((each) => this.chipOf(each).getBoundingClientRect());
    const drag = (at) => {
      const here = boxes.findIndex((box) => isOver(box, at));
      if (here >= 0) this.move(entry, here);
    };
    this.hold(handle, drag);
  }

  // Follow the pointer until it lets the handle go.
  hold(handle, drag) {
    this.isDragging = true;
    handle.classList.add("grabbed");
    handle.addEventListener("pointermove", drag);
    const released = () => {
      handle.removeEventListener("pointermove", drag);
      handle.classList.remove("grabbed");
      this.isDragging = false;
      this.drop();
    };
    handle.addEventListener("lostpointercapture", released, { once: true });
  }
}

function isOver({ left, right, top, bottom }, { clientX, clientY }) {
  return clientX >= left && clientX < right && clientY >= top - NEAR_PX && clientY < bottom + NEAR_PX;
}
