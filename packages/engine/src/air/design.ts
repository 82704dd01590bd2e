import type { BoxBody } from '../box/index.ts'
import type { AirDesign, BoxDesign, Job, SkinDesign, VentWanted } from '../job/index.ts'
import { buildFigure } from './figures.ts'

export type AirDesignJob = Pick<Job, 'boxes'>

/** Paint taken where nobody said: that of a used box. Row of table `surface-optics`. */
export const PAINT_UNTOLD = 'red oxide, brown'

/**
 * What keeps one box dry and cool, before anything is weighed: a low vent and a high one across the box from it, in which the box's fan
 * sits where it has one, and the heater that it is wired for.
 */
export function designAir(of: {
  readonly job: AirDesignJob
  readonly body: BoxBody
  readonly designs: readonly BoxDesign[]
}): AirDesign {
  const { job, body, designs } = of
  const own = (kind: 'fan' | 'heater') =>
    designs
      .flatMap((d) => d.circuits)
      .filter((c) => c.own === kind)
      .reduce<number | null>((most, c) => Math.max(most ?? 0, c.ownLoad?.powerW ?? 0), null)
  const fanW = own('fan')
  const heaterW = own('heater')
  const heated = job.boxes.find((b) => b.id === body.box)?.heatedC ?? null
  return {
    roofPaint: PAINT_UNTOLD,
    wallPaint: PAINT_UNTOLD,
    vents: ventPair(body, buildFigure('vent-size').value, buildFigure('vent-size').value, fanW !== null),
    winterOpenFrac: 1,
    roofFoamM: 0,
    wallFoamM: 0,
    bridgesFoamed: false,
    secondRoof: false,
    fan: fanW === null ? null : { powerW: fanW, solar: false, onAboveC: buildFigure('fan-on').value, byHumidity: false },
    heater:
      heaterW === null
        ? null
        : { at: 'room', powerW: heaterW, onBelowC: heated?.low ?? buildFigure('heater-on').value, humidistat: false },
    dripHood: false,
    floorPainted: false,
  }
}

/** The same for a box whose openings are cut and whose air nobody designed: its vents as they are. */
export function airAsCut(of: Parameters<typeof designAir>[0] & { readonly skin: SkinDesign }): AirDesign {
  const vents = of.skin.openings
    .filter((o) => o.use === 'vent' || o.use === 'fan')
    .map(({ id, side, widthMm, heightMm, atMm, use }) => ({
      ...{ id, side, widthMm, heightMm, upMm: atMm[2] - of.body.insideAtMm[2], fan: use === 'fan' },
    }))
  return { ...designAir(of), vents }
}

/** Low on the side away from the gear, high on the gear's side under the rail: a pair that draws by its height. */
export function ventPair(body: BoxBody, widthMm: number, heightMm: number, fan: boolean): readonly VentWanted[] {
  const more = (heightMm - buildFigure('vent-size').value) / 2
  const highMm = body.sides.left.sheet.highMm - buildFigure('vent-below-sheet').value - more
  const size = { widthMm, heightMm }
  return [
    { id: 'vent low', side: 'right', ...size, upMm: buildFigure('vent-low').value + more, fan: false },
    { id: fan ? 'fan' : 'vent high', side: 'left', ...size, upMm: highMm - body.insideAtMm[2], fan },
  ]
}
