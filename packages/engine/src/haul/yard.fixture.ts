import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { designAir } from '../air/index.ts'
import { boxBody } from '../box/index.ts'
import type {
  AirDesign,
  BoxBuild,
  BoxDesign,
  Design,
  FitDesign,
  HaulDesign,
  Job,
  Opening,
  PlacedItem,
  SkinDesign,
} from '../job/index.ts'
import { readJob } from '../job/index.ts'
import { ruleSets } from '../rules/index.ts'
import { answerHaul, designHaul } from './index.ts'

/** An example of the project, read. */
export function exampleJob(name: string): Job {
  const read = readJob(readFileSync(join(import.meta.dirname, `../../../../examples/${name}.yaml`), 'utf8'))
  if (!read.ok) throw new Error(JSON.stringify(read.problems))
  return read.value
}

const hung = (id: string, low: number, high: number, at: PlacedItem['atMm'], size: PlacedItem['sizeMm']): PlacedItem => ({
  id,
  kind: 'panel',
  what: id,
  part: id,
  side: 'blind end',
  face: 'inside',
  atMm: at,
  sizeMm: size,
  massKg: { low, high, basis: 'invented', told: false },
  circuits: [],
  hangsOn: [],
})

/** A small fit-out with its gear toward the blind end. */
export const FIT: FitDesign = {
  items: [
    hung('panel', 40, 60, [300, 100, 900], [510, 150, 1270]),
    hung('transformer', 260, 330, [400, 1900, 150], [660, 560, 970]),
    hung('heater', 10, 16, [2800, 100, 1800], [400, 350, 480]),
  ],
  strut: [
    {
      id: 'upright 1',
      use: 'upright',
      section: '12 ga 1-5/8 x 1-5/8 (41 x 41, 2.6 mm)',
      pattern: 'slots',
      side: 'left',
      fromMm: [300, 60, 150],
      toMm: [300, 60, 2400],
      fixings: [],
    },
  ],
  raceways: [
    {
      id: 'feed',
      kind: 'EMT',
      trade: '1',
      from: 'panel',
      to: 'heater',
      pointsMm: [
        [500, 100, 2200],
        [2900, 100, 2200],
        [2900, 100, 2000],
      ],
      circuits: ['h'],
      conductors: [],
      bends: [],
      strapsMm: [],
      pullsMm: [],
    },
  ],
  bonds: [],
  search: null,
  clashes: [],
}

export const DOOR: Opening = {
  id: 'door 1',
  use: 'personnel door',
  side: 'left',
  atMm: [4600, 0, 1150],
  shape: 'rectangle',
  widthMm: 900,
  heightMm: 2000,
  cornerRadiusMm: 0,
  class: 'door',
  frame: 'square tube 60 x 60 x 3',
  railToRail: true,
  hood: false,
  meshMm: null,
  plate: null,
  serves: [],
}

export const skinWith = (openings: readonly Opening[]): SkinDesign => ({
  openings,
  exitWays: {},
  cordSide: 'right',
  finish: { primer: 'zinc-rich', foam: false },
})

/** Answer for the first box of a job with that fit-out, by its own design or another. */
export function answered(
  job: Job,
  more: {
    readonly fit?: FitDesign
    readonly skin?: SkinDesign
    readonly haul?: Partial<HaulDesign>
    readonly air?: Partial<AirDesign>
    readonly boxes?: readonly BoxDesign[]
  } = {},
) {
  const rules = ruleSets[job.rules.set]
  const wanted = job.boxes[0]
  if (wanted === undefined) throw new Error('no box')
  const body = boxBody(wanted, job.surveys.find((one) => one.box === wanted.id) ?? null)
  const fit = more.fit ?? FIT
  const skin = more.skin ?? skinWith([DOOR])
  const air: AirDesign = { ...designAir({ job, body, designs: more.boxes ?? [] }), ...more.air }
  const haul: HaulDesign = { ...designHaul({ job, body, fit, skin, air, rules, boxes: more.boxes ?? [] }), ...more.haul }
  const build: BoxBuild = { box: wanted.id, fit, air, skin, haul }
  const design: Design = { boxes: more.boxes ?? [], builds: [build], pinned: [] }
  return { ...answerHaul({ job, design, bodies: { [body.box]: body }, rules }), body, haul, rules }
}
