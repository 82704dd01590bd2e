import { assess, rulesOf, type Shop } from '../assess/index.ts'
import { boxBody } from '../box/index.ts'
import { answerHaul, designHaul } from '../haul/index.ts'
import { type Design, type Job, jobAsDesigned } from '../job/index.ts'
import { standsFindings } from '../keep/index.ts'
import { type Finding, type Memory, newMemory, power, type Verdict, worst } from '../kernel/index.ts'
import { type Model, modelMassKg } from '../parts/index.ts'
import { asBuilt, judgedAsItStands, type PlanResult, plan } from '../plan/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { INSTALLED, labelOf } from './papers.ts'
import { CORD_M, FULL_FRAC, feedOf, MILD_FRAC, MILD_MAX_C, MILD_MIN_C, mildProbe, type Probe, probeJob } from './probe.ts'

/** How far one thing may go before `assess` has something against the model; everything else mild. */
export interface Limit {
  /** `fault level`, `cord reach 5-20R`. */
  readonly name: string
  readonly unit: string
  /** Furthest that holds; null: not even the mildest does. */
  readonly value: number | null
  /** It holds to the end of what was tried: it reaches at least this far. */
  readonly toTheEnd: boolean
  /** What fails next beyond it. */
  readonly fails: readonly string[]
  readonly judgedCount: number
}

export interface LimitVerdict {
  readonly name: string
  readonly verdict: Verdict
  /** Why it is not `holds`. */
  readonly codes: readonly string[]
  /** What nobody told, by name: why it is `unknown`. */
  readonly missing: readonly string[]
  /** Who decides in the end. */
  readonly decides: string | null
}

/** What a model is good for: nothing of it is typed. */
export interface ModelLimits {
  readonly model: string
  readonly revision: string
  readonly massKg: number
  readonly limits: readonly Limit[]
  readonly lift: readonly LimitVerdict[]
  readonly papers: readonly LimitVerdict[]
  /** Fails in the mildest place: the model itself is not sound. */
  readonly failsMild: readonly string[]
  readonly judgedCount: number
}

export interface Bench {
  readonly model: Model
  readonly shop: Shop
  readonly rules: RuleSet
  readonly fresh: PlanResult
  readonly design: Design
  readonly mildest: Probe
  /** What fails in the mildest place. */
  readonly mild: ReadonlySet<string>
  readonly memory: Memory
}

/** One thing that is moved, from what asks least to what asks most. */
interface Case {
  readonly name: string
  readonly unit: string
  readonly from: number
  readonly to: number
  /** Steps are looked at first, then the one in which it fails is halved: a limit that comes and goes is not passed over unseen. */
  readonly at: (probe: Probe, value: number) => Probe
  /** Layout is judged too. */
  readonly laidOut?: boolean
  /** Only the way it is lifted, hauled and set down is asked. */
  readonly onlyHaul?: boolean
  readonly digits: number
}

const STEPS = 6
const HALVINGS = 7
/** @throws Fault `rank/system-unknown` · `rank/probe` */
export function modelLimits(model: Model, shop: Shop): ModelLimits {
  const bare = benchOf(model, shop)
  if (bare === null) return { ...headOf(model), limits: [], lift: [], papers: [], failsMild: ['keep/no-box'], judgedCount: 1 }
  const { rules, mildest } = bare
  // Circuits are judged without the layout: the raceways of the probe's own plan are not those in which the model's wires lie.
  const mildFails = failing(bare, mildest, false)
  const bench = { ...bare, mild: new Set([...mildFails, ...failing(bare, mildest, true)]) }
  const places = casesOf(model, rules).map((c) => limitOf(bench, mildest, c))
  const handled = LIFT_WAYS.map((way) => ({ way, bench: loadedFor(bench, { ...mildest, setDown: way }) }))
  const lift = handled.map((h) => liftVerdict(h.bench, { ...mildest, setDown: h.way }, h.way))
  const masses = handled
    .filter((_, i) => lift[i]!.verdict !== 'fails')
    .map((h) => limitOf(h.bench, { ...mildest, setDown: h.way }, massCase(model, h.way)))
  const limits = [...places, ...masses]
  const papers = papersOf(bench, mildest)
  return {
    ...headOf(model),
    ...{ limits, lift, papers },
    // What a layout of this probe lacks is the plan's own trouble, not the model's.
    failsMild: mildFails.filter((code) => !/^(fit|skin|haul|shop)\//.test(code)),
    judgedCount: 3 + limits.reduce((n, l) => n + l.judgedCount, 0) + lift.length + INSTALLED.length,
  }
}

/** A model in its probe call, in the mildest place. Null: the call wants no box. */
export function benchOf(model: Model, shop: Shop): Bench | null {
  const mildest = mildProbe(model)
  const probe = probeJob(model, mildest, { ...rulesOfModel(model, shop) })
  const rules = rulesOf(probe, shop)
  const fresh = plan(probe, shop, undefined, { withoutAir: true })
  const box = asBuilt(probe, { built: model.built, body: model.body }, fresh, shop, rules)
  if (box === null) return null
  const design = withCallsOwn(asDelivered(judgedAsItStands(box).design, model), model, shop, rules)
  return { model, shop, rules, fresh, design, mildest, mild: new Set(), memory: newMemory() }
}

/** Every device in a board breaks what the board is sold for, those of the box's own light and heater too. */
function asDelivered(design: Design, model: Model): Design {
  const { interruptingKA } = model.built
  const boxes = design.boxes.map((b) => ({
    ...b,
    circuits: b.circuits.map((c) => ({ ...c, device: { ...c.device, interruptingKA } })),
  }))
  return { ...design, boxes }
}

/** Feed and cords as a plan takes them for the fullest machine on each outlet, on a service twice the main: they belong to the call. */
function withCallsOwn(design: Design, model: Model, shop: Shop, rules: RuleSet): Design {
  const full = plan(probeJob(model, { ...mildProbe(model, 1), serviceA: 2 * model.built.serviceA }, rules), shop, undefined, {
    withoutAir: true,
  }).design
  const sizes = new Map(full.boxes.flatMap((b) => b.circuits.flatMap((c) => c.cords)).map((cord) => [cord.plug, cord.size]))
  const boxes = design.boxes.map((b, i) => ({
    ...b,
    panel: { ...b.panel, feed: full.boxes[i]?.panel.feed ?? b.panel.feed },
    circuits: b.circuits.map((c) => ({
      ...c,
      cords: c.cords.map((cord) => ({ ...cord, size: sizes.get(cord.plug) ?? cord.size })),
    })),
  }))
  return { ...design, boxes }
}

const headOf = (model: Model) => ({ model: model.id, revision: model.revision, massKg: Math.round(modelMassKg(model) * 10) / 10 })

const rulesOfModel = (model: Model, shop: Shop): RuleSet =>
  rulesOf({ rules: { set: model.rules, edition: null, overlays: [] } } as unknown as Job, shop)

function casesOf(model: Model, rules: RuleSet): readonly Case[] {
  const rows = model.built.circuits
  return [
    ...rows.map((r): Case => {
      const { watts } = feedOf(r, model, rules)
      const loadA = mildProbe(model).loadA[r.outlet]!
      return {
        ...{ name: `machine on ${r.outlet}`, unit: 'W', from: watts(loadA), to: watts(r.deviceA), digits: 0 },
        at: (p, w) => ({ ...p, one: { outlet: r.outlet, loadA: w / watts(1), cordM: CORD_M } }),
      }
    }),
    {
      ...{ name: 'all outlets at once', unit: '% of full', from: 100 * MILD_FRAC, to: 100, digits: 0 },
      at: (p, pct) => ({ ...p, loadA: mildProbe(model, pct / 100).loadA }),
    },
    ...rows.map(
      (r): Case => ({
        ...{ name: `cord reach on ${r.outlet}`, unit: 'm', from: CORD_M, to: 240, digits: 0 },
        at: (p, cordM) => ({ ...p, one: { outlet: r.outlet, loadA: FULL_FRAC * r.deviceA, cordM } }),
      }),
    ),
    { name: 'fault level', unit: 'kA', from: 2, to: 100, digits: 1, at: (p, kA) => ({ ...p, faultA: kA * 1000 }) },
    { name: 'coldest', unit: 'C', from: MILD_MIN_C, to: -60, digits: 0, at: (p, c) => ({ ...p, designMinC: c }) },
    { name: 'hottest', unit: 'C', from: MILD_MAX_C, to: 60, digits: 0, at: (p, c) => ({ ...p, designMaxC: c }) },
    {
      name: 'snow on the ground',
      unit: 'kPa',
      from: 0.1,
      to: 20,
      digits: 1,
      laidOut: true,
      at: (p, kPa) => ({ ...p, snowPa: kPa * 1000 }),
    },
    { name: 'depth of snow', unit: 'm', from: 0.02, to: 4, digits: 2, laidOut: true, at: (p, m) => ({ ...p, snowM: m }) },
  ]
}

function limitOf(bench: Bench, mildest: Probe, c: Case): Limit {
  let judgedCount = 0
  const failsAt = (value: number): readonly string[] => {
    judgedCount++
    const probe = c.at(mildest, value)
    const fails =
      c.onlyHaul === true
        ? codesAt(
            hauledAt(bench, probe).filter((f) => f.verdict === 'fails'),
            'fails',
          )
        : failing(bench, probe, c.laidOut === true)
    return fails.filter((code) => !bench.mild.has(code))
  }
  const nth = (i: number) => c.from + ((c.to - c.from) * i) / STEPS
  let good: number | null = null
  let bad: { readonly value: number; readonly fails: readonly string[] } | null = null
  for (let i = 0; i <= STEPS && bad === null; i++) {
    const fails = failsAt(nth(i))
    if (fails.length > 0) bad = { value: nth(i), fails }
    else good = nth(i)
  }
  if (bad === null || good === null)
    return {
      name: c.name,
      unit: c.unit,
      value: good === null ? null : rounded(good, c),
      toTheEnd: bad === null,
      fails: bad?.fails ?? [],
      judgedCount,
    }
  let [holds, not, fails]: [number, number, readonly string[]] = [good, bad.value, bad.fails]
  for (let i = 0; i < HALVINGS; i++) {
    const middle: number = (holds + not) / 2
    const found = failsAt(middle)
    if (found.length === 0) holds = middle
    else [not, fails] = [middle, found]
  }
  // The halves end just short of a limit that is itself allowed: the next whole step is asked for.
  const value = rounded(holds, c)
  const next = value + (c.to > c.from ? 1 : -1) / power(10, c.digits)
  const reached = failsAt(next).length === 0 ? next : value
  return { name: c.name, unit: c.unit, value: Number(reached.toFixed(c.digits)), toTheEnd: false, fails, judgedCount }
}

/** Towards what asks less: a limit that is shown holds. */
function rounded(value: number, { from, to, digits }: Case): number {
  const k = power(10, digits)
  return (to > from ? Math.floor(value * k + 1e-6) : Math.ceil(value * k - 1e-6)) / k
}

/** Codes that fail, once each, the lines of a box as it stands among them. */
function failing(bench: Bench, probe: Probe, laidOut: boolean): readonly string[] {
  const { findings } = judgedAt(bench, probe, laidOut)
  return [...new Set(findings.filter((f) => f.verdict === 'fails').map((f) => f.code))].toSorted()
}

function judgedAt(
  { model, shop, rules, design, fresh, memory }: Bench,
  probe: Probe,
  laidOut: boolean,
): { readonly findings: readonly Finding[] } {
  const job = builtJob(model, probe, rules)
  const metres = new Map(job.plugs.map((p) => [p.tag, p.cordM]))
  const boxes = design.boxes.map((b) => ({
    ...b,
    circuits: b.circuits.map((c) => ({
      ...c,
      cords: c.cords.map((cord) => ({ ...cord, lengthM: metres.get(cord.plug) ?? cord.lengthM })),
    })),
  }))
  const { findings } = assess(job, { ...design, boxes, builds: laidOut ? fresh.design.builds : [] }, shop, {
    withoutAir: true,
    memory,
  })
  const keep = standsFindings({ job, id: model.id, built: model.built, body: model.body, bookings: [], turnRoundDays: 0 })
  // Where it is set down is asked of haul, which weighs it; the list of a box that stands is not told of a model.
  return { findings: [...findings, ...keep.filter((f) => f.code !== 'keep/set-down')] }
}

export const builtJob = (model: Model, probe: Probe, rules: RuleSet): Job => ({
  ...probeJob(model, probe, rules),
  built: model.built,
  builtBody: probe.massKg === null ? model.body : { ...model.body, weighedKg: probe.massKg },
})

/** Ways that the words of a site may name. */
const LIFT_WAYS = ['tilt-bed', 'crane', 'forks', 'side-lift'] as const

/** Lifted, lashed and set down as a plan would for the way that the site names. */
function loadedFor(bench: Bench, probe: Probe): Bench {
  const { model, rules, fresh, shop, design } = bench
  const job = builtJob(model, probe, rules)
  const builds = fresh.design.builds.map((build) => {
    const wanted = job.boxes.find((b) => b.id === build.box)
    if (wanted === undefined) return build
    const boxes = design.boxes.filter((b) => b.box === build.box)
    const steel = { body: boxBody(wanted, null), fit: build.fit, skin: build.skin, air: build.air }
    return { ...build, haul: designHaul({ job, ...steel, rules, boxes, prices: shop.prices }) }
  })
  return { ...bench, fresh: { ...fresh, design: { ...fresh.design, builds } } }
}

/** Where the scale and the layout differ says nothing: the layout is that of the probe, not of the model. The heavier of both is lifted. */
const OF_LAYOUT = 'haul/mass'

/** The question of hauling alone, as `assess` asks it. */
function hauledAt({ model, rules, fresh, design: given }: Bench, probe: Probe): readonly Finding[] {
  const design = { ...given, builds: fresh.design.builds }
  const job = jobAsDesigned(builtJob(model, probe, rules), design)
  const bodies = Object.fromEntries(job.boxes.map((b) => [b.id, boxBody(b, null)]))
  return answerHaul({ job, design, bodies, rules }).findings
}

function liftVerdict(bench: Bench, probe: Probe, name: string): LimitVerdict {
  const own = hauledAt(bench, probe).filter((f) => f.code !== OF_LAYOUT)
  const verdict = worst(own.map((f) => f.verdict))
  const missing = [...new Set(own.filter((f) => f.verdict === 'unknown').map((f) => f.said))]
  return { name, verdict, codes: codesAt(own, verdict), missing, decides: 'the appointed lifting person' }
}

/** How heavy it may get, all that hangs in it counted, before a way of setting it down has something against it. */
function massCase(model: Model, way: string): Case {
  const from = Math.ceil(headOf(model).massKg)
  return {
    name: `mass, set down by ${way}`,
    unit: 'kg',
    from,
    to: 35_000,
    digits: 0,
    onlyHaul: true,
    at: (p, kg) => ({ ...p, massKg: kg }),
  }
}

const codesAt = (findings: readonly Finding[], verdict: Verdict): readonly string[] =>
  verdict === 'holds' ? [] : [...new Set(findings.filter((f) => f.verdict === verdict).map((f) => f.code))].toSorted()

/** Under its own rules: each kind of installation by `assess`, a label and a building by what its sheets say. Under others it is drawn anew. */
function papersOf(bench: Bench, mildest: Probe): readonly LimitVerdict[] {
  const { model } = bench
  const { rules } = model
  const installed = INSTALLED.map((as): LimitVerdict => {
    const { findings } = judgedAt(bench, { ...mildest, temporary: as === 'temporary' }, false)
    const own = findings.filter((f) => OF_INSTALLATION.has(f.question) && f.basis !== 'house' && !bench.mild.has(f.code))
    const verdict = worst(own.map((f) => f.verdict))
    const missing = [...new Set(own.filter((f) => f.verdict === 'unknown').map((f) => f.said))]
    return {
      ...{ name: `${rules}, ${as} installation`, verdict, codes: codesAt(own, verdict), missing },
      decides: 'the authority having jurisdiction',
    }
  })
  const others = (['us', 'ca', 'intl'] as const).filter((set) => set !== rules)
  return [
    ...installed,
    ...labelOf(model),
    ...others.map((set): LimitVerdict => ({ name: set, verdict: 'fails', codes: ['keep/rules'], missing: [], decides: null })),
  ]
}

/** Questions that ask whether it stands there for good. */
const OF_INSTALLATION: ReadonlySet<string> = new Set(['circuits', 'faults'])
