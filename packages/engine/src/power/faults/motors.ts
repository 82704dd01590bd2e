import type { BoxDesign, Job, Leg, Plug } from '../../job/index.ts'

/**
 * Running current of the box's motors that feed a fault, on its fullest leg. Machines behind a drive are left out: its rectifier lets
 * nothing back.
 */
export function motorCurrentA(box: BoxDesign, plugs: ReadonlyMap<string, Plug>): number {
  const legs: Record<Leg, number> = { A: 0, B: 0, C: 0 }
  for (const circuit of box.circuits) {
    for (const tag of circuit.plugs) {
      const plug = plugs.get(tag)
      if (plug === undefined || !feedsBack(plug)) continue
      for (const leg of circuit.legs) legs[leg] += plug.motor?.fullLoadA ?? plug.currentA
    }
  }
  return Math.max(legs.A, legs.B, legs.C)
}

const feedsBack = (plug: Plug): boolean =>
  (plug.kind === 'motor' || plug.kind === 'mixed' || plug.motor !== undefined) &&
  plug.kind !== 'drive' &&
  plug.motor?.start !== 'drive'

export const plugsByTag = (job: Job): ReadonlyMap<string, Plug> => new Map(job.plugs.map((p) => [p.tag, p]))
