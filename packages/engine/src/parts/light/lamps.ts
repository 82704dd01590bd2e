import type { Circuit } from '../../job/index.ts'
import { partFor } from '../shelf.ts'
import { lightFigure } from './figures.ts'
import { lampsFor, roomIndex, type Utilisation, utilisation } from './lumen.ts'

/** How the walls may look: what is sourced reaches from bare dark steel to white paint. */
export type Paint = 'bare' | 'white'

/** How much of the light of lamps this high above the face gets there, by the paint inside. @throws Fault `parts/light-range` */
export function utilisationIn(
  paint: Paint,
  room: { readonly lengthM: number; readonly widthM: number; readonly aboveM: number },
): Utilisation {
  const [ceiling, wall, floor] = [
    lightFigure(`${paint}-ceiling`).value,
    lightFigure(`${paint}-wall`).value,
    lightFigure('floor').value,
  ]
  return utilisation({ ceiling, wall, floor, index: roomIndex(room) })
}

export const stripW = (): number => lightFigure('strip-watts').value

/** Strips of a circuit of light, by its watts. */
export const stripsOf = (circuit: Pick<Circuit, 'ownLoad'>): number =>
  Math.max(1, Math.ceil((circuit.ownLoad?.powerW ?? 0) / stripW() - 1e-9))

/**
 * Least number of strips that light the panel's face in a room of this clear size, between bare dark walls: the unfavourable end of what
 * is sourced. N = E·A/(F·UF·MF), rounded up; strips hang from a channel under the ceiling. One where the room is lower than the face.
 * @source lumen method. Provenance: read
 */
export function leastStrips(of: { readonly insideMm: readonly [number, number, number]; readonly levelLx: number }): number {
  const [lengthM, widthM, heightM] = of.insideMm.map((mm) => mm / 1000) as [number, number, number]
  const underM = (lightFigure('ceiling-channel').value + partFor('light strip', stripW()).depthMm) / 1000
  const aboveM = heightM - underM - lightFigure('task-height').value / 1000
  if (!(aboveM > 0)) return 1
  const exact = lampsFor({
    levelLx: of.levelLx,
    areaM2: lengthM * widthM,
    fluxLm: stripW() * lightFigure('flux-per-watt').value,
    utilisation: utilisationIn('bare', { lengthM, widthM, aboveM }).factor,
    maintenance: lightFigure('maintenance').value,
  })
  return Math.max(1, Math.ceil(exact - 1e-9))
}
