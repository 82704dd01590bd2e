import { type BoxLoad, DAY_H, modDayH, SLOTS_PER_DAY } from '../staging/index.ts'

const SLOT_H = DAY_H / SLOTS_PER_DAY
const PER_HOUR = SLOTS_PER_DAY / DAY_H

/** Hours of the quarter-hour at `slot` that lie inside a run of `lengthH` from `fromH`, on the circle. */
function coveredH(slot: number, fromH: number, lengthH: number): number {
  if (lengthH >= DAY_H) return SLOT_H
  const u = modDayH(slot * SLOT_H - fromH)
  const ahead = Math.max(0, Math.min(lengthH, u + SLOT_H) - u)
  const wrapped = Math.max(0, u + SLOT_H - DAY_H)
  return ahead + Math.min(lengthH, wrapped)
}

/**
 * Mean power of each quarter-hour of a full day, W: duty counted, staged loads over their run from their start, the others spread
 * evenly over their window, because nobody can say when in it they run. Its sum over the day is Σ P·h·duty.
 */
export function meanProfileW(loads: readonly BoxLoad[], startH: Readonly<Record<string, number>>): readonly number[] {
  const mean = new Array<number>(SLOTS_PER_DAY).fill(0)
  for (const load of loads) {
    if (load.runH <= 0) continue
    const staged = load.stageable
    const from = staged ? (startH[load.tag] ?? load.fromH) : load.fromH
    const length = staged ? load.runH : load.windowH
    const power = (load.powerW * load.dutyFrac * load.runH) / length
    for (let s = 0; s < SLOTS_PER_DAY; s++) mean[s] = (mean[s] as number) + (power * coveredH(s, from, length)) / SLOT_H
  }
  return mean
}

/** Energy of each hour, kWh. */
export const hourlyKWh = (meanW: readonly number[]): readonly number[] =>
  Array.from({ length: DAY_H }, (_, h) =>
    meanW.slice(h * PER_HOUR, (h + 1) * PER_HOUR).reduce((sum, w) => sum + (w * SLOT_H) / 1000, 0),
  )
