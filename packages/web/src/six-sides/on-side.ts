import type { Side } from '@plugstead/engine/job'
import type { SideView } from '../worker/protocol.ts'
import type { Way } from './nearest.ts'

/** A place as a pin tells it, metres. */
export interface Place {
  readonly side: Side
  readonly alongM: number
  readonly upM: number
}

/** The side under a point of the drawing. */
export const sideUnder = (sides: readonly SideView[], x: number, y: number): SideView | undefined =>
  sides.find((s) => x >= s.x && x <= s.x + s.w && y >= s.y && y <= s.y + s.h)

/** Which place of a side a point of the drawing is, held within the side, to the nearest 10 mm. */
export function placeAt({ side, zero, along, up, ...rect }: SideView, x: number, y: number): Place {
  const [px, py] = [hold(x, rect.x, rect.x + rect.w) - zero[0], hold(y, rect.y, rect.y + rect.h) - zero[1]]
  const det = along[0] * up[1] - along[1] * up[0]
  return {
    side,
    alongM: rounded((px * up[1] - py * up[0]) / det, 0.01),
    upM: rounded((along[0] * py - along[1] * px) / det, 0.01),
  }
}

export const pointOf = ({ zero, along, up }: SideView, { alongM, upM }: Place): readonly [number, number] => [
  zero[0] + along[0] * alongM + up[0] * upM,
  zero[1] + along[1] * alongM + up[1] * upM,
]

export type StepLength = 'rib' | '10 mm' | '1 mm'

const WAYS: Readonly<Record<Way, readonly [number, number]>> = { left: [-1, 0], right: [1, 0], up: [0, -1], down: [0, 1] }
/** Without ribs to step by. */
const USUAL_RIB_M = 0.28

/** One step that way on the drawing: along, to the next inner flat; else by its length. */
export function stepped(side: SideView, at: Place, way: Way, step: StepLength): Place {
  const [dx, dy] = WAYS[way]
  const alongPx = dx * side.along[0] + dy * side.along[1]
  const upPx = dx * side.up[0] + dy * side.up[1]
  const onward = Math.abs(alongPx) > Math.abs(upPx)
  const sign = Math.sign(onward ? alongPx : upPx)
  const byM = step === '10 mm' ? 0.01 : step === '1 mm' ? 0.001 : ribPitchM(side.flatsM)
  if (!onward) return { ...at, upM: Math.max(0, rounded(at.upM + sign * byM, 0.001)) }
  const next = step === 'rib' ? nextFlat(side.flatsM, at.alongM, sign) : null
  return { ...at, alongM: Math.max(0, rounded(next ?? at.alongM + sign * byM, 0.001)) }
}

function nextFlat(flatsM: readonly number[], fromM: number, sign: number): number | null {
  const ahead = flatsM.filter((flat) => sign * (flat - fromM) > 0.001)
  return ahead.length === 0 ? null : sign > 0 ? Math.min(...ahead) : Math.max(...ahead)
}

function ribPitchM(flatsM: readonly number[]): number {
  const [first, second] = flatsM
  return first === undefined || second === undefined ? USUAL_RIB_M : Math.abs(second - first)
}

/** As a pin writes it: `left outside 1.20 m 1.55 m`. */
export const pinText = ({ side, alongM, upM }: Place, face: 'inside' | 'outside'): string =>
  `${side}${face === 'outside' ? ' outside' : ''} ${plain(alongM)} m ${plain(upM)} m`

const plain = (value: number): string => {
  const text = Math.max(0, value).toFixed(3)
  return text.endsWith('0') ? text.slice(0, -1) : text
}
const hold = (value: number, low: number, high: number): number => Math.min(Math.max(value, low), high)
const rounded = (value: number, to: number): number => Math.round(value / to) * to
