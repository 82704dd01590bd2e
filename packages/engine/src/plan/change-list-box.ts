import type { BoxDesign, BuiltBox, Circuit, Design, Job, Run, Shock, Wire } from '../job/index.ts'
import type { Finding } from '../kernel/index.ts'
import { outletCount } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'

/** A design and what was found of it. */
export interface Planned {
  readonly design: Design
  readonly assessment: { readonly findings: readonly Finding[] }
}

export type Part = 'device' | 'wire' | 'outlet' | 'shock' | 'cord'

/** A box that stands beside the fresh design for its new place: which circuit as built could serve as which of the design. */
export interface Standing {
  readonly job: Job
  readonly built: BuiltBox
  readonly box: string
  /** What is bought in it breaks no less than what stands must. */
  readonly fresh: Design
  /** The fresh design of this box with every circuit of every phase. */
  readonly whole: BoxDesign
  /** Row of `built.circuits` by circuit. */
  readonly rowOf: ReadonlyMap<string, number>
  /** Circuits as built that nothing of the design needs, by row. */
  readonly spares: ReadonlyMap<number, number>
  /** Position in `built.cords` by plug. */
  readonly cordOf: ReadonlyMap<string, number>
  /** Lines of the panel as built: poles of its main. */
  readonly legs: 1 | 2 | 3
  /** Height the lowest cord exit must have here; null: it is high enough, or nobody told one. */
  readonly exitsM: number | null
}

/** Receptacles whose smaller plug goes in as it is. @source NEMA WD 6, T-slot of the 20 A form. Provenance: memory */
const TAKES: Readonly<Record<string, string>> = { '5-15R': '5-20R', '6-15R': '6-20R' }
/** Lines by connection, as poles of a device. */
const POLES: Readonly<Record<Circuit['connection'], 1 | 2 | 3>> = { LN: 1, LL: 2, LLN: 2, LLL: 3, LLLN: 3 }
const CORES: Readonly<Record<Circuit['connection'], number>> = { LN: 3, LL: 3, LLN: 4, LLL: 4, LLLN: 5 }

/** Pairs circuits and cords: the same outlet first, then one that takes the plug as it is; ties by name. */
export function standingOf(job: Job, built: BuiltBox, box: string, planned: Planned, rules: RuleSet): Standing {
  const leastKA = leastInterruptingKA(built, box, planned.assessment.findings, rules)
  const boxes = planned.design.boxes.map((b) => (b.box === box ? breaking(b, leastKA) : b))
  const fresh = { ...planned.design, boxes }
  const whole = wholeOf(boxes.filter((b) => b.box === box))
  const left = built.circuits.map((c) => c.count)
  const rowOf = new Map<string, number>()
  const wanted = whole.circuits
    .filter((c) => (c.own === null || c.own === 'receptacle') && outletCount(c) === 1)
    .toSorted((a, b) => b.device.ratingA - a.device.ratingA || (a.id < b.id ? -1 : 1))
  for (const fits of [(o: string, c: Circuit) => o === c.outlet, (o: string, c: Circuit) => TAKES[c.outlet] === o]) {
    for (const c of wanted) {
      if (rowOf.has(c.id)) continue
      const row = built.circuits.findIndex((r, i) => left[i]! > 0 && fits(r.outlet, c) && r.poles === POLES[c.connection])
      if (row < 0) continue
      rowOf.set(c.id, row)
      left[row]! -= 1
    }
  }
  const panel = rules.systems.find((s) => s.id === built.system)
  return {
    ...{ job, built, box, fresh, whole, rowOf },
    spares: new Map(left.flatMap((n, i) => (n > 0 ? [[i, n] as const] : []))),
    cordOf: cordsFor(job, built, whole),
    legs: (panel?.legs.length ?? 2) as 1 | 2 | 3,
    exitsM: lowExitsM(box, planned.assessment.findings),
  }
}

function lowExitsM(box: string, findings: readonly Finding[]): number | null {
  const low = findings.find((f) => f.code === 'skin/built-exit-height' && f.subject === box && f.verdict === 'fails')
  return typeof low?.limit?.value === 'number' ? low.limit.value : null
}

/**
 * What is bought for the box breaks the highest fault at its point of supply, as what stands in it is judged, and no less than what stood
 * there where that was enough: a fresh design may count on its own feed, a box that is moved again may not.
 */
function leastInterruptingKA(built: BuiltBox, box: string, findings: readonly Finding[], rules: RuleSet): number {
  const highest = findings.find((f) => f.code === 'faults/built-interrupting' && f.subject === box)?.demand?.value
  if (typeof highest !== 'number') return 0
  const system = rules.systems.find((s) => s.id === built.system)
  const step = system === undefined ? undefined : rules.interruptingStepsKA(system, true).find((kA) => kA * 1000 >= highest)
  return step ?? built.interruptingKA
}

function breaking(box: BoxDesign, leastKA: number): BoxDesign {
  const atLeast = <T extends { readonly interruptingKA: number }>(of: T): T => ({
    ...of,
    interruptingKA: Math.max(of.interruptingKA, leastKA),
  })
  return {
    ...box,
    panel: { ...atLeast(box.panel), main: atLeast(box.panel.main) },
    circuits: box.circuits.map((c) => ({ ...c, device: atLeast(c.device) })),
  }
}

/** Every circuit once, as it is in the phase where it feeds most. */
export function wholeOf(phases: readonly BoxDesign[]): BoxDesign {
  const circuits = new Map<string, Circuit>()
  for (const c of phases.flatMap((b) => b.circuits)) {
    const had = circuits.get(c.id)
    if (had === undefined || c.plugs.length > had.plugs.length) circuits.set(c.id, c)
  }
  return { ...phases[0]!, circuits: [...circuits.values()] }
}

/** A cord as built serves where its mark is known to bear the cold and it is long enough; the shortest that does. Its size is judged later. */
function cordsFor(job: Job, built: BuiltBox, whole: BoxDesign): ReadonlyMap<string, number> {
  const left = built.cords.map((c) => c.count)
  const out = new Map<string, number>()
  const coldC = job.site.designMinC
  const wanted = whole.circuits
    .flatMap((c) => c.cords.filter((cord) => cord.sharedWith === undefined).map((cord) => ({ cord, cores: CORES[c.connection] })))
    .toSorted((a, b) => b.cord.lengthM - a.cord.lengthM || (a.cord.plug < b.cord.plug ? -1 : 1))
  for (const { cord, cores } of wanted) {
    const fits = built.cords
      .map((c, i) => ({ c, i }))
      .filter(({ c, i }) => left[i]! > 0 && coldC !== null && c.jacketMarkedC !== null && c.jacketMarkedC <= coldC)
      .filter(({ c }) => c.lengthM >= cord.lengthM && Number(c.size.split('/')[1]) === cores)
      .toSorted((a, b) => a.c.lengthM - b.c.lengthM || a.i - b.i)[0]
    if (fits === undefined) continue
    out.set(cord.plug, fits.i)
    left[fits.i]! -= 1
  }
  return out
}

/** Conductor as told; null when size or metal was not told. */
export function wireTold(told: string): { readonly size: string; readonly metal: 'cu' | 'al' } | null {
  const read = /^\s*(\d+(?:\.\d+)?(?:\/0)?)\s*(AWG|kcmil|mm2|mm²)\s+(copper|cu|aluminium|aluminum|al)\b/i.exec(told)
  if (read === null) return null
  const unit = /^awg$/i.test(read[2]!) ? 'AWG' : /^kcmil$/i.test(read[2]!) ? 'kcmil' : 'mm2'
  return { size: `${read[1]} ${unit}`, metal: /^c/i.test(read[3]!) ? 'cu' : 'al' }
}

/** Shock protection as told; null when the words name no device that is known. */
export function shockTold(told: string): Shock | null {
  if (/^\s*(none|no)\b/i.test(told)) return { kind: 'none', sensitivityMA: null, form: null }
  if (/class a\b/i.test(told)) return { kind: 'class A', sensitivityMA: 5, form: null }
  const mA = Number(/(\d+)\s*mA/i.exec(told)?.[1] ?? 0)
  if (/\b(rcd|rccb|rcbo)\b/i.test(told)) {
    const form = /\b(AC|A|F|B)\b/.exec(told)?.[1] as Shock['form'] | undefined
    return form === undefined || mA === 0 ? null : { kind: 'rcd', sensitivityMA: mA, form }
  }
  return mA === 30 ? { kind: 'equipment 30 mA', sensitivityMA: 30, form: null } : null
}

const NO_SHOCK: Shock = { kind: 'none', sensitivityMA: null, form: null }

/**
 * The box once the changes named by `keys` are done and no other: the job with the box as it then stands, and the design that says the
 * same. What is kept has the ratings it was built with; what nobody told of a kept circuit (insulation, raceway) is as the fresh design has it.
 */
export function changedBox(of: Standing, keys: ReadonlySet<string>): { readonly job: Job; readonly design: Design } {
  const boxes = of.fresh.boxes.map((b) => (b.box === of.box ? changedPhase(of, keys, b) : b))
  const circuits = changedPhase(of, keys, of.whole)
  const moved = new Map(circuits.circuits.flatMap((c) => changedPlugs(of, c).map((plug) => [plug, c.outlet] as const)))
  const plugs = of.job.plugs.map((p) => ({ ...p, outlet: moved.get(p.tag) ?? p.outlet }))
  const body = of.job.builtBody
  const raised = body !== null && of.exitsM !== null && keys.has('cord exits')
  const builtBody = raised ? { ...body, lowestExitM: of.exitsM } : body
  return {
    job: { ...of.job, plugs, built: builtAfter(of, keys, circuits), builtBody },
    design: { ...of.fresh, boxes },
  }
}

/** Plugs whose machine asked another outlet than the one that is to stand: the plug of its cord changes with it. */
function changedPlugs(of: Standing, c: Circuit): readonly string[] {
  return c.plugs.filter((tag) => {
    const asked = of.job.plugs.find((p) => p.tag === tag)?.outlet
    return asked !== undefined && asked !== c.outlet && TAKES[asked] !== c.outlet
  })
}

function changedPhase(of: Standing, keys: ReadonlySet<string>, fresh: BoxDesign): BoxDesign {
  const { built } = of
  const panelNew = keys.has('panel')
  const mainNew = keys.has('main')
  const asBuilt = { ...fresh.panel.main, ratingA: built.serviceA, poles: of.legs, interruptingKA: built.interruptingKA }
  const panel = {
    ...fresh.panel,
    busA: panelNew ? fresh.panel.busA : built.serviceA,
    ways: panelNew ? fresh.panel.ways : built.ways,
    interruptingKA: panelNew ? fresh.panel.interruptingKA : built.interruptingKA,
    main: mainNew ? fresh.panel.main : asBuilt,
  }
  const circuits = fresh.circuits.flatMap((c) => changedCircuit(of, keys, c) ?? [])
  return { ...fresh, panel, circuits, serviceA: panel.main.ratingA }
}

/** Null: the circuit does not stand and is not added. */
function changedCircuit(of: Standing, keys: ReadonlySet<string>, c: Circuit): Circuit | null {
  const at = of.rowOf.get(c.id)
  const cords = c.cords.flatMap((cord) => {
    if (keys.has(`${cord.plug}/cord`) || cord.sharedWith !== undefined) return [cord]
    const had = of.built.cords[of.cordOf.get(cord.plug) ?? -1]
    if (had === undefined) return []
    return [{ ...cord, size: `${had.size.split('/')[0]} AWG`, lengthM: had.lengthM, jacketMinC: had.jacketMarkedC }]
  })
  if (at === undefined) return keys.has(`${c.id}/add`) ? { ...c, cords } : null
  const row = of.built.circuits[at]!
  const kA = keys.has(`${c.id}/breaker`) ? c.device.interruptingKA : of.built.interruptingKA
  const device = keys.has(`${c.id}/device`) ? c.device : { ...c.device, ratingA: row.deviceA, interruptingKA: kA }
  return {
    ...c,
    cords,
    device,
    run: keys.has(`${c.id}/wire`) ? c.run : keptRun(c.run, row.conductor),
    outlet: keys.has(`${c.id}/outlet`) ? c.outlet : row.outlet,
    shock: keys.has(`${c.id}/shock`) ? c.shock : (shockTold(row.shock) ?? NO_SHOCK),
  }
}

/** Neutral and protective conductor were not told: taken as large as the line, and on the list to be looked at. */
function keptRun(run: Run, told: string): Run {
  const wire = wireTold(told)
  if (wire === null) return run
  const same = (of: Wire | null) => (of === null ? null : { ...of, ...wire })
  // A raceway is taken as the fresh design has it only for the same conductors.
  const raceway = wire.size === run.line.size && wire.metal === run.line.metal ? run.raceway : null
  return {
    line: { ...run.line, ...wire },
    neutral: same(run.neutral),
    protective: same(run.protective),
    raceway,
    lengthM: run.lengthM,
    sets: 1,
  }
}

function builtAfter(of: Standing, keys: ReadonlySet<string>, after: BoxDesign): BuiltBox {
  const { built } = of
  const rows = after.circuits
    .map((c) => ({
      outlet: c.own === null || c.own === 'receptacle' ? c.outlet : c.id,
      count: c.ways.length === 0 ? 1 : outletCount(c),
      deviceA: c.device.ratingA,
      poles: POLES[c.connection],
      conductor: `${c.run.line.size} ${c.run.line.metal === 'cu' ? 'copper' : 'aluminium'}`,
      shock: c.shock.kind,
    }))
    .toSorted((a, b) => b.deviceA - a.deviceA)
  const spares = [...of.spares].filter(([row]) => !keys.has(`spare/${row}`))
  const kA = [
    after.panel.interruptingKA,
    after.panel.main.interruptingKA,
    ...after.circuits.map((c) => c.device.interruptingKA),
    ...(spares.length > 0 ? [built.interruptingKA] : []),
  ]
  return {
    ...built,
    system: keys.has('panel') ? of.job.system : built.system,
    serviceA: after.panel.main.ratingA,
    interruptingKA: Math.min(...kA),
    ways: after.panel.ways,
    circuits: [...rows, ...spares.map(([row, count]) => ({ ...built.circuits[row]!, count }))],
    cords: built.cords.filter((_, i) => !keys.has(`old cord/${i}`)),
    // What stands instead has to be told before it is judged.
    outletDeviceMinC: keys.has('outlet devices') ? null : built.outletDeviceMinC,
    lastFullTestMonthsAgo: keys.has('full test') ? 0 : built.lastFullTestMonthsAgo,
    defects: built.defects.filter((_, i) => !keys.has(`defect/${i}`)),
  }
}
