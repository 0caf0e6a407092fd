// Numbers in decimals, and weights as the scale shows them.

const MOST_DIGITS = 60;

// Two decimal numbers multiplied, to the last digit.
export function times(...factors) {
  const digits = factors.reduce((all, each) => all * BigInt(each.replace(".", "")), 1n);
  return Number(`${digits}e-${factors.reduce((all, each) => all + decimalsOf(each), 0)}`);
}

// So many decimals; half a step goes to the even digit, as on the printed card.
export function fixed(value, decimals) {
  const exact = value.toFixed(MOST_DIGITS);
  const cut = exact.length - MOST_DIGITS + decimals;
  const isTie = /^50*$/.test(exact.slice(cut));
  const down = exact.slice(0, decimals ? cut : cut - 1);
  return isTie && /[02468]$/.test(down) ? down : value.toFixed(decimals);
}

const decimalsOf = (text) => (text.split(".")[1] ?? "").length;

// A weight as it is shown and the empty bobbin together, so that the three add up.
export function withTare(net, tare) {
  return (Number(net) + Number(tare)).toFixed(Math.max(decimalsOf(net), decimalsOf(tare)));
}
