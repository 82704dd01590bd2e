import type { Opening, SnowFrame } from '../../job/index.ts'
import type { Step } from '../../kernel/index.ts'
import { combination } from '../combination.ts'
import { amount, figure, line } from '../shelf.ts'
import { tubeSection } from '../snow.ts'
import type { Rails } from './place.ts'
import type { Check, FrameTask } from './work.ts'

type Plain = Omit<Check, 'verdict'>

const TUBE = /([\d.]+)\s*x\s*([\d.]+)\s*x\s*([\d.]+)/

/** Geometry of the rail's tube; null where its section is no tube. */
export function railTube(rails: Rails) {
  const size = TUBE.exec(rails.section)
  if (size === null) return null
  const [wideMm, highMm, wallMm] = [Number(size[1]), Number(size[2]), Number(size[3])]
  const areaMm2 = wideMm * highMm - (wideMm - 2 * wallMm) * (highMm - 2 * wallMm)
  return { ...tubeSection({ widthMm: wideMm, heightMm: highMm, wallMm }), wallMm, highMm, areaMm2 }
}

/** Openings whose head is the rail's own work: what else is cut lies in the sheet. */
export const framedIn = (openings: readonly Opening[]): readonly Opening[] =>
  openings.filter((one) => (one.side === 'left' || one.side === 'right') && (one.class === 'door' || one.class === 'framed'))

/**
 * What the seats press on: the rail's webs, the wall's sheet below them, and the rail as a beam over each opening with every seat as it
 * stands. The bending moment of a simple beam under single loads is greatest under one of them; sag by Mohr's integral at the middle.
 */
export function railUnder(
  task: FrameTask,
  rails: Rails,
  frame: SnowFrame,
  seatN: number,
): { readonly checks: readonly Plain[]; readonly steps: readonly Step[] } {
  const tube = railTube(rails)
  const sheet = task.body.sides.left.corrugation
  const mix = combination(task.by)
  const limit = mix.steel * amount('box-steel-yield')
  const longMm = amount('frame-seat-long')
  if (tube === null || sheet === null) return { checks: [{ what: 'rail', demand: Infinity, limit, unit: 'N/mm2' }], steps: [] }
  const web = seatN / (2 * tube.wallMm * longMm)
  // Spread through the rail at 45° to either side.
  const sheetMm = longMm + 2 * tube.highMm
  const wall = seatN / (sheetMm * sheet.thicknessMm)
  const over = framedIn(task.skin.openings).map((opening) => {
    const from = opening.atMm[0] - opening.widthMm / 2
    const loads = frame.bearersAtMm.map((x) => x - from).filter((x) => x > 0 && x < opening.widthMm)
    const members = opening.frame === null ? 1 : 2
    const beam = underLoads({ spanMm: opening.widthMm, atMm: loads, eachN: seatN })
    const inertiaMm4 = tube.inertiaMm4 * members
    return {
      opening,
      members,
      loads,
      stress: beam.momentNmm / (tube.sectionMm3 * members),
      sagMm: beam.sagTimesEI / (amount('steel-modulus') * inertiaMm4),
    }
  })
  return {
    checks: [
      { what: 'rail under a seat', demand: web, limit, unit: 'N/mm2' },
      { what: 'wall sheet under a seat', demand: wall, limit, unit: 'N/mm2' },
      ...over.flatMap((o): readonly Plain[] => [
        { what: `rail over ${o.opening.id}`, demand: o.stress, limit, unit: 'N/mm2' },
        { what: `rail over ${o.opening.id}, sag`, demand: o.sagMm, limit: o.opening.widthMm / amount('rail-sag'), unit: 'mm' },
      ]),
    ],
    steps: [
      line('σ web', 'R/(2·t·ℓ)', [['ℓ', longMm, 'mm']], web, 'N/mm2'),
      line(
        'σ sheet',
        'R/((ℓ + 2·h)·t)',
        [
          ['ℓ + 2·h', sheetMm, 'mm'],
          ['t', sheet.thicknessMm, 'mm'],
        ],
        wall,
        'N/mm2',
      ),
      ...over.map((o) =>
        line(
          `σ over ${o.opening.id}`,
          `M/S, ${o.members === 1 ? 'rail alone' : 'rail and lintel alike'}, ${o.loads.length} seats over it`,
          [['a', o.opening.widthMm, 'mm']],
          o.stress,
          'N/mm2',
        ),
      ),
      line('σ allowed, box', 'share·fy', [['share', mix.steel, '']], limit, 'N/mm2', figure('box-steel-yield').rests),
    ],
  }
}

/** A simple beam under alike single loads: greatest moment, and E·I times the sag of its middle. */
export function underLoads(of: { readonly spanMm: number; readonly atMm: readonly number[]; readonly eachN: number }): {
  readonly momentNmm: number
  readonly sagTimesEI: number
} {
  const { spanMm: l, atMm, eachN: p } = of
  const left = atMm.reduce((sum, x) => sum + (p * (l - x)) / l, 0)
  const momentAt = (x: number): number => left * x - atMm.reduce((sum, a) => sum + (a < x ? p * (x - a) : 0), 0)
  // Sag of the middle under a load at a from the nearer support: P·a·(3·l² − 4·a²)/48.
  const sag = atMm.reduce((sum, x) => {
    const a = Math.min(x, l - x)
    return sum + (p * a * (3 * l ** 2 - 4 * a ** 2)) / 48
  }, 0)
  return { momentNmm: Math.max(0, ...atMm.map(momentAt)), sagTimesEI: sag }
}
