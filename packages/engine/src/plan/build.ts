import { designAir } from '../air/index.ts'
import { type BoxBody, boxBody } from '../box/index.ts'
import { designFit, outsideMm, runLengths } from '../fit/index.ts'
import { designHaul } from '../haul/index.ts'
import {
  type AirDesign,
  type BoxBuild,
  type BoxDesign,
  type Design,
  type FitDesign,
  type Job,
  wirewayPieces,
} from '../job/index.ts'
import { type Prices, receptaclePart } from '../parts/index.ts'
import { besideIn } from '../power/circuits/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { designSkin } from '../skin/index.ts'
import type { Growth } from './grow.ts'

/** A box built, and what of the electrical design it was built for. */
export interface Built {
  readonly box: string
  readonly build: BoxBuild
  readonly key: string
  /** A wireway was tried with the wires that have to lie in it, and not all were led: every circuit keeps a raceway of its own. */
  readonly ownOnly: boolean
}

/**
 * Every box of a design built: what is cut, what hangs where, how it is lifted. Once for all its phases. A box whose electrical design
 * differs from an earlier one in nothing that hangs keeps its layout.
 */
export function buildsOf(
  job: Job,
  design: Design,
  rules: RuleSet,
  prices: Prices,
  earlier: readonly Built[] = [],
  airs: ReadonlyMap<string, AirDesign> = new Map(),
): readonly Built[] {
  return job.boxes.flatMap((wanted): readonly Built[] => {
    const designs = design.boxes.filter((b) => b.box === wanted.id)
    if (designs.length === 0) return []
    const body = bodyOf(job, wanted.id)
    const air = airs.get(wanted.id) ?? designAir({ job, body, designs })
    const skin = skinOf({ job, body, designs, rules, air })
    const key = JSON.stringify([skin, designs], (name, value) => (NOT_BUILT.has(name) ? undefined : value))
    const before = earlier.find((b) => b.box === wanted.id)
    const ownOnly = before?.ownOnly ?? false
    const request = {
      job,
      designs,
      body,
      skin,
      rules,
      prices,
      ownOnly,
      ...(before === undefined ? {} : { earlier: before.build }),
    }
    const fit = before?.key === key ? before.build.fit : designFit(request)
    const haul = designHaul({ job, body, fit, skin, air, rules, boxes: designs, prices })
    const build = { box: wanted.id, fit, air, skin, haul }
    return [{ box: wanted.id, key, build, ownOnly: ownOnly || gaveUp(before?.build.fit, fit, designs) }]
  })
}

/** What is cut in a box with these measures against heat and damp. */
export const skinOf = (of: {
  readonly job: Job
  readonly body: BoxBody
  readonly designs: readonly BoxDesign[]
  readonly rules: RuleSet
  readonly air: Pick<AirDesign, 'vents' | 'roofFoamM' | 'wallFoamM'>
}) =>
  designSkin({
    ...{ body: of.body, designs: of.designs, rules: of.rules.build, pins: of.job.pins, vents: of.air.vents },
    ...{ foam: of.air.roofFoamM > 0 || of.air.wallFoamM > 0, snowDepthM: of.job.yard.snow.depthM, racewayMm: outsideMm },
    outletMm: (circuit) => receptaclePart(circuit, of.rules),
  })

/** A design with its boxes built, as a runner-up needs to be drawn: its runs stay as long as they were sized for, and `fit/run-length` says where that differs. */
export function builtDesign(job: Job, design: Design, rules: RuleSet, prices: Prices): Design {
  return { ...design, builds: buildsOf(job, design, rules, prices).map((b) => b.build) }
}

/** No wireway leads this box: it had one and lost it to wires that grew, or was offered one and still has circuits that are not led. */
function gaveUp(before: FitDesign | undefined, fit: FitDesign, designs: readonly BoxDesign[]): boolean {
  if (wirewayPieces(fit.items).length > 0) return false
  return (before !== undefined && wirewayPieces(before.items).length > 0) || designs.some((d) => unledOf(d, fit).length > 0)
}

/** What nothing that hangs depends on: metres of runs, and cords beyond the holes that are cut for them. What is carried is weighed anew. */
const NOT_BUILT: ReadonlySet<string> = new Set(['lengthM', 'cords'])

/** The steel of a box of the job, as the table has it or as it was measured. */
export function bodyOf(job: Job, box: string): BoxBody {
  const wanted = job.boxes.find((b) => b.id === box)!
  return boxBody(wanted, job.surveys.find((s) => s.box === box) ?? null)
}

export type RunsM = Readonly<Record<string, Readonly<Record<string, number>>>>

/** Metres of every run in the box as its raceways lead it, up to the next tenth, by box and circuit; the feed is the supply's own. */
export function runsOf(builds: readonly Built[]): RunsM {
  return Object.fromEntries(
    builds.map((b) => [
      b.box,
      Object.fromEntries(
        runLengths(b.build.fit)
          .filter((l) => l.circuit !== 'feed')
          .map((l) => [l.circuit, Math.ceil(10 * l.electricalM - 1e-6) / 10]),
      ),
    ]),
  )
}

type Beside = NonNullable<Growth['beside']>

/**
 * Circuits that lie beside one another for longer than a nipple, by box and circuit; the same object where nothing changed. `grows`: what
 * lay beside a circuit before still counts, so that a layout that turns to and fro ends with wires that bear either; a wireway that is gone
 * counts no more.
 */
export function besideOf(before: Growth['beside'], builds: readonly Built[], grows: boolean): Beside {
  const now = Object.fromEntries(
    builds.map(({ box, build }): [string, Beside[string]] => {
      const here = besideIn(build.fit)
      const had = before?.[box]
      return [box, grows && had !== undefined ? joinedBeside(had, here, wirewayPieces(build.fit.items).length > 0) : here]
    }),
  )
  return before !== undefined && JSON.stringify(before) === JSON.stringify(now) ? before : now
}

function joinedBeside(before: Beside[string], now: Beside[string], wireway: boolean): Beside[string] {
  const circuits = [...Object.keys(before), ...Object.keys(now).filter((c) => before[c] === undefined)]
  return Object.fromEntries(
    circuits.flatMap((c) => {
      const had = (before[c] ?? []).filter((b) => wireway || b.in !== 'wireway')
      const more = (now[c] ?? []).filter((b) => !had.some((h) => h.in === b.in && h.others.join() === b.others.join()))
      return had.length + more.length === 0 ? [] : [[c, [...had, ...more]] as const]
    }),
  )
}

/** Of two, the longer of every run; the same object where nothing grew. */
export function longerRuns(before: RunsM | undefined, now: RunsM): RunsM {
  if (before === undefined) return now
  let grew = false
  const boxes = Object.entries(now).map(([box, runs]) => {
    const had = before[box] ?? {}
    const longer = Object.entries(runs).map(([circuit, lengthM]) => {
      const was = had[circuit] ?? 0
      if (lengthM > was + 1e-9) grew = true
      return [circuit, Math.max(was, lengthM)] as const
    })
    return [box, { ...had, ...Object.fromEntries(longer) }] as const
  })
  return grew ? { ...before, ...Object.fromEntries(boxes) } : before
}

/** Circuits that have a raceway and are not led to every end, by box. */
export function unledIn(design: Design, builds: readonly Built[]): ReadonlyMap<string, ReadonlySet<string>> {
  const all = builds.map(({ build: b }) => {
    const unled = design.boxes.filter((d) => d.box === b.box).flatMap((d) => unledOf(d, b.fit))
    return [b.box, new Set(unled)] as const
  })
  return new Map(all.filter(([, unled]) => unled.size > 0))
}

function unledOf(design: BoxDesign, fit: FitDesign): readonly string[] {
  const ends = new Map<string, number>()
  for (const i of fit.items)
    if (i.kind !== 'panel' && i.kind !== 'contactors') for (const c of i.circuits) ends.set(c, (ends.get(c) ?? 0) + 1)
  const reached = new Map<string, Set<string>>()
  for (const r of fit.raceways) for (const c of r.circuits) reached.set(c, (reached.get(c) ?? new Set()).add(r.to))
  const items = new Map(fit.items.map((i) => [i.id, i]))
  return design.circuits.flatMap((c) => {
    if (c.own === 'spare' || c.run.raceway === null) return []
    const here = [...(reached.get(c.id) ?? [])].filter(
      (id) => items.get(id)?.circuits.includes(c.id) === true && items.get(id)?.kind !== 'contactors',
    )
    return here.length < (ends.get(c.id) ?? 0) ? [c.id] : []
  })
}

/** Flats of one group are this far apart at most: a rib pitch, or two. */
const FLAT_MM = 280

/**
 * Raceways to share where circuits found no way: those that begin in one cabinet and end in outside things or junction boxes of one flat,
 * or of `flats` flats beside each other, share one if a circuit that found none is among them. By box and circuit.
 */
export function sharedIn(
  builds: readonly Built[],
  flats: number,
  unled: ReadonlyMap<string, ReadonlySet<string>>,
): NonNullable<Growth['together']> {
  return Object.fromEntries(
    builds.map(({ box, build: { fit } }) => {
      const shared: Record<string, string> = {}
      const ends = fit.items
        .filter((i) => (i.face === 'outside' || i.kind === 'junction box') && i.circuits.length === 1)
        .filter((i) => i.side === 'left' || i.side === 'right')
        .map((i) => ({ circuit: i.circuits[0]!, side: i.side, middleMm: i.atMm[0] + i.sizeMm[0] / 2 }))
        .filter((e, _, all) => all.filter((o) => o.circuit === e.circuit).length === 1)
        .toSorted(
          (a, b) =>
            (a.side < b.side ? -1 : a.side > b.side ? 1 : 0) || a.middleMm - b.middleMm || (a.circuit < b.circuit ? -1 : 1),
        )
      let name = ''
      let first: (typeof ends)[number] | null = null
      let from = ''
      for (const e of ends) {
        const cabinet =
          fit.items.find((i) => (i.kind === 'contactors' || i.kind === 'panel') && i.circuits.includes(e.circuit))?.id ?? ''
        if (
          first === null ||
          first.side !== e.side ||
          e.middleMm - first.middleMm > (flats - 1) * FLAT_MM + 100 ||
          from !== cabinet
        ) {
          first = e
          from = cabinet
          name = `with ${e.circuit}`
        }
        shared[e.circuit] = name
      }
      const lost = new Set(Object.keys(shared).flatMap((c) => (unled.get(box)?.has(c) ? [shared[c]!] : [])))
      return [box, Object.fromEntries(Object.entries(shared).filter(([, group]) => lost.has(group)))]
    }),
  )
}
