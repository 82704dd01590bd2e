import { airAsCut } from '@plugstead/engine/air'
import { boxBody } from '@plugstead/engine/box'
import type { Assumption, BoxBuild, Design, Device, Job, Run } from '@plugstead/engine/job'
import type { Problem } from '@plugstead/engine/kernel'
import type { RuleSet } from '@plugstead/engine/rules'
import { BUILD } from './design-build.ts'
import type { Fields, Shape } from './design-shape.ts'
import { nearest } from './near.ts'
import { Unreadable } from './problem.ts'
import { fileBytes } from './read-file.ts'

const WIRE: Shape = { fields: { size: 'text', metal: { oneOf: ['cu', 'al'] }, insulation: 'text' } }
const DEVICE: Shape = { fields: { ratingA: 'number', poles: { oneOf: [1, 2, 3, 4] }, family: 'text', interruptingKA: 'number' } }
const RUN: Shape = {
  fields: {
    lengthM: 'number',
    line: WIRE,
    neutral: { orNull: WIRE },
    protective: { orNull: WIRE },
    raceway: { orNull: { fields: { kind: 'text', trade: 'text' }, optional: { shared: 'text' } } },
    sets: 'count',
  },
}
const CORD: Shape = {
  fields: { plug: 'text', type: 'text', size: 'text', lengthM: 'number', jacketMinC: { orNull: 'signed' } },
  optional: { sharedWith: 'text' },
}
const CIRCUIT: Shape = {
  fields: {
    id: 'text',
    ways: { list: 'count' },
    legs: { list: { oneOf: ['A', 'B', 'C'] }, least: 1 },
    connection: { oneOf: ['LN', 'LL', 'LLN', 'LLL', 'LLLN'] },
    device: DEVICE,
    shock: {
      fields: {
        kind: { oneOf: ['none', 'class A', 'equipment 30 mA', 'rcd'] },
        sensitivityMA: { orNull: 'number' },
        form: { orNull: { oneOf: ['AC', 'A', 'F', 'B'] } },
      },
    },
    run: RUN,
    outlet: 'text',
    plugs: { list: 'text' },
    own: { orNull: { oneOf: ['light', 'heater', 'fan', 'control', 'receptacle', 'stub', 'spare'] } },
    cords: { list: CORD },
    label: 'text',
  },
  optional: {
    ownLoad: {
      fields: { powerW: 'number', voltageV: 'number', powerFactorFrac: 'number', fromH: 'number', hoursPerDay: 'number' },
      optional: { at: { oneOf: ['cabinet'] } },
    },
  },
}
const BOX: Shape = {
  fields: {
    box: 'text',
    phase: 'text',
    system: 'text',
    offer: 'text',
    interim: { orNull: 'text' },
    serviceA: 'number',
    transformer: {
      orNull: {
        fields: {
          kVA: 'number',
          primaryV: 'number',
          secondaryV: 'number',
          impedancePct: 'number',
          xOverR: 'number',
          phases: { oneOf: [1, 3] },
          noLoadLossW: { orNull: 'number' },
          fullLoadLossW: { orNull: 'number' },
          primary: DEVICE,
          primaryRun: RUN,
        },
      },
    },
    panel: {
      fields: {
        busA: 'number',
        ways: 'count',
        main: DEVICE,
        interruptingKA: 'number',
        feed: RUN,
        bond: { oneOf: ['neutral bonded here', 'neutral not bonded here'] },
      },
    },
    circuits: { list: CIRCUIT },
    staging: {
      fields: { control: { oneOf: ['none', 'timers', 'interlock'] }, startH: { byName: 'number' }, capA: { orNull: 'number' } },
    },
    electrode: {
      fields: {
        kind: { oneOf: ['rods', 'ring'] },
        count: 'count',
        lengthM: 'number',
        diameterM: 'number',
        spacingM: 'number',
        conductor: WIRE,
      },
    },
    transfer: { oneOf: ['none', 'neutral switched', 'neutral solid'] },
    setBond: { oneOf: ['at the set', 'at the first disconnect', 'none'] },
    earthing: { oneOf: ['TN-S', 'TN-C-S', 'TT', 'service bond'] },
    fedFrom: { orNull: { fields: { box: 'text', run: RUN, device: DEVICE } } },
  },
}
const DESIGN: Shape = { fields: { boxes: { list: BOX }, builds: { list: BUILD }, pinned: { list: 'text' } } }

/**
 * A design as `plan --out` wrote it, perhaps edited by hand. It is complete, or it is refused: `assess` fills no gap. A file from before
 * air was designed gets what its boxes were built with then, and `assumed` says so.
 * @throws Unreadable with every place that does not fit
 */
export function readDesign(file: string, job: Job, rules: RuleSet): ReadDesign {
  const text = new TextDecoder().decode(fileBytes(file))
  const problems: Problem[] = []
  let document: unknown
  try {
    document = JSON.parse(text)
  } catch (error) {
    const found = error instanceof Error ? error.message : 'not JSON'
    throw new Unreadable({
      code: 'design/not-json',
      file,
      found,
      wanted: 'a design as plan --out writes it (JSON)',
      mend: 'Write it anew: plugstead plan JOB --out DIR.',
    })
  }
  const written = isMap(document) && 'design' in document ? document.design : document
  walk(written, DESIGN, 'design', (path, found, wanted, mend) =>
    problems.push({ code: 'design/shape', file, path, found, wanted, mend }),
  )
  if (problems.length === 0) problems.push(...strangers(file, written as Design, job), ...unheard(file, written as Design, rules))
  if (problems.length > 0) throw new Unreadable(...problems)
  return withAir(written as OlderDesign, job)
}

export interface ReadDesign {
  readonly design: Design
  readonly assumed: readonly Assumption[]
}

type OlderBuild = Omit<BoxBuild, 'air'> & Partial<Pick<BoxBuild, 'air'>>
type OlderDesign = Omit<Design, 'builds'> & { readonly builds: readonly OlderBuild[] }

function withAir(written: OlderDesign, job: Job): ReadDesign {
  const assumed: Assumption[] = []
  const builds = written.builds.flatMap((build): readonly BoxBuild[] => {
    if (build.air !== undefined) return [{ ...build, air: build.air }]
    const wanted = job.boxes.find((b) => b.id === build.box)
    if (wanted === undefined) return []
    assumed.push({
      path: `choices.air.${build.box}`,
      said: `${build.box}: the design file says nothing of air; its vents are taken as they are cut, no foam, no second roof, no hood`,
      source: 'as boxes were built before air was designed; write the design anew: plugstead plan JOB --out DIR',
    })
    const body = boxBody(wanted, job.surveys.find((s) => s.box === build.box) ?? null)
    const designs = written.boxes.filter((b) => b.box === build.box)
    return [{ ...build, air: airAsCut({ job, body, designs, skin: build.skin }) }]
  })
  return { design: { ...written, builds }, assumed }
}

type Say = (path: string, found: string, wanted: string, mend: string) => void

function walk(value: unknown, shape: Shape, path: string, say: Say): void {
  if (typeof shape === 'object' && 'orNull' in shape) {
    if (value !== null) walk(value, shape.orNull, path, say)
  } else if (typeof shape === 'string' || 'oneOf' in shape) {
    const wanted = describe(shape)
    if (!fits(value, shape))
      say(path, shown(value), wanted, `Write ${wanted}, or write the design anew: plugstead plan JOB --out DIR.`)
  } else if ('list' in shape) {
    if (Array.isArray(value) && value.length >= (shape.least ?? 0)) {
      for (const [at, one] of value.entries()) walk(one, shape.list, `${path}[${at}]`, say)
    } else
      say(path, shown(value), (shape.least ?? 0) > 0 ? 'a list that is not empty' : 'a list', 'Write a list in square brackets.')
  } else if (!isMap(value)) {
    say(path, shown(value), 'named values', 'Write named values in braces.')
  } else if ('byName' in shape) {
    for (const [name, one] of Object.entries(value)) walk(one, shape.byName, `${path}.${name}`, say)
  } else walkFields(value, shape, path, say)
}

function walkFields(value: Record<string, unknown>, shape: Fields, path: string, say: Say): void {
  for (const [name, own] of Object.entries(shape.fields)) {
    if (name in value) walk(value[name], own, `${path}.${name}`, say)
    else say(`${path}.${name}`, 'nothing', describe(own), `Add “${name}”: a design is complete, nothing in it is filled in.`)
  }
  const names = Object.keys({ ...shape.fields, ...shape.optional })
  for (const [name, one] of Object.entries(value)) {
    const own = shape.optional?.[name]
    if (own !== undefined) walk(one, own, `${path}.${name}`, say)
    if (names.includes(name)) continue
    const near = nearest(name, names)
    say(`${path}.${name}`, `“${name}”`, `one of ${names.join(', ')}`, near === null ? 'Take it out.' : `Did you mean “${near}”?`)
  }
}

function fits(
  value: unknown,
  shape: 'text' | 'number' | 'signed' | 'count' | 'yes or no' | { readonly oneOf: readonly (string | number)[] },
): boolean {
  if (shape === 'yes or no') return typeof value === 'boolean'
  if (shape === 'text') return typeof value === 'string'
  if (shape === 'signed') return Number.isFinite(value)
  if (shape === 'number') return Number.isFinite(value) && (value as number) >= 0
  if (shape === 'count') return Number.isInteger(value) && (value as number) >= 0
  return shape.oneOf.includes(value as string)
}

/** Things the design names that the job does not know, and boxes of the job that it leaves out. */
function strangers(file: string, design: Design, job: Job): readonly Problem[] {
  const problems: Problem[] = []
  const known = (path: string, name: string, names: readonly string[], what: string) => {
    if (names.includes(name)) return
    const near = nearest(name, names)
    const mend = near === null ? `The job has ${names.join(', ') || 'none'}.` : `Did you mean ${near}?`
    problems.push({ code: 'design/stranger', file, path, found: `“${name}”`, wanted: `${what} of the job`, mend })
  }
  const [boxes, phases, offers, plugs] = [job.boxes, job.phases, job.offers]
    .map((all) => all.map((one) => one.id))
    .concat([job.plugs.map((plug) => plug.tag)])
  design.boxes.forEach((box, at) => {
    const path = `design.boxes[${at}]`
    known(`${path}.box`, box.box, boxes ?? [], 'a box')
    known(`${path}.phase`, box.phase, phases ?? [], 'a phase')
    if (box.fedFrom === null) known(`${path}.offer`, box.offer, offers ?? [], 'an offer')
    box.circuits.forEach((circuit, row) => {
      for (const plug of [...circuit.plugs, ...circuit.cords.map((cord) => cord.plug)])
        known(`${path}.circuits[${row}]`, plug, plugs ?? [], 'a plug')
    })
  })
  for (const phase of job.phases) {
    if (design.boxes.some((box) => box.phase === phase.id)) continue
    problems.push({
      ...{ code: 'design/phase-missing', file, path: 'design.boxes', found: `no box in phase ${phase.id}` },
      ...{ wanted: 'a box designed for every phase', mend: 'Write the design anew: plugstead plan JOB --out DIR.' },
    })
  }
  return problems
}

/** Sizes and devices that the rule set does not list, and a circuit written twice. */
function unheard(file: string, design: Design, rules: RuleSet): readonly Problem[] {
  const problems: Problem[] = []
  const lines = rules.sizes.map((s) => s.name)
  const cords = rules.cordSizes()
  const say = (path: string, name: string, wanted: string, names: readonly string[]) => {
    const near = nearest(name, names)
    const mend =
      names.length === 0 ? 'Take one of them out.' : near === null ? `Write one of ${names.join(', ')}.` : `Did you mean ${near}?`
    problems.push({ code: 'design/unheard', file, path, found: `“${name}”`, wanted, mend })
  }
  const run = (path: string, { line, neutral, protective }: Run) => {
    for (const [what, wire] of Object.entries({ line, neutral, protective }))
      if (wire !== null && !lines.includes(wire.size))
        say(`${path}.${what}.size`, wire.size, 'a conductor size of the rule set', lines)
  }
  const device = (path: string, { family, ratingA }: Device) => {
    try {
      rules.tripBand(family, ratingA)
    } catch {
      say(`${path}.family`, `${family} ${ratingA} A`, 'a device family of the rule set at a rating it is made in', [
        rules.defaults.deviceFamily,
      ])
    }
  }
  design.boxes.forEach((box, at) => {
    const path = `design.boxes[${at}]`
    run(`${path}.panel.feed`, box.panel.feed)
    device(`${path}.panel.main`, box.panel.main)
    const seen = new Set<string>()
    box.circuits.forEach((circuit, row) => {
      const here = `${path}.circuits[${row}]`
      if (seen.has(circuit.id)) say(`${here}.id`, circuit.id, 'each circuit once', [])
      seen.add(circuit.id)
      run(`${here}.run`, circuit.run)
      device(`${here}.device`, circuit.device)
      circuit.cords.forEach((cord, k) => {
        if (!cords.includes(cord.size) && !lines.includes(cord.size))
          say(`${here}.cords[${k}].size`, cord.size, 'a cord size of the rule set', cords)
      })
    })
  })
  return problems
}

function describe(shape: Shape): string {
  if (typeof shape === 'string') return SAID[shape]
  if ('oneOf' in shape) return `one of ${shape.oneOf.join(', ')}`
  if ('orNull' in shape) return `${describe(shape.orNull)}, or null`
  return 'list' in shape ? 'a list' : 'named values'
}

const SAID = {
  text: 'words in quotes',
  number: 'a number from 0 on',
  signed: 'a number',
  count: 'a whole number from 0 on',
  'yes or no': 'true or false',
} as const

function shown(value: unknown): string {
  const text = JSON.stringify(value) ?? 'nothing'
  return text.length > 60 ? `${text.slice(0, 57)}…` : text
}

const isMap = (value: unknown): value is Record<string, unknown> =>
  typeof value === 'object' && value !== null && !Array.isArray(value)
