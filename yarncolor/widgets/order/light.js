// Light and its code: the curve of sRGB (IEC 61966-2-1), and two colours that share a pixel. They are
// mixed in twelve bits of linear light, which hold every byte of sRGB.

const MOST = 4095;
const WHOLE_SHARE_BITS = 8;
const HALF = 1 << (WHOLE_SHARE_BITS - 1);

export function codedByte(light) {
  const at = Math.min(Math.max(light, 0), 1);
  return 255 * (at <= 0.0031308 ? at * 12.92 : 1.055 * at ** (1 / 2.4) - 0.055);
}

function lightOf(byte) {
  const at = byte / 255;
  return at <= 0.04045 ? at / 12.92 : ((at + 0.055) / 1.055) ** 2.4;
}

const LIGHT = Uint16Array.from({ length: 256 }, (_, byte) => Math.round(lightOf(byte) * MOST));
const CODE = Uint8Array.from({ length: MOST + 1 }, (_, light) => Math.round(codedByte(light / MOST)));

// The packed colour of a pixel that another has a share of, in 256 parts.
export function shared(one, other, share) {
  const own = (1 << WHOLE_SHARE_BITS) - share;
  const red = (LIGHT[one & 255] * own + LIGHT[other & 255] * share + HALF) >> WHOLE_SHARE_BITS;
  const green = (LIGHT[(one >> 8) & 255] * own + LIGHT[(other >> 8) & 255] * share + HALF) >> WHOLE_SHARE_BITS;
  const blue = (LIGHT[(one >> 16) & 255] * own + LIGHT[(other >> 16) & 255] * share + HALF) >> WHOLE_SHARE_BITS;
  return (0xff000000 | (CODE[blue] << 16) | (CODE[green] << 8) | CODE[red]) >>> 0;
}
