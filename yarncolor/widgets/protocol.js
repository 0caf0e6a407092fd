// What page and kernel say to each other; the kernel's side declares the same in `protocol/`.

// A page says what to `do`, and the kernel answers with messages of a `kind`; which of them each
// widget has, and what they are for, is told there.

/** @typedef {{ do: string, view: string }} AskOfView */
/** @typedef {{ do: string, view: string, name: string }} SaveAs */
/** @typedef {{ do: string, view: string, name: string }} OpenPlan */
/** @typedef {{ do: string, view: string, on: boolean }} KeepUp */
/** @typedef {{ do: string, view: string, keeps: boolean }} NewPlan */
/** @typedef {{ do: string, view: string, units: string }} SayIn */
/**
 * @typedef {{ text: number, base: number, folder: string, file: string, held: Array<number> }}
 *   StepKept
 */
/**
 * @typedef {{ do: string, view: string, texts: Array<string>, steps: Array<StepKept>, now: number,
 *   section: string }} Resume
 */
/**
 * @typedef {{ kind: "bar", file: string, folder: string, state: string, saves: boolean, at_risk:
 *   boolean, undo: boolean, redo: boolean, undo_words: string, redo_words: string, keeps: boolean,
 *   said: string, never_saved: string, units: string, systems: Array<[string, string]> }} BarState
 */
/** @typedef {{ kind: "download", view: string|null, name: string, text: string }} Download */
/** @typedef {{ kind: "beat" }} Beat */
/**
 * @typedef {{ kind: "draft", texts: Array<string>, steps: Array<StepKept>, now: number, section:
 *   string, pending: boolean }} Draft
 */
/**
 * @typedef {{ width: number, height: number, bands: Array<[number, number]>, yarn: [number,
 *   number], stripe: number, slant: number, parted: number, finer: number }} StripShape
 */
/** @typedef {{ width: number, height: number, places: number, starts: Array<number> }} SceneSize */
/**
 * @typedef {{ kind: "band", strip: StripShape, scene: SceneSize, shades: ShadesState, colours:
 *   Array<string>, table: TableHead, strip_alt: string, yarn_alt: string, caption: string }}
 *   BandFrame
 */
/** @typedef {{ kind: "why", why: Array<[string, Array<string>]> }} BandWhy */
/**
 * @typedef {{ kind: "card", view: string|null, task: "print"|"download", name: string, html: string
 *   }} Card
 */
/** @typedef {{ do: string }} Ask */
/** @typedef {{ do: string, name: string, text: string }} PutField */
/** @typedef {{ do: string, name: string }} PutBack */
/**
 * @typedef {{ name: string, words: string, text: string, used: string, choices: Array<[string,
 *   string]>, tall: boolean, waits: boolean, fault: string }} FormField
 */
/** @typedef {{ words: string, needed: string, fields: Array<FormField> }} FormPart */
/** @typedef {{ words: string, parts: Array<FormPart> }} FormGroup */
/** @typedef {{ kind: "form", groups: Array<FormGroup>, assumed: Array<string> }} FormState */
/**
 * @typedef {{ do: string, view: string, rows: Array<Object<string, *>>, serial: number, version:
 *   number }} PutRows
 */
/**
 * @typedef {{ do: string|null, view: string|null, serial: number|null, said: string, kind: "rows",
 *   rows: Array<Object<string, *>>, version: number, colours: Array<string>, inks: Array<string>,
 *   hint: Array<[string, string]>, guesses: Array<string>, rolags: Array<string>, total: string,
 *   fields?: Array<Object<string, *>>, more?: Array<Object<string, *>>, palette?:
 *   Array<Object<string, *>>, caution?: string, weighed?: Array<string>, new_mass?: string,
 *   example?: string, places?: Array<number|null>, anew?: boolean, typed?: Array<Object<string, *>>
 *   }} LotsRows
 */
/** @typedef {{ row: number, field: string, words: string }} RowFault */
/**
 * @typedef {{ do: string|null, view: string|null, serial: number|null, said: string, kind:
 *   "faults", faults: Array<RowFault> }} LotsFaults
 */
/**
 * @typedef {{ do: string|null, view: string|null, serial: number|null, said: string, kind:
 *   "refused" }} LotsRefused
 */
/**
 * @typedef {{ do: string, view: string, of: string, name: string, take: boolean, drawn:
 *   Object<string, *> }} PhotographLot
 */
/** @typedef {{ do: string, view: string, text: string }} AddLines */
/**
 * @typedef {{ kind: "lines", view: string, added: boolean, said: string, wrong: Array<string> }}
 *   LinesAdded
 */
/**
 * @typedef {{ kind: "seen", view: string, of: string, colour: string, words: string, why:
 *   Array<[string, Array<string>]> }} LotSeen
 */
/** @typedef {{ do: string, serial: number, turn: number, moves: Array<[number, number]> }} Move */
/** @typedef {{ do: string, entry: number|null }} Rest */
/** @typedef {{ do: string, entry: number }} Grab */
/** @typedef {{ do: string, serial: number, turn: number, entry: number, held: boolean }} Hold */
/** @typedef {{ do: string, serial: number }} AskInTurn */
/** @typedef {{ do: string, serial: number, metre: number }} Look */
/** @typedef {{ do: string, serial: number, part: boolean }} Knit */
/**
 * @typedef {{ width: number, height: number, places: number, starts: Array<number>, name: string }}
 *   SceneHead
 */
/** @typedef {{ kind: "scenes", scenes: Array<SceneHead> }} OrderScenes */
/** @typedef {{ dark: number, bright: number, middle: number, least: number }} Relief */
/**
 * @typedef {{ lots: Array<Array<number>>, drafted: Array<[number, Array<[number, number]>]>,
 *   spiral_m: number, between_plies: number, streaks_px: number, fixed: Array<Array<number>>,
 *   heights: Array<number>, through: Array<number>, relief: Relief, mottles: number, mottle:
 *   number, join_steps: number, join_m: number }} ShadesState
 */
/** @typedef {{ size_px: number, room_px: number, least_px: number }} LabelRule */
/**
 * @typedef {{ heading: Array<string>, rows: Array<[string, number]>, ticks: Array<[number,
 *   string]>, ends: Array<string>, width: number, height: number, bands: Array<[number, number]>,
 *   yarn: [number, number], stripe: number, slant: number, parted: number, finer: number, label:
 *   LabelRule }} StripState
 */
/** @typedef {{ unit: string, names: string, size: number, finer: number }} SaidIn */
/**
 * @typedef {{ plies: Array<string>, g_per_m: Array<number>, mass: SaidIn, length: SaidIn }}
 *   StripReading
 */
/** @typedef {{ counts: Array<number>, yarn_m: Array<number>, plies: number }} TableHead */
/**
 * @typedef {{ entries: Array<number>, held: Array<number>, closed: boolean, names: Array<string>,
 *   lots: Array<number>, masses: Array<number>, lot_names: Array<string>, colours: Array<string>,
 *   inks: Array<string>, ends: Array<string>, from_m: number, shades: ShadesState, turning: string,
 *   strip: StripState, reading: StripReading, table: TableHead, kind: "frame", serial: number|null,
 *   turn: number, ahead_holds: boolean, knits_part: boolean }} OrderFrame
 */
/**
 * @typedef {{ lot_names: Array<string>, colours: Array<string>, inks: Array<string>, lots:
 *   Array<Array<number>> }} MoreLots
 */
/**
 * @typedef {{ kind: "moved", serial: number, entries: Array<number>, table: TableHead, more:
 *   MoreLots }} OrderMoved
 */
/**
 * @typedef {{ kind: "ahead", turn: number, moves: Array<[number, number]>, table: TableHead, more:
 *   MoreLots }} OrderAhead
 */
/** @typedef {{ caption: string, alt: string }} PictureWords */
/**
 * @typedef {{ kind: "looked", from_m: number, words: Object<string, PictureWords> }} OrderLooked
 */
/**
 * @typedef {{ alts: Object<string, string>, captions: Object<string, string>, html: Object<string,
 *   string>, kind: "words", said: string }} OrderWords
 */
/** @typedef {{ do: string, view: string, serial: number, drawn?: Object<string, *> }} AskOfPhoto */
/**
 * @typedef {{ do: string, view: string, serial: number, drawn?: Object<string, *>, count: number }}
 *   FindLots
 */
/**
 * @typedef {{ do: string, view: string, serial: number, drawn?: Object<string, *>, name: string,
 *   from: Array<number> }} OpenPicture
 */
/**
 * @typedef {{ width: number, height: number, is_example: boolean, name?: string, from?:
 *   Array<number>|null, notes?: string }} PhotoHead
 */
/** @typedef {{ lots: Array<[string, number]>, mass: string, mass_g: number }} PlanLots */
/**
 * @typedef {{ key: string, name: string, colour: string, out_by: string, even: string, pixels:
 *   string, doubts: string }} ReadingRow
 */
/**
 * @typedef {{ rows: Array<ReadingRow>, correction: Array<string>, fit: string, light: string,
 *   faults: Object<string, string>, alt: string }} Readings
 */
/** @typedef {{ number: number, box: Array<number>, words: string }} Proposal */
/**
 * @typedef {{ photo?: PhotoHead, plan?: PlanLots, drawn?: Object<string, *>, editions?:
 *   Array<string>, readings?: Readings, proposed?: Array<Proposal>, faults?: Object<string,
 *   string>, said?: string, why?: Array<[string, Array<string>]>, kind: "answer", do: string, view:
 *   string|null, serial: number|null }} PhotoAnswer
 */
/** @typedef {{ kind: "plan", plan: PlanLots }} PhotoPlan */
/** @typedef {{ do: string, ply: number }} RanOut */
/**
 * @typedef {{ do: string, bumps: string, over_cm: string, loop: string, catches: boolean }}
 *   LookAtTwist
 */
/**
 * @typedef {{ name: string, words: string, text: string, fault: string, waits: string, choices:
 *   Array<[string, string]> }} PlyingField
 */
/**
 * @typedef {{ name: string, worth: string, hands: Array<string>, picture: string, alt: string }}
 *   RescueShown
 */
/**
 * @typedef {{ kind: "plying", said: string, refused: boolean, far: Array<PlyingField>, end:
 *   Array<PlyingField>, where: Array<string>, changes: Array<string>, plies: Array<[number,
 *   string]>, ended: boolean, stands: string, rescues: Array<RescueShown>, cautions: string, loops:
 *   Array<[string, string]>, why: Array<[string, Array<string>]>, over_words: string, over: string
 *   }} PlyingState
 */
/** @typedef {{ kind: "care", lines: Array<string> }} CareTold */
/** @typedef {{ do: string, piece: string, on: boolean }} TickPiece */
/** @typedef {{ do: string, piece: string }} OfPiece */
/** @typedef {{ do: string, piece: string, by: number }} ShiftPiece */
/** @typedef {{ do: string, slip: string, ply: number, piece: string }} Slip */
/** @typedef {{ do: string, ply: number, bobbin: number, text: string }} WeighBobbin */
/** @typedef {{ do: string, way: string }} TakeWay */
/** @typedef {{ do: string, text: string }} BringHome */
/**
 * @typedef {{ piece: string, row: number, lot: number, state: string, weigh: string, after: string,
 *   found: string, fields: Object<string, string>, faults: Object<string, string>, waits:
 *   Object<string, string> }} PieceRow
 */
/**
 * @typedef {{ ply: number, words: string, stands: string, bobbins: number, rows: Array<PieceRow> }}
 *   PlyPage
 */
/** @typedef {{ name: string, words: string, text: string, fault: string }} TareField */
/** @typedef {{ name: string, words: string, kind: string }} PieceField */
/**
 * @typedef {{ kind: "wheel", said: string, refused: boolean, lots: Array<[string, string, string]>,
 *   plies: Array<PlyPage>, tare: TareField, progress: string, strayed: Array<string>, is_spun:
 *   boolean, fields?: Array<PieceField>, slips?: Array<[string, string]> }} WheelState
 */
/** @typedef {{ edges: Array<number>, lots: Array<Array<number>> }} YarnStrip */
/**
 * @typedef {{ way: string, name: string, worth: string, hands: string, takes: string, can: boolean,
 *   best: boolean, strip: YarnStrip }} WayOn
 */
/**
 * @typedef {{ kind: "ways", matters: string, reason: string, planned: YarnStrip, planned_words:
 *   string, choices: Array<WayOn>, why: Array<[string, Array<string>]> }} WaysOn
 */
/**
 * @typedef {{ kind: "reached", ply: number, words: string, piece: string, fault: boolean }}
 *   RowReached
 */
/**
 * @typedef {{ kind: "brought", brought: boolean, said: string, wrong: Array<string> }} BroughtHome
 */

// Hear what the kernel says by the `on_` and kind of who listens; return how to stop.
export function listen(model, listener) {
  const hear = (told, buffers) => listener[`on_${told.kind}`]?.(told, buffers);
  model.on("msg:custom", hear);
  return () => model.off("msg:custom", hear);
}
