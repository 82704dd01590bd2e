import { type Assessment, assess, type Shop } from '../assess/index.ts'
import type { BoxDesign, BuiltBox, Circuit } from '../job/index.ts'
import type { Finding, Memory } from '../kernel/index.ts'
import { type Material, materialsOf, pricedMaterials } from '../parts/index.ts'
import { changedBox, type Part, type Standing, shockTold, wireTold } from './change-list-box.ts'

export interface Found {
  readonly keys: ReadonlySet<string>
  readonly assessment: Assessment
  /** Codes and subjects that fail. */
  readonly fails: readonly string[]
  readonly costMoney: number
  readonly tried: number
}

export interface SearchTask {
  readonly of: Standing
  readonly shop: Shop
  /** Does a finding bar a design? */
  readonly bars: (f: Finding) => boolean
  /** Fails that the fresh design has too: no change of the box mends them. */
  readonly excused: ReadonlySet<string>
  /** From one try to the next little changes. */
  readonly memory: Memory
}

const PARTS: readonly Part[] = ['device', 'wire', 'outlet', 'shock', 'cord']
/** More rounds than sets of parts: each round renews more of at least one circuit. */
const MOST_ROUNDS = 1 << PARTS.length

/** What fails in a box as changed: all that bars a design, and everything the box as it stands fails in, house lines too. */
export function failsOf({ bars, excused }: SearchTask, assessment: Assessment): readonly Finding[] {
  return assessment.findings.filter(
    (f) => f.verdict === 'fails' && (bars(f) || /\/built-/.test(f.code)) && !excused.has(nameOf(f)),
  )
}
export const nameOf = (f: Finding): string => `${f.code} ${f.subject}`

/** Judges the box with the changes of `keys` done and no other. */
export function judgedWith(task: SearchTask, keys: ReadonlySet<string>): Assessment {
  const { job, design } = changedBox(task.of, keys)
  return assess(job, design, task.shop, { withoutAir: true, memory: task.memory })
}

/**
 * The cheapest changes after which nothing fails. Three ways to do panel and main (keep both; a new main; both new, with every device),
 * and within each, every circuit begins as it stands and gives up parts in order of their price until `assess` has nothing against it.
 * Where none is free of failures, the one with the fewest.
 */
export function cheapestChanges(task: SearchTask): Found {
  let tried = 0
  const all: Found[] = []
  for (const panel of panelWays(task.of)) {
    const found = withPanel(task, panel)
    tried += found.tried
    all.push(found)
  }
  const best = all.toSorted((a, b) => a.fails.length - b.fails.length || a.costMoney - b.costMoney)[0]!
  const least = withoutIdle(task, best)
  return { ...least, tried: tried + least.tried }
}

/** Renewed parts of circuits that stand, each tried as built once more, the dearest first: what nothing fails without is kept after all. */
function withoutIdle(task: SearchTask, found: Found): Found {
  const { of, shop } = task
  const parts = of.whole.circuits.flatMap((c) => {
    const row = of.built.circuits[of.rowOf.get(c.id) ?? -1]
    const forced = row === undefined ? PARTS : forcedParts(c, row)
    const cords = c.cords.filter((cord) => of.cordOf.has(cord.plug)).map((cord) => `${cord.plug}/cord`)
    return [...PARTS.filter((p) => p !== 'cord' && !forced.includes(p)).map((p) => `${c.id}/${p}`), ...cords]
  })
  const money = (key: string) => pricedMaterials(keyMaterials(of, key, found.keys), shop.prices).totalMoney
  const order = parts.filter((key) => found.keys.has(key)).toSorted((a, b) => money(b) - money(a) || (a < b ? -1 : 1))
  let best = { ...found, tried: 0 }
  for (const key of order) {
    const keys = new Set([...best.keys].filter((k) => k !== key))
    const assessment = judgedWith(task, keys)
    const fails = failsOf(task, assessment).map(nameOf)
    const tried = best.tried + 1
    best =
      fails.length <= found.fails.length ? { keys, assessment, fails, costMoney: costOf(task, keys), tried } : { ...best, tried }
  }
  return best
}

/**
 * What may be done with the panel. One of fewer lines than the supply, or built for fewer volts, is out: a design has no words for a
 * panel on two lines of three.
 * A device is listed for the panel it stands in: with a new panel every device is new (common practice).
 */
function panelWays(of: Standing): readonly (readonly string[])[] {
  const { built, whole } = of
  const short =
    new Set(whole.circuits.flatMap((c) => c.legs)).size > of.legs || lineVolts(of.job.system) > lineVolts(built.system)
  const used = whole.circuits.reduce((n, c) => n + c.ways.length, 0)
  const spares = [...of.spares].map(([row]) => `spare/${row}`)
  const spareWays = [...of.spares].reduce((n, [row, count]) => n + count * built.circuits[row]!.poles, 0)
  const cut = used + spareWays > built.ways ? spares : []
  const breakers = [...of.rowOf.keys()].map((id) => `${id}/breaker`)
  const renewed = ['panel', 'main', ...breakers, ...spares]
  // The busbars were not told: taken to bear the main as built, and no larger one.
  const mains = whole.panel.main.ratingA <= built.serviceA ? [['main', ...cut]] : []
  return short ? [renewed] : [cut, ...mains, renewed]
}

/** Volts between lines, of the name of a system: `wye 208/120`, `split 120/240`. */
const lineVolts = (system: string): number => Math.max(...[...system.matchAll(/\d+/g)].map((m) => Number(m[0])), 0)

function withPanel(task: SearchTask, panel: readonly string[]): Found {
  const { of } = task
  const fixed = [...panel, ...alwaysDone(task)]
  const ladders = new Map(of.whole.circuits.map((c) => [c.id, ladderOf(task, c)] as const))
  const rung = new Map([...ladders.keys()].map((id) => [id, 0]))
  const keysNow = () => new Set([...fixed, ...[...ladders].flatMap(([id, ladder]) => ladder[rung.get(id)!]!)])
  for (let round = 1; ; round++) {
    const keys = keysNow()
    const assessment = judgedWith(task, keys)
    const fails = failsOf(task, assessment)
    const subjects = new Set(fails.map((f) => f.subject))
    const stuck = of.whole.circuits.filter((c) => {
      const ladder = ladders.get(c.id)
      return ladder !== undefined && rung.get(c.id)! + 1 < ladder.length && [c.id, ...c.plugs].some((name) => subjects.has(name))
    })
    if (stuck.length === 0 || round > MOST_ROUNDS)
      return { keys, assessment, fails: fails.map(nameOf), costMoney: costOf(task, keys), tried: round }
    for (const c of stuck) rung.set(c.id, rung.get(c.id)! + 1)
  }
}

/** What is done whatever the panel becomes: what no part as built could serve, what the findings on its state ask, and what stayed at the old place. */
function alwaysDone({ of }: SearchTask): readonly string[] {
  const { built, job, exitsM } = of
  const coldC = job.site.designMinC
  const missing = of.whole.circuits.filter((c) => !of.rowOf.has(c.id)).map((c) => `${c.id}/add`)
  const cords = of.whole.circuits
    .flatMap((c) => c.cords)
    .filter((cord) => cord.sharedWith === undefined && !of.cordOf.has(cord.plug))
    .map((cord) => `${cord.plug}/cord`)
  const old = built.cords.flatMap((c, i) =>
    coldC !== null && c.jacketMarkedC !== null && c.jacketMarkedC > coldC ? [`old cord/${i}`] : [],
  )
  const cold = built.outletDeviceMinC !== null && coldC !== null && coldC < built.outletDeviceMinC ? ['outlet devices'] : []
  const exits = exitsM === null ? [] : ['cord exits']
  return [...missing, ...cords, ...old, ...cold, ...exits, ...built.defects.map((_, i) => `defect/${i}`), 'full test']
}

/** Parts that were not told so that they can be judged: never taken as good. */
function forcedParts(c: Circuit, row: BuiltBox['circuits'][number]): readonly Part[] {
  const shock = shockTold(row.shock) === null && c.shock.kind !== 'none'
  return [...(wireTold(row.conductor) === null ? (['wire'] as const) : []), ...(shock ? (['shock'] as const) : [])]
}

/** Sets of parts of one circuit to be renewed, cheapest first; none of them first. A part that was not told readably is always renewed. */
function ladderOf(task: SearchTask, c: Circuit): readonly (readonly string[])[] {
  const { of } = task
  const row = of.built.circuits[of.rowOf.get(c.id) ?? -1]
  const forced = row === undefined ? [] : forcedParts(c, row)
  const cords = c.cords.filter((cord) => of.cordOf.has(cord.plug)).map((cord) => `${cord.plug}/cord`)
  // A circuit that is added is new in all but a cord that may serve.
  const free = PARTS.filter((p) => (p === 'cord' ? cords.length > 0 : row !== undefined && !forced.includes(p)))
  const sets = Array.from({ length: 1 << free.length }, (_, bits) => [...forced, ...free.filter((_p, i) => (bits >> i) & 1)])
  return sets
    .map((parts) => ({
      parts,
      cost: pricedMaterials(
        parts.flatMap((p) => partMaterials(of, c, p)),
        task.shop.prices,
      ).totalMoney,
    }))
    .toSorted((a, b) => a.cost - b.cost || a.parts.length - b.parts.length || (a.parts.join() < b.parts.join() ? -1 : 1))
    .map(({ parts }) => parts.flatMap((p) => (p === 'cord' ? cords : [`${c.id}/${p}`])))
}

const BRANCH: ReadonlySet<string> = new Set([
  'branch circuits',
  'outlets',
  'connections',
  'shock protection',
  'the box itself',
  'cords',
  'feeder to another box',
])
const OF_PART: Readonly<Record<Part, RegExp>> = {
  device: /^(device|interrupting)\//,
  wire: /^(conductor|raceway)\//,
  outlet: /^outlet\//,
  shock: /^shock\//,
  cord: /^cord/,
}

/** Rows for work are flat sums in the price table; hours are another matter, so they stand in no change list. */
const withoutWork = (needs: readonly Material[]): readonly Material[] => needs.filter((n) => !n.id.startsWith('work/'))

/** Everything of a circuit that is bought when it is added. */
export function circuitMaterials(of: Standing, c: Circuit): readonly Material[] {
  return withoutWork(materialsOf({ ...of.whole, circuits: [c] })).filter((n) => BRANCH.has(n.for))
}

export function partMaterials(of: Standing, c: Circuit, part: Part): readonly Material[] {
  return circuitMaterials(of, c).filter((n) => OF_PART[part].test(n.id))
}

/** A device as it was built, of the interrupting rating the new panel asks. */
export function breakerMaterials(of: Standing, c: Circuit): readonly Material[] {
  const ratingA = of.built.circuits[of.rowOf.get(c.id)!]!.deviceA
  return partMaterials(of, { ...c, device: { ...c.device, ratingA } }, 'device')
}

/** Material of the whole box that is for one use: `panel`, `main`, `feed`. */
export function boxMaterials(of: Standing, ...uses: readonly string[]): readonly Material[] {
  return withoutWork(materialsOf(of.whole)).filter((n) => uses.includes(n.for))
}

/** Material of a box built new. */
export const freshMaterials = (box: BoxDesign): readonly Material[] => withoutWork(materialsOf(box))

/** What one key buys. */
export function keyMaterials(of: Standing, key: string, all: ReadonlySet<string>): readonly Material[] {
  if (key === 'panel' || key === 'main') return boxMaterials(of, key)
  if (key === 'outlet devices') return keptShock(of, all).flatMap((c) => partMaterials(of, c, 'shock'))
  const [id = '', part = ''] = [key.slice(0, key.lastIndexOf('/')), key.slice(key.lastIndexOf('/') + 1)]
  if (part === 'cord') {
    const c = of.whole.circuits.find((one) => one.cords.some((cord) => cord.plug === id))
    return c === undefined ? [] : partMaterials(of, { ...c, cords: c.cords.filter((cord) => cord.plug === id) }, 'cord')
  }
  const c = of.whole.circuits.find((one) => one.id === id)
  if (c === undefined) return []
  if (part === 'add') return circuitMaterials(of, { ...c, cords: [] })
  // A device of another rating is bought once, not beside a like one.
  if (part === 'breaker') return all.has(`${id}/device`) ? [] : breakerMaterials(of, c)
  return PARTS.includes(part as Part) ? partMaterials(of, c, part as Part) : []
}

/** Circuits whose shock protection as built is kept. */
export function keptShock(of: Standing, keys: ReadonlySet<string>): readonly Circuit[] {
  return of.whole.circuits.flatMap((c) => {
    const row = of.built.circuits[of.rowOf.get(c.id) ?? -1]
    const shock = row === undefined || keys.has(`${c.id}/shock`) ? null : shockTold(row.shock)
    return shock === null || shock.kind === 'none' ? [] : [{ ...c, shock, device: { ...c.device, ratingA: row!.deviceA } }]
  })
}

function costOf({ of, shop }: SearchTask, keys: ReadonlySet<string>): number {
  return pricedMaterials(
    [...keys].flatMap((key) => keyMaterials(of, key, keys)),
    shop.prices,
  ).totalMoney
}
