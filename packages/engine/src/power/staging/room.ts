import type { Ceiling, Open, Placeable } from './narrow.ts'
import { SLOTS_PER_DAY as SLOTS } from './result.ts'

const ROUNDING = 1e-9

interface Arc {
  readonly p: number
  readonly run: number
  /** Earliest start, and how much later the latest is. */
  readonly first: number
  readonly slack: number
}

/**
 * Over every span from an earliest start to a latest end: does what must lie inside find room under the caps? Spans are arcs of the
 * circle; a run that may go round the whole of it is left to the check of the whole day.
 */
export function energyFits(runs: readonly Placeable[], open: Open, { dimensions, standing, caps }: Ceiling): boolean {
  const room = new Float64Array(2 * SLOTS + 1)
  for (let d = 0; d < dimensions; d++) {
    for (let s = 0; s < 2 * SLOTS; s++) {
      const at = d * SLOTS + (s % SLOTS)
      room[s + 1] = (room[s] as number) + Math.max(0, (caps[at] as number) - (standing[at] as number))
    }
    let whole = 0
    const arcs: Arc[] = []
    for (let i = 0; i < runs.length; i++) {
      const { load, runSlots: run, firstSlot } = runs[i] as Placeable
      const p = load[d] as number
      if (p === 0) continue
      const offsets = open[i] as Int16Array
      const first = offsets[0] as number
      const slack = (offsets[offsets.length - 1] as number) - first
      whole += p * run
      if (slack + run <= SLOTS) arcs.push({ p, run, first: (firstSlot + first) % SLOTS, slack })
    }
    if (whole > (room[SLOTS] as number) * (1 + ROUNDING)) return false
    for (const { first } of arcs) {
      for (const to of arcs) {
        const length = (to.first + to.slack + to.run - first + 2 * SLOTS) % SLOTS
        if (length === 0) continue
        let wanted = 0
        for (const arc of arcs) wanted += arc.p * surelyInsideSlots(arc, first, length)
        if (wanted > ((room[first + length] as number) - (room[first] as number)) * (1 + ROUNDING)) return false
      }
    }
  }
  return true
}

/** Quarter-hours of a run that cannot fall outside an arc, over all its open starts: as `surelyInsideH`, in whole quarter-hours. */
function surelyInsideSlots({ run, first, slack }: Arc, from: number, length: number): number {
  const w = slack + run
  const u = (from - first + SLOTS) % SLOTS
  const behind = Math.max(0, Math.min(w, u + length - SLOTS))
  const ahead = u < w ? Math.min(w, u + length) - u : 0
  if (behind > 0 && ahead > 0) return Math.max(0, run - (w - behind - ahead))
  const a = behind > 0 ? 0 : u
  const b = behind > 0 ? behind : u + ahead
  if (b <= a) return 0
  return Math.min(Math.max(0, Math.min(run, b) - a), Math.max(0, b - Math.max(a, w - run)))
}
