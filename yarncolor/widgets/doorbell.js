// The bell that is rung by a page that is there.

export default {
  render({ model }) {
    model.send({ do: "ready" });
  },
};
