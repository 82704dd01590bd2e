import type { BoxBody } from '../box/index.ts'
import type { Opening, Side, VentWanted } from '../job/index.ts'
import { figure } from './figures.ts'
import { faceAt } from './opening.ts'
import { clearPlace, foldedToMm, placeFor, plain } from './places.ts'
import type { SkinRequest } from './request.ts'

const DOOR_MM = { widthMm: 900, heightMm: 2000 }

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

/**
 * Vents and fans that air asks for, each where it is wanted, else in the blind end at its height: one in the lower half of its wall is
 * sought from the blind end on, one in the upper half from the door end back, so that a low one and a high one stand across the box. One
 * that finds no place is not cut.
 */
export function vents(body: BoxBody, wanted: readonly VentWanted[], others: readonly Opening[]): readonly Opening[] {
  const clear = figure('clear of corner post').value
  const out: Opening[] = []
  for (const vent of wanted) {
    const { sheet } = body.sides[vent.side]
    const { id, side, widthMm, heightMm } = vent
    const size = { widthMm, heightMm }
    const up = body.insideAtMm[2] + vent.upMm
    const taken = [...others, ...out]
    const end = body.sides['blind end'].sheet
    const atEnd: readonly [number, number] = [end.toMm - clear - widthMm / 2, end.fromMm + clear + widthMm / 2]
    const onSheet = (of: Side): boolean =>
      up - heightMm / 2 >= body.sides[of].sheet.lowMm && up + heightMm / 2 <= body.sides[of].sheet.highMm
    const along = 2 * up < sheet.lowMm + sheet.highMm ? sheet.fromMm + clear + widthMm / 2 : farMm(body, side) - widthMm / 2
    const within: readonly [number, number] = [along, body.sides[side].alongMm / 2]
    const wantedMm = onSheet(side) ? clearPlace(body, { side, ...size }, up, within, taken) : null
    const endMm = onSheet('blind end') ? clearPlace(body, { side: 'blind end', ...size }, up, atEnd, taken) : null
    const atMm = wantedMm ?? endMm
    if (atMm === null) continue
    out.push(
      plain({
        id,
        use: vent.fan ? 'fan' : 'vent',
        side: wantedMm === null ? 'blind end' : side,
        atMm,
        shape: 'rectangle',
        ...size,
        cornerRadiusMm: figure('corner radius at least').value,
        hood: true,
        meshMm: MESH_MM,
      }),
    )
  }
  return out
}
/** Keeps mice out and lets dust fall. House rule. */
const MESH_MM = 6

/** Farthest along a side that an opening may reach. */
function farMm(body: BoxBody, side: Side): number {
  const most = body.sides[side].sheet.toMm - figure('clear of corner post').value
  return side === 'left' || side === 'right' ? Math.min(most, foldedToMm(body)) : most
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
