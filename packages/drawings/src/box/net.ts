import type { Side } from '@plugstead/engine/job'
import type { Point } from '../scene.ts'
import type { DrawnBox } from './drawn-box.ts'

/** Longer than this, the roof would lie too far out beyond an end. */
export const ROOF_BESIDE_MM = 7000

export type Net = Readonly<Record<Side, (point: Point) => Point>>

/** Where a point of a side's inside view lies on the paper of the net. Long boxes fold their roof over the right long side. */
export function foldedOpen([L, W, H]: DrawnBox['body']['outsideMm'], beside = L <= ROOF_BESIDE_MM): Net {
  return {
    floor: ([u, v]) => [L - u, W - v],
    right: ([u, v]) => [u, W + v],
    left: ([u, v]) => [L - u, -v],
    'blind end': ([u, v]) => [-v, u],
    'door end': ([u, v]) => [L + v, W - u],
    roof: beside ? ([u, v]) => [L + H + u, v] : ([u, v]) => [L - u, 2 * W + H - v],
  }
}
