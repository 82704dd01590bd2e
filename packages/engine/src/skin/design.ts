import { type BoxBody, PADS } from '../box/index.ts'
import {
  type BoxDesign,
  type Circuit,
  EXIT_WAYS,
  type ExitWay,
  type Opening,
  type Pin,
  type Side,
  type SkinDesign,
} from '../job/index.ts'
import { contactorBoxes, wholeBuild } from '../parts/index.ts'
import type { BuildRules } from '../rules/index.ts'
import { cordOutsideMm, ENTRIES, entryFor } from './entry.ts'
import { figure } from './figures.ts'
import { jambNeedMm4, TUBES, tubeSection } from './frame.ts'
import { betweenMm, classNeeded, faceAt, mustReachRails, onSide, struckBy } from './opening.ts'
import { type PlateCord, plateFor } from './plate.ts'

export interface SkinRequest {
  readonly body: BoxBody
  /** Electrical design of this box, of every phase. */
  readonly designs: readonly BoxDesign[]
  readonly rules: BuildRules
  readonly pins: readonly Pin[]
  /** Deepest snow on the ground; null: nobody said. */
  readonly snowDepthM: number | null
  /** Outside diameter of a raceway by kind and trade. */
  readonly racewayMm: (kind: string, trade: string) => number
  /** Size of the body of a circuit's outlet. */
  readonly outletMm: (circuit: Circuit) => Body
}

interface Body {
  readonly widthMm: number
  readonly heightMm: number
}

const DOOR_MM = { widthMm: 900, heightMm: 2000 }
const VENT_MM = 300
/** Part of the equipment wall that stays whole for the panel and its neighbours. House rule. */
const GEAR_FRAC = 0.5
const GEAR_MOST_MM = 2700
/** Shortest box that gets a door of its own: in a shorter one the cargo door is two steps away. House rule. */
const DOOR_FROM_MM = 2400

/**
 * Openings of one box: a door of its own in the side that faces the gear, a low vent and a high one (a fan where the box has one), the
 * entry of the supply, and a way out for every cord by the trade's order of preference among what the rule set allows. The gear's wall is
 * kept whole where the gear hangs. Pins are kept: `skin.<box>.way`, `.cord-side`, `.door`.
 */
export function designSkin(request: SkinRequest): SkinDesign {
  const { body, pins } = request
  const pin = (what: string) => pins.find((p) => p.path === `skin.${body.box}.${what}`)?.value
  const gear: Side = 'left'
  const cordSide = sideOf(pin('cord-side')) ?? gear
  const openings: Opening[] = []
  const door = pin('door')
  if (door !== 'no' && door !== false && body.insideMm[0] >= DOOR_FROM_MM)
    openings.push(doorIn(body, gear === 'left' ? 'right' : 'left'))
  openings.push(...vents(body, request.designs, openings))
  openings.push(...supplyEntry(request, gear, openings))
  const exits = exitsOf(request, cordSide, gear, wayOf(pin('way')), openings)
  return {
    openings: [...openings, ...exits.openings].map((o) => framed(body, o)),
    exitWays: exits.ways,
    cordSide,
    finish: { primer: 'zinc-rich primer on both faces and the cut edge, then topcoat', foam: false },
  }
}

const sideOf = (value: unknown): Side | null => (value === 'left' || value === 'right' || value === 'blind end' ? value : null)
const wayOf = (value: unknown): ExitWay | null => EXIT_WAYS.find((w) => w === value) ?? null

const plain = (
  of: Omit<Opening, 'class' | 'frame' | 'railToRail' | 'plate' | 'cornerRadiusMm' | 'hood' | 'meshMm' | 'serves'> &
    Partial<Opening>,
): Opening => ({
  class: 'framed',
  frame: null,
  railToRail: false,
  plate: null,
  cornerRadiusMm: 0,
  hood: false,
  meshMm: null,
  serves: [],
  ...of,
})

/** The first of these places along a side where an opening strikes no member of the frame and no other opening; null where none is. */
function clearPlace(
  body: BoxBody,
  of: Pick<Opening, 'side' | 'widthMm' | 'heightMm'>,
  upMm: number,
  [from, to]: readonly [number, number],
  others: readonly Opening[],
): Opening['atMm'] | null {
  const pitch = body.sides[of.side].corrugation?.pitchMm.value ?? 0
  const steps = Math.floor(Math.abs(to - from) / STEP_MM)
  for (let i = 0; i <= steps; i++) {
    const atMm = faceAt(body, of.side, from + Math.sign(to - from) * i * STEP_MM, upMm)
    const here = { ...of, atMm }
    if (struckBy(body, here).length > 0) continue
    if (others.some((o) => o.side === of.side && betweenMm(onSide(o), onSide(here)) < pitch)) continue
    return atMm
  }
  return null
}
const STEP_MM = 50

/** How far along a long side anything may stand out or open: a cargo door that is folded back covers the rest. */
const foldedToMm = (body: BoxBody): number =>
  Math.min(body.outsideMm[0], ...body.doors.filter((d) => d.side === 'door end').map((d) => body.outsideMm[0] - d.widthMm)) -
  FOLD_MM
/** Beside a folded leaf: its lock bars and a hand. House rule. */
const FOLD_MM = 60

/** Door near the cargo doors, clear of the post, its sill on the floor. */
function doorIn(body: BoxBody, side: Side): Opening {
  const { sheet } = body.sides[side]
  const lowMm = Math.max(body.insideAtMm[2], sheet.lowMm) + SILL_MM
  const heightMm = Math.min(DOOR_MM.heightMm, sheet.highMm - SILL_MM - lowMm)
  const along = Math.min(sheet.toMm - figure('clear of corner post').value, foldedToMm(body)) - DOOR_MM.widthMm / 2
  return plain({
    id: 'door 1',
    use: 'personnel door',
    side,
    atMm:
      clearPlace(body, { side, widthMm: DOOR_MM.widthMm, heightMm }, lowMm + heightMm / 2, [along, sheet.fromMm], []) ??
      faceAt(body, side, along, lowMm + heightMm / 2),
    shape: 'rectangle',
    widthMm: DOOR_MM.widthMm,
    heightMm,
    cornerRadiusMm: figure('corner radius at least').value,
    hood: true,
  })
}

/** A frame's tube between the opening and the rail it stands on. House rule. */
const SILL_MM = 60

/** Low on the side away from the gear, high on the gear's side under the rail: a pair that draws by its height. */
function vents(body: BoxBody, designs: readonly BoxDesign[], others: readonly Opening[]): readonly Opening[] {
  const fan = designs.some((d) => d.circuits.some((c) => c.own === 'fan'))
  const clear = figure('clear of corner post').value
  const low = body.sides.right.sheet
  const high = body.sides.left.sheet
  const size = { widthMm: VENT_MM, heightMm: VENT_MM }
  const out: Opening[] = []
  /** Where it is wanted, else in the blind end. */
  const add = (id: string, use: Opening['use'], side: Side, along: number, up: number) => {
    const taken = [...others, ...out]
    const end = body.sides['blind end'].sheet
    const atEnd: readonly [number, number] = [end.toMm - clear - VENT_MM / 2, end.fromMm + clear + VENT_MM / 2]
    const wanted = clearPlace(body, { side, ...size }, up, [along, body.outsideMm[0] / 2], taken)
    const atMm = wanted ?? clearPlace(body, { side: 'blind end', ...size }, up, atEnd, taken)
    if (atMm === null) return
    out.push(
      plain({
        id,
        use,
        side: wanted === null ? 'blind end' : side,
        atMm,
        shape: 'rectangle',
        ...size,
        cornerRadiusMm: figure('corner radius at least').value,
        hood: true,
        meshMm: 6,
      }),
    )
  }
  add('vent low', 'vent', 'right', low.fromMm + clear + VENT_MM / 2, body.insideAtMm[2] + 300 + VENT_MM / 2)
  const far = Math.min(high.toMm - clear, foldedToMm(body)) - VENT_MM / 2
  add(fan ? 'fan' : 'vent high', fan ? 'fan' : 'vent', 'left', far, high.highMm - 100 - VENT_MM / 2)
  return out
}

/** Where the supply comes in: a hole for its raceway, or one for each of several, near the blind end. */
function supplyEntry(request: SkinRequest, side: Side, others: readonly Opening[]): readonly Opening[] {
  const { body, designs } = request
  const design = designs[0]
  if (design === undefined) return []
  const run = design.transformer?.primaryRun ?? design.fedFrom?.run ?? design.panel.feed
  const odMm = run.raceway === null ? OVERHEAD_MM : request.racewayMm(run.raceway.kind, run.raceway.trade)
  const holeMm = Math.ceil(odMm + 1)
  const out: Opening[] = []
  for (let n = 1; n <= run.sets; n++) {
    const place = placeFor(
      request,
      side,
      holeMm,
      { fromMm: body.sides[side].sheet.fromMm, toMm: body.sides[side].sheet.toMm },
      [ENTRY_UP_MM + body.insideAtMm[2]],
      [...others, ...out],
    )
    if (place === null) continue
    out.push(
      plain({
        id: run.sets === 1 ? 'supply' : `supply ${n}`,
        use: 'raceway entry',
        side,
        atMm: place,
        shape: 'round',
        widthMm: holeMm,
        heightMm: holeMm,
        serves: ['feed'],
      }),
    )
  }
  return out
}
/** Overhead conductors come down a mast of this trade size, 2 in. Common practice. */
const OVERHEAD_MM = 60.3
/** Height of the supply's entry above the floor. House rule. */
const ENTRY_UP_MM = 500

/**
 * A place for a round hole on a flat at one of these heights, flat by flat: the first that is clear of the posts, of the frame and of other openings; on the
 * sheet where the hole is wider than a flat.
 */
function placeFor(
  request: SkinRequest,
  side: Side,
  sizeMm: number,
  within: { readonly fromMm: number; readonly toMm: number },
  upsMm: readonly number[],
  others: readonly Opening[],
  outlets?: { readonly body: Body; readonly hung: readonly Hung[] },
): Opening['atMm'] | null {
  const { body } = request
  const clear = figure('clear of corner post').value
  const { sheet, flats } = body.sides[side]
  const from = Math.max(within.fromMm, sheet.fromMm + clear) + sizeMm / 2
  const to = Math.min(within.toMm, sheet.toMm - clear) - sizeMm / 2
  const gap = Math.max(GAP_MM, sizeMm)
  const middles = flats.filter((f) => f.kind === 'outer').map((f) => (f.fromMm + f.toMm) / 2)
  for (const along of middles.length > 0 ? middles : [(from + to) / 2]) {
    if (along < from - 1e-6 || along > to + 1e-6) continue
    for (const upMm of upsMm) {
      const atMm = faceAt(body, side, along, upMm)
      const hole = { side, atMm, widthMm: sizeMm, heightMm: sizeMm }
      if (struckBy(body, hole).length > 0) continue
      if (outlets !== undefined && standsIn({ side, atMm, ...outlets.body }, outlets.hung)) continue
      const near = (o: Opening) => betweenMm(onSide(o), onSide(hole)) < (o.shape === 'round' ? gap : CLEAR_MM)
      if (!others.some((o) => o.side === side && near(o))) return atMm
    }
  }
  return null
}
/** Between two holes: room for a box of 120 mm on each. House rule. */
const GAP_MM = 130
/** From a hole to a frame, a hood or a door's swing. House rule. */
const CLEAR_MM = 160

/** An outlet on the outside of a wall, its middle over its hole. */
interface Hung extends Body {
  readonly side: Side
  readonly atMm: Opening['atMm']
}

/** Does an outlet stand in another, or too near for a hand and a plug? */
const standsIn = (one: Hung, hung: readonly Hung[]): boolean =>
  hung.some((o) => o.side === one.side && betweenMm(onSide(o), onSide(one)) < HAND_MM)
/** Between two outlets. House rule. */
const HAND_MM = 20

interface CordOut {
  readonly plug: string
  readonly circuit: Circuit
  readonly way: ExitWay
}

/** How every cord leaves, and the openings that takes. */
function exitsOf(
  request: SkinRequest,
  cordSide: Side,
  gear: Side,
  pinned: ExitWay | null,
  others: readonly Opening[],
): { readonly openings: readonly Opening[]; readonly ways: Readonly<Record<string, ExitWay>> } {
  const cords = cordsOut(request, pinned)
  const openings: Opening[] = []
  const hung: Hung[] = []
  const ways: Record<string, ExitWay> = Object.fromEntries(cords.map((c) => [c.plug, c.way]))
  const through = cords.filter((c) => c.way === 'gland plate' || c.way === 'connector plate')
  const plates = platesFor(request, cordSide, gear, through, others)
  openings.push(...plates)
  for (const cord of cords.filter((c) => c.way === 'outside receptacle' || c.way === 'flanged outlet')) {
    const raceway = cord.circuit.run.raceway
    const holeMm = Math.ceil((raceway === null ? ENTRIES[2]!.holeMm : request.racewayMm(raceway.kind, raceway.trade)) + 1)
    const body = request.outletMm(cord.circuit)
    const place = outsidePlace(request, cordSide, gear, holeMm, { body, hung }, [...others, ...openings])
    if (place === null) continue
    hung.push({ ...place, ...body })
    openings.push(
      plain({
        id: `exit ${cord.plug}`,
        use: 'cord exit',
        side: place.side,
        atMm: place.atMm,
        shape: 'round',
        widthMm: holeMm,
        heightMm: holeMm,
        serves: [cord.plug],
      }),
    )
  }
  return { openings, ways }
}

/** One cord for each plug that has one of its own, those of one contactor box together; what is wired fast leaves through a connector. */
function cordsOut(request: SkinRequest, pinned: ExitWay | null): readonly CordOut[] {
  const seen = new Set<string>()
  const out: CordOut[] = []
  const allowed = (way: ExitWay) => request.rules.cordThroughWall(way).value.allowed
  const usual =
    pinned ?? EXIT_WAYS.find((w) => allowed(w) === 'yes') ?? EXIT_WAYS.find((w) => allowed(w) !== 'no') ?? 'outside receptacle'
  for (const design of request.designs)
    for (const circuit of design.circuits)
      for (const plug of circuit.plugs) {
        if (seen.has(plug)) continue
        seen.add(plug)
        const cord = circuit.cords.find((c) => c.plug === plug)
        if (cord?.sharedWith !== undefined) continue
        const fast = /^hard[ -]?wired/i.test(circuit.outlet)
        out.push({ plug, circuit, way: fast ? 'connector plate' : usual })
      }
  const whole = wholeBuild(request.designs)
  const boxes = whole === null ? [] : contactorBoxes(whole).map((box) => box.map((c) => c.id))
  const boxOf = (c: CordOut) => boxes.findIndex((ids) => ids.includes(c.circuit.id))
  return out.toSorted((a, b) => boxOf(a) - boxOf(b) || (a.plug < b.plug ? -1 : 1))
}

/** Heights above the ground at which a person plugs in, the easiest first, above ground and snow. */
function exitHeightsMm(request: SkinRequest): readonly number[] {
  const snow = (request.snowDepthM ?? 0) * 1000
  const least = Math.max(figure('outside receptacle above ground').value, snow + figure('cord exit above ground or snow').value)
  const most = figure('highest a person plugs in').value
  // Where snow lies higher than a hand reaches the lane must be ploughed: the highest comfortable rows stand, and skin says so.
  const from = Math.min(least, most - 2 * ROW_MM)
  return [from, from + ROW_MM, from + 2 * ROW_MM].map((h) => h - PADS.leastAirMm)
}
const ROW_MM = 350

/** The next place for an outside receptacle: on the cord side beside the gear, then on the other long side, flat by flat: those of one flat hang below one another. */
function outsidePlace(
  request: SkinRequest,
  cordSide: Side,
  gear: Side,
  holeMm: number,
  outlets: { readonly body: Body; readonly hung: readonly Hung[] },
  others: readonly Opening[],
): { readonly side: Side; readonly atMm: Opening['atMm'] } | null {
  const { body } = request
  const sides: readonly Side[] = [cordSide, ...(['left', 'right', 'blind end'] as const).filter((s) => s !== cordSide)]
  for (const side of sides) {
    const { sheet } = body.sides[side]
    const fromMm = side === gear ? sheet.fromMm + gearMm(body) : sheet.fromMm
    const toMm = side === 'blind end' ? sheet.toMm : Math.min(sheet.toMm, foldedToMm(body))
    const atMm = placeFor(request, side, holeMm, { fromMm, toMm }, exitHeightsMm(request), others, outlets)
    if (atMm !== null) return { side, atMm }
  }
  return null
}

const gearMm = (body: BoxBody): number => Math.min(GEAR_MOST_MM, GEAR_FRAC * body.outsideMm[0])

/** Framed plates for cords that pass the wall, as many as their entries need. */
function platesFor(
  request: SkinRequest,
  cordSide: Side,
  gear: Side,
  cords: readonly CordOut[],
  others: readonly Opening[],
): readonly Opening[] {
  if (cords.length === 0) return []
  const { body } = request
  const wanted: PlateCord[] = cords.flatMap(({ plug, circuit }) => {
    const cord = circuit.cords.find((c) => c.plug === plug)
    const cordMm = cord === undefined ? null : cordOutsideMm(cord.size, coresOf(circuit))
    return cordMm === null ? [] : [{ plug, cordMm }]
  })
  const out: Opening[] = []
  const { sheet } = body.sides[cordSide]
  const clear = figure('clear of corner post').value
  let rest = wanted.filter((w) => entryFor(w.cordMm).value.chosen !== null)
  for (let n = 1; rest.length > 0 && n <= 8; n++) {
    const now = rest.slice(0, MOST_IN_PLATE)
    rest = rest.slice(MOST_IN_PLATE)
    const { plate } = plateFor(now)
    if (plate === null) continue
    const up = Math.max(...exitHeightsMm(request).slice(0, 1)) + plate.heightMm / 2
    for (const along of alongs(
      Math.max(sheet.fromMm + clear, cordSide === gear ? sheet.fromMm + gearMm(body) : 0) + plate.widthMm / 2,
      sheet.toMm - clear - plate.widthMm / 2,
    )) {
      const atMm = faceAt(body, cordSide, along, up)
      const place = onSide({ side: cordSide, atMm, widthMm: plate.widthMm, heightMm: plate.heightMm })
      if (
        [...others, ...out].some(
          (o) => o.side === cordSide && betweenMm(onSide(o), place) < body.sides[cordSide].corrugation!.pitchMm.value,
        )
      )
        continue
      out.push(
        plain({
          id: `cord plate ${n}`,
          use: 'cord exit',
          side: cordSide,
          atMm,
          shape: 'rectangle',
          widthMm: plate.widthMm,
          heightMm: plate.heightMm,
          cornerRadiusMm: figure('corner radius at least').value,
          hood: true,
          plate,
          serves: now.map((c) => c.plug),
        }),
      )
      break
    }
  }
  return out
}
/** Cords in one plate: more are a knot that nobody can follow. House rule. */
const MOST_IN_PLATE = 12
const alongs = (from: number, to: number): readonly number[] =>
  to < from ? [] : Array.from({ length: Math.floor((to - from) / 50) + 1 }, (_, i) => from + i * 50)

export const coresOf = (c: Circuit): number =>
  c.connection === 'LN' || c.connection === 'LL' ? 3 : c.connection === 'LLLN' ? 5 : 4

/** Class, frame and ties of an opening by its size and place. */
function framed(body: BoxBody, opening: Opening): Opening {
  const cls = classNeeded(body, opening)
  if (cls === 'hole on a flat' || cls === 'collar') return { ...opening, class: cls }
  const railToRail = mustReachRails(body, opening)
  const wall = body.sides[opening.side].corrugation
  const need =
    wall === null
      ? 0
      : jambNeedMm4({ wallMm4PerMm: wall.inertiaMm4PerPitch / wall.pitchMm.value, openingMm: opening.widthMm }).value
  const tube = TUBES.find((t) => t.bMm >= LEAST_FRAME_MM && tubeSection(t).value.inertiaMm4 >= need) ?? TUBES[TUBES.length - 1]!
  return { ...opening, class: cls, frame: tube.section, railToRail }
}
/** Lighter tube is burnt through when it is welded to a sheet of 2 mm. House rule. */
const LEAST_FRAME_MM = 40
