import type { BoxBody } from '../box/index.ts'
import type { Opening, Side } from '../job/index.ts'
import { figure } from './figures.ts'
import { betweenMm, faceAt, onSide, struckBy } from './opening.ts'
import type { Body, SkinRequest } from './request.ts'

/** Part of the equipment wall that stays whole for the panel and its neighbours. House rule. */
const GEAR_FRAC = 0.5
const GEAR_MOST_MM = 2700

export const plain = (
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
export function clearPlace(
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
export const foldedToMm = (body: BoxBody): number =>
  Math.min(body.outsideMm[0], ...body.doors.filter((d) => d.side === 'door end').map((d) => body.outsideMm[0] - d.widthMm)) -
  FOLD_MM
/** Beside a folded leaf: its lock bars and a hand. House rule. */
const FOLD_MM = 60

/**
 * A place for a round hole on a flat at one of these heights, flat by flat: the first that is clear of the posts, of the frame and of other openings; on the
 * sheet where the hole is wider than a flat.
 */
export function placeFor(
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
export interface Hung extends Body {
  readonly side: Side
  readonly atMm: Opening['atMm']
}

/** Does an outlet stand in another, or too near for a hand and a plug? */
const standsIn = (one: Hung, hung: readonly Hung[]): boolean =>
  hung.some((o) => o.side === one.side && betweenMm(onSide(o), onSide(one)) < HAND_MM)
/** Between two outlets. House rule. */
const HAND_MM = 20

export const gearMm = (body: BoxBody): number => Math.min(GEAR_MOST_MM, GEAR_FRAC * body.outsideMm[0])
