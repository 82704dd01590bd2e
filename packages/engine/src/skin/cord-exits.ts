import { PADS } from '../box/index.ts'
import { type Circuit, EXIT_WAYS, type ExitWay, type Opening, type Side } from '../job/index.ts'
import { contactorBoxes, wholeBuild } from '../parts/index.ts'
import { cordOutsideMm, ENTRIES, entryFor } from './entry.ts'
import { figure } from './figures.ts'
import { betweenMm, faceAt, onSide } from './opening.ts'
import { foldedToMm, gearMm, type Hung, placeFor, plain } from './places.ts'
import { type PlateCord, plateFor } from './plate.ts'
import type { Body, SkinRequest } from './request.ts'

interface CordOut {
  readonly plug: string
  readonly circuit: Circuit
  readonly way: ExitWay
}

/** How every cord leaves, and the openings that takes. */
export function exitsOf(
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
