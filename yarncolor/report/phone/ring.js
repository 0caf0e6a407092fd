// The ring on which the centres of touching plies lie, seen end on: neighbours touch, none overlap.

const CLOSE = 1e-9;
const HALVINGS = 60;

const angle = (chord, radius) => 2 * Math.asin(Math.min(1, chord / (2 * radius)));

function least(widest, angles) {
  let [low, high] = [widest / 2, 12 * widest];
  for (let n = 0; n < HALVINGS; n += 1) {
    const middle = (low + high) / 2;
    if (angles(middle) > 2 * Math.PI) low = middle;
    else high = middle;
  }
  return low;
}

// The most angle that any choice of plies, taken in turn once round, needs.
function widestRound(radii, ring) {
  const plies = radii.length;
  let widest = 0;
  for (let start = 0; start < plies; start += 1) {
    const reach = [0];
    for (let to = 1; to <= plies; to += 1) {
      reach[to] = 0;
      for (let before = Math.max(0, to - plies + 1); before < to; before += 1) {
        const chord = radii[(start + before) % plies] + radii[(start + to) % plies];
        reach[to] = Math.max(reach[to], reach[before] + angle(chord, ring));
      }
    }
    widest = Math.max(widest, reach[plies]);
  }
  return widest;
}

// In millimetres, of plies of these tex, packed so densely.
export function ringRadius(tex, density) {
  const radii = tex.map((each) => Math.sqrt((4 * each) / (Math.PI * density * 1000)) / 2);
  if (radii.length === 1) return 0;
  if (Math.max(...radii) === Math.min(...radii)) return radii[0] / Math.sin(Math.PI / radii.length);
  const chords = radii.map((one, k) => one + radii[(k + 1) % radii.length]);
  const angles = (ring) => chords.reduce((all, chord) => all + angle(chord, ring), 0);
  const touching = least(Math.max(...chords), angles);
  const [first, second] = [...radii].toSorted((one, other) => other - one);
  const widest = first + second;
  const isRound = widestRound(radii, touching) <= 2 * Math.PI * (1 + CLOSE);
  return touching >= widest / 2 && isRound ? touching : least(widest, (ring) => widestRound(radii, ring));
}
