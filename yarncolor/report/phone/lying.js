// What lies on a bobbin, what was left out, what comes next and what the bobbin should weigh.
//
// An entry is one thing noted at the wheel:
//   ply      from 1
//   row      from 1; null for an extra piece
//   did      "spun", "out" (left out), "" (something is typed, and it is not spun yet),
//            "without" (of a piece that was decided beside the rows: it is not spun)
//   beside   which of the pieces decided beside the rows it is, from 0
//   now      a row that was passed over and is to be spun next
//   lot      what went in, by name, where it is not the row's own
//   mass_g, length_m, sample_m, sample_g, gross_g, bobbin, on   as in a plan file
//   passed   stop-and-weigh was passed over
//   note     as in a plan file: kept, not shown
//   was      [lot, grams] that the plan had for this row when it was ticked
//   from     the mark of the plan file's own entry, where it came from there
// Entries stand in the order spun.

const TYPED = ["lot", "mass_g", "length_m", "sample_m", "sample_g", "gross_g"];

const lotOf = (plan, row) => plan.lots[row.lot].name;
const isLot = (plan, name) => plan.lots.some((lot) => lot.name === name);

export const rowOf = (plan, entry) => plan.plies[entry.ply - 1]?.rows[entry.row - 1];

// Whether a plan still has what an entry speaks of.
export function agrees(plan, entry) {
  if (!plan.plies[entry.ply - 1]) return false;
  if (entry.lot && !isLot(plan, entry.lot)) return false;
  if (entry.row === null) return true;
  const row = rowOf(plan, entry);
  return row !== undefined && lotOf(plan, row) === entry.was[0];
}

export const wentIn = (plan, entry) => entry.lot ?? entry.was[0];

export const isTouched = (entry) => TYPED.some((key) => entry[key] !== undefined);

// What was weighed out, as far as it was said: the grams, the metres, or what the plan had then.
export function massOf(plan, entry) {
  if (entry.mass_g) return entry.mass_g;
  const { tex } = plan.plies[entry.ply - 1];
  if (entry.length_m) return (entry.length_m * tex) / 1000 / (1 - plan.spin_loss);
  return entry.was?.[1] ?? 0;
}

const gained = (plan, entry, strands) =>
  (massOf(plan, entry) * (1 - plan.spin_loss)) / strands;

function afterEntry(plan, on, entry) {
  const { strands, tares_g: tares } = plan.plies[entry.ply - 1];
  const row = rowOf(plan, entry);
  const bobbin = entry.bobbin ?? Math.max(row?.bobbin ?? 1, on.bobbin);
  const isPlanned = row && !entry.mass_g && !entry.length_m && entry.was[1] === row.put_g;
  const gain = isPlanned ? row.gain_g : gained(plan, entry, strands);
  const net = (bobbin === on.bobbin ? on.net_g : 0) + gain;
  const tare = tares[bobbin - 1];
  const read = entry.gross_g && typeof tare === "number" ? entry.gross_g - tare : net;
  return { bobbin, net_g: read };
}

// The bobbin on the wheel and the grams of single on it, after each piece that was spun.
export function onBobbin(plan, spun) {
  let on = { bobbin: 1, net_g: 0 };
  return spun.map((entry) => (on = afterEntry(plan, on, entry)));
}

// Pieces decided beside the rows that are still to spin: one of its lot that was spun since is it,
// and a row that was spun in its place passes it over.
function besideRows(plan, ply, own, spun) {
  const taken = new Set();
  const isIt = (piece) => (entry, at) =>
    at >= piece.after && !taken.has(at) && entry.row === null && entry.lot === plan.lots[piece.lot].name;
  const isOpen = (piece) => {
    const done = spun.findIndex(isIt(piece));
    if (done >= 0) taken.add(done);
    const isPassed = spun.slice(piece.after).some(({ row }) => row !== null);
    return done < 0 && !isPassed && !own.some(({ did, beside }) => did === "without" && beside === piece.number);
  };
  return plan.plies[ply - 1].beside.map((piece, number) => ({ ...piece, number })).filter(isOpen);
}

// Every row of a ply with what was done with it; which is next; the pieces spun, in order.
export function lying(plan, entries, ply) {
  const own = entries.filter((entry) => entry.ply === ply && agrees(plan, entry));
  const byRow = new Map(own.filter((entry) => entry.row).map((entry) => [entry.row, entry]));
  const spun = own.filter((entry) => entry.did === "spun");
  const high = Math.max(0, ...spun.map((entry) => entry.row ?? 0));
  const rows = plan.plies[ply - 1].rows.map((row, at) => {
    const entry = byRow.get(at + 1);
    const passed = row.out ? "out" : "unsaid"; // left out by the plan file, or not said
    const unsaid = at + 1 < high ? passed : "to spin";
    const open = row.off ? "off" : unsaid;
    return { number: at + 1, row, entry, did: entry?.did || (entry?.now ? "to spin" : open) };
  });
  const waiting = rows.filter((row) => row.did === "to spin");
  return {
    rows,
    spun,
    last: own.findLast((entry) => entry.did) ?? null,
    next: waiting.find((row) => row.entry?.now) ?? waiting[0] ?? null,
    unsaid: rows.filter((row) => row.did === "unsaid"),
    beside: besideRows(plan, ply, own, spun),
    on: onBobbin(plan, spun).at(-1) ?? { bobbin: 1, net_g: 0 },
  };
}

// Whether a bobbin is to be weighed now: after its last piece, where a time through ends.
export const isToWeigh = (plan, { last }) =>
  last?.did === "spun" && !last.passed && rowOf(plan, last)?.stop === true;

export const isAllSaid = (plan, found) =>
  !found.next && !found.beside.length && !found.unsaid.length && !isToWeigh(plan, found);

// What is on the bobbin when the first pieces beside the rows are spun.
export const afterBeside = ({ on, beside }, count = beside.length) =>
  beside.slice(0, count).reduce((sum, { gain_g: gain }) => ({ ...sum, net_g: sum.net_g + gain }), on);

// Grams on the bobbin when a row that is to spin is spun, and all that is to spin before it.
export function expected(found, number) {
  const waiting = found.rows.filter((row) => row.did === "to spin");
  const order = [found.next, ...waiting.filter((row) => row !== found.next)];
  let { bobbin, net_g: net } = afterBeside(found);
  for (const { number: at, row } of order) {
    net = row.bobbin > bobbin ? row.gain_g : net + row.gain_g;
    bobbin = Math.max(row.bobbin, bobbin);
    if (at === number) break;
  }
  return { bobbin, net_g: net };
}
