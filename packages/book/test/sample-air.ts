import type { RemediesMade } from '@plugstead/drawings'
import { AIR_DESIGN, airBox, type Climate, COLD } from '@plugstead/drawings/sample-air'
import { type Finding, put, source, step, type Working } from '@plugstead/engine/kernel'
import type { BookInput } from '../src/results.ts'
import { sample } from './sample.ts'

const finding = (code: string, verdict: Finding['verdict'], said: string, over: Partial<Finding> = {}): Finding => ({
  ...{ code: `air/${code}`, question: 'air', subject: 'B1', verdict, basis: 'physics', said, provenance: 'computed' },
  ...{ assumed: [], workings: [`B1/air-${code}`], mends: [] },
  ...over,
})

export const AIR_FINDINGS: readonly Finding[] = [
  finding('drip', 'fails', 'Made up: 3.4 l fall on the panel and no hood stands over it.', {
    caution: 'Water near live parts kills: isolate, lock and prove dead before you open, wipe or dry anything.',
    decides: 'the licensed electrician on site',
    mends: [{ path: 'air.B1.drip-hood', value: true, words: 'a drip hood over the gear' }],
  }),
  finding('hot', 'tight', 'Made up: the breakers stand 40 °C and see 38 °C.', { subject: 'B1 breakers' }),
  finding('books', 'holds', 'Made up: heat and water balance.'),
  finding('short-run', 'holds', 'Made up: a hot, still week stays below what the gear stands.', { subject: 'B1 hot week' }),
  finding('vents-in-cold', 'tight', 'Made up: the vents cool the box in the coldest day, and are shut to a quarter.'),
  finding('heater-energy', 'holds', 'Made up: the heater takes 310 kWh.', {
    caution:
      'A heater in a box that nobody watches is a fire risk: guarded, fixed, with its own cut-out; nothing that burns beside it.',
  }),
]

const working = (f: Finding): Working => ({
  id: f.workings[0]!,
  title: f.said,
  steps: [step('E', 'sum over the year', [put('P', 500, 'W')], 310, 'kWh', source('the hourly run of this box', 'computed'))],
  crossCheck: [step('P', 'ΔT·(ΣUA + 0.34·Q)', [put('ΔT', 10, 'K')], 420, 'W', source('steady heat flow', 'computed'))],
})

const amounts = (hotH: number, wetH: number, mostGPerM2: number, fellL: number, heaterKWh: number) => ({
  ...{ wrongH: hotH, hotH, coldH: 0, dewH: 0, wetH, frostH: 0, mostGPerM2, fellL, onGearL: 0, heaterKWh, fanKWh: 12 },
})
const FAILED = [3, 9, 14, 20].map((year) => ({ year, kinds: ['drip' as const] }))
const VENTS = { id: 'vents', name: 'two vents', after: amounts(190, 820, 210, 0.6, 0), money: 410, note: null }
const REMEDIES: RemediesMade = {
  ...{ aloneYearsCount: 30, stackedYearsCount: 30 },
  table: {
    ...{ box: 'B1', currency: 'USD', yearsCount: 30, alone: [VENTS], stacked: [VENTS] },
    base: { name: 'nothing done', after: amounts(312, 1810, 640, 21.4, 0) },
    design: { name: 'as designed', after: amounts(101, 707, 202, 0.3, 303), heldYearsCount: 26, failed: FAILED },
  },
}

const VENT = {
  use: 'vent',
  shape: 'rectangle',
  cornerRadiusMm: 25,
  class: 'framed',
  frame: 'tube 40 x 40 x 3',
  railToRail: false,
} as const

/** The sample with a year of air that nobody computed. */
export function airSample(climate: Climate = COLD, machines = 2): BookInput {
  const of = sample('split', machines)
  const builds = of.design.builds.map((b) => ({
    ...b,
    air: AIR_DESIGN,
    skin: {
      ...b.skin,
      openings: [
        ...b.skin.openings,
        {
          ...VENT,
          ...{ id: 'vent high', side: 'left' as const, atMm: [5400, 0, 2250] as const, widthMm: 300, heightMm: 300 },
          ...{ hood: true, meshMm: 6, plate: null, serves: [] },
        },
      ],
    },
  }))
  const air = { ...airBox(climate, 'B1'), winterMonths: [0, 1, 10, 11] }
  return {
    ...of,
    design: { ...of.design, builds },
    assessment: {
      ...of.assessment,
      findings: [...of.assessment.findings, ...AIR_FINDINGS],
      workings: [...of.assessment.workings, ...AIR_FINDINGS.map(working)],
      results: { ...of.assessment.results, air: { boxes: [air] } },
    },
    airRemedies: { B1: REMEDIES },
  }
}
