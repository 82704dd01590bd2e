import type { BoxBody } from '../box/index.ts'
import type { BoxDesign, Opening, Side } from '../job/index.ts'
import { figure } from './figures.ts'
import { faceAt } from './opening.ts'
import { clearPlace, foldedToMm, placeFor, plain } from './places.ts'
import type { SkinRequest } from './request.ts'

const DOOR_MM = { widthMm: 900, heightMm: 2000 }
const VENT_MM = 300

/** Door near the cargo doors, clear of the post, its sill on the floor. */
export function doorIn(body: BoxBody, side: Side): Opening {
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
export function vents(body: BoxBody, designs: readonly BoxDesign[], others: readonly Opening[]): readonly Opening[] {
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
export function supplyEntry(request: SkinRequest, side: Side, others: readonly Opening[]): readonly Opening[] {
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
