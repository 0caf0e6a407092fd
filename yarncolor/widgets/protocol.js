// What page and kernel say to each other; the kernel's side declares the same in `protocol/`.

// Hear what the kernel says by the `on_` and kind of who listens; return how to stop.
export function listen(model, listener) {
  const hear = (told, buffers) => listener[`on_${told.kind}`]?.(told, buffers);
  model.on("msg:custom", hear);
  return () => model.off("msg:custom", hear);
}
