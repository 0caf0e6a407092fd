// Fractions of whole numbers of any size, [above, below]: nothing is rounded before the end.

const DIGITS = 100n; // more than any tie between two numbers has

// Of "1/3", "27.5", "1e-7".
export function fraction(text) {
  const [above, below = "1"] = text.split("/");
  const [digits, power = "0"] = above.split("e");
  const decimals = (digits.split(".")[1] ?? "").length - Number(power);
  const whole = BigInt(digits.replace(/[.+]/g, "")) * 10n ** BigInt(Math.max(0, -decimals));
  return [whole, BigInt(below) * 10n ** BigInt(Math.max(0, decimals))];
}

export const product = ([a, b], [c, d]) => [a * c, b * d];
export const inverse = ([a, b]) => (a < 0n ? [-b, -a] : [b, a]);
export const sum = (all) => all.reduce(([a, b], [c, d]) => [a * d + c * b, b * d], [0n, 1n]);

// The number that is nearest.
export function asNumber([above, below]) {
  const size = BigInt(below.toString().length);
  const scaled = above * 10n ** (DIGITS + size);
  const rest = scaled % below === 0n ? "0" : "1";
  return Number(`${scaled / below}${rest}e-${DIGITS + size + 1n}`);
}
