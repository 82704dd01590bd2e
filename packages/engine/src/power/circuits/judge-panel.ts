import { allOnByHand, type Leg } from '../../job/index.ts'
import { abs, acos, add, type Complex, polar, put, type Step, source, step, type Verdict } from '../../kernel/index.ts'
import { type BalanceItem, type BalanceTask, balancedLegs, peakBoundA } from './balance.ts'
import { type BoxView, type LegSum, legSums } from './box-view.ts'
import { type Check, shown, upper, worded } from './check.ts'
import { connectionOf, legOptions, outletOf } from './connection.ts'
import { SLOTS } from './loads.ts'
import { MOST_INSIDE_C } from './request.ts'
import type { Balance } from './result.ts'
import { legOfWay, spareWanted } from './ways.ts'

/** Legs may differ by this share with everything on. @source trade rule. Provenance: common practice */
const IMBALANCE_FRAC = 0.1
/** Below this current on the worst leg, share of the main, an imbalance says nothing. House rule. */
const SMALL_LOAD_FRAC = 0.1

export interface LegsJudged {
  readonly sums: ReadonlyMap<Leg, LegSum>
  readonly balance: Balance
  readonly checks: readonly Check[]
}

/** Legs hour by hour: the worst of the day against the least there is, and the neutral. */
export function judgedLegs(view: BoxView): LegsJudged {
  const sums = legSums(view)
  const all = [...sums.values()]
  const allOn = all.map((s) => s.allOnA)
  const peaks = all.map((s) => Math.max(0, ...s.profileA))
  const peakA = Math.max(0, ...peaks)
  const task = balanceTask(view)
  const boundA = peakBoundA(task)
  const atPeak = worstSlot(all, peakA)
  const imbalance = (values: readonly number[]) => {
    const mean = values.reduce((s, v) => s + v, 0) / Math.max(1, values.length)
    return mean > 0 ? (Math.max(...values) - mean) / mean : 0
  }
  const allOnImbalanceFrac = imbalance(allOn)
  const neutralWorstA = Math.max(0, ...all.map((s) => s.neutralA))
  const balance: Balance = {
    allOnImbalanceFrac,
    peakImbalanceFrac: imbalance(atPeak),
    peakA,
    peakBoundA: Math.min(boundA, peakA),
    proven: peakA <= boundA * (1 + 1e-6) + ROUNDED_A,
    neutralStagedA: neutralStaged(view),
    neutralWorstA,
  }
  if (view.system.legs.length < 2 || view.circuits.length === 0) return { sums, balance, checks: [] }
  const rests = source('legs within 10 % of their mean', 'common practice')
  const small = Math.max(0, ...allOn) < SMALL_LOAD_FRAC * view.box.panel.main.ratingA
  const even = allOnImbalanceFrac <= IMBALANCE_FRAC || small
  const verdict: Verdict = even || worstAllOn(sums) <= leastAllOnA(task) * (1 + 1e-6) + ROUNDED_A ? 'holds' : 'tight'
  const steps: Step[] = [
    ...view.system.legs.map((leg) =>
      step(
        `I${leg}`,
        'sum of the currents on the leg, everything on',
        [put('n', view.circuits.filter((c) => c.circuit.legs.includes(leg)).length)],
        sums.get(leg)?.allOnA ?? 0,
        'A',
        source('list of circuits', 'computed'),
      ),
    ),
    step(
      'u',
      '(largest − mean)/mean, everything on',
      allOn.map((a, i) => put(`I${view.system.legs[i]}`, a, 'A')),
      allOnImbalanceFrac,
      '',
      source('definition', 'computed'),
    ),
    step(
      'peak',
      'largest leg of the 96 quarter hours as staged',
      [put('legs', view.system.legs.join(''))],
      peakA,
      'A',
      source('sum of the runs as staged', 'computed'),
    ),
    step(
      'bound',
      'no assignment of legs has a lower peak: max over the quarter hours of ΣI/legs and of ⌈k/legs⌉ times the k-th largest',
      [put('legs', view.system.legs.length)],
      balance.peakBoundA,
      'A',
      source('energy and pigeonhole bounds', 'computed'),
    ),
  ]
  const checks = [
    worded({
      what: 'balance',
      title: 'balance of the legs',
      basis: 'house',
      rests,
      steps,
      verdict,
      relation: '≤',
      grave: false,
      found: Math.round(allOnImbalanceFrac * 1000) / 10,
      wanted: IMBALANCE_FRAC * 100,
      unit: '%',
      said: `has ${view.system.legs.map((leg, i) => `${leg} ${shown(allOn[i]!)}`).join(', ')} A with everything on, ${shown(allOnImbalanceFrac * 100)} % off their mean; the worst leg of the staged day is ${shown(peakA)} A, and no assignment gets below ${shown(balance.peakBoundA)} A.`,
    }),
  ]
  return { sums, balance, checks }
}

function worstSlot(all: readonly LegSum[], peakA: number): readonly number[] {
  for (let t = 0; t < SLOTS; t++) if (all.some((s) => s.profileA[t] === peakA)) return all.map((s) => s.profileA[t]!)
  return all.map(() => 0)
}

function balanceTask(view: BoxView): BalanceTask {
  const items: BalanceItem[] = view.circuits
    .filter((c) => c.currentA > 0 && c.circuit.legs.length > 0)
    .map((c) => {
      const options = legOptions(c.circuit.connection, view.system)
      return {
        id: c.circuit.id,
        options: c.kind === 'feeder' || options.length === 0 ? [c.circuit.legs] : options,
        profileA: c.profileA,
        allOnA: c.currentA,
      }
    })
  return { legs: view.system.legs, items, allOnLimitA: Infinity }
}

/** Currents are whole milliamperes in the search. */
const ROUNDED_A = 2e-3
const worstAllOn = (sums: ReadonlyMap<Leg, LegSum>): number => Math.max(0, ...[...sums.values()].map((s) => s.allOnA))

/** Least worst leg with everything on, as good as the search finds it. */
function leastAllOnA(task: BalanceTask): number {
  const items = task.items.map((i) => ({ ...i, profileA: [] }))
  return balancedLegs({ ...task, items, allOnLimitA: 0 }).overA
}

const ANGLE: Record<BoxView['system']['kind'], Readonly<Record<Leg, number>>> = {
  single: { A: 0, B: 0, C: 0 },
  split: { A: 0, B: Math.PI, C: 0 },
  wye: { A: 0, B: (-2 * Math.PI) / 3, C: (2 * Math.PI) / 3 },
  // To the centre tap between A and C.
  delta: { A: 0, B: -Math.PI / 2, C: Math.PI },
}

/** Largest phasor sum of the line–neutral currents over the day, each lagging by its own power factor. */
function neutralStaged(view: BoxView): number {
  const angle = ANGLE[view.system.kind]
  const parts = view.circuits
    .filter((c) => c.circuit.connection === 'LN')
    .map((c) => {
      const pf = c.apparentVA > 0 ? Math.min(1, c.powerW / c.apparentVA) : 1
      return { unit: polar(1, angle[c.circuit.legs[0] ?? 'A'] - acos(pf)), profileA: c.profileA }
    })
  let worst = 0
  for (let t = 0; t < SLOTS; t++) {
    let sum: Complex = { re: 0, im: 0 }
    for (const p of parts) sum = add(sum, { re: p.unit.re * p.profileA[t]!, im: p.unit.im * p.profileA[t]! })
    worst = Math.max(worst, abs(sum))
  }
  return worst
}

/** A cap that fails off, and nobody who may switch everything on past it. */
export const heldByCap = (view: BoxView): boolean =>
  view.box.staging.control === 'interlock' && view.box.staging.capA !== null && !allOnByHand(view.inputs.job)

/** Main, bus, ways, and that every plug hangs on one circuit. */
export function panelChecks(view: BoxView, sums: ReadonlyMap<Leg, LegSum>): readonly Check[] {
  return [...fedChecks(view), ...mainChecks(view, sums), ...wayChecks(view), ...insideHotChecks(view)]
}

function fedChecks(view: BoxView): readonly Check[] {
  const on = new Map<string, number>()
  for (const c of view.box.circuits) for (const tag of c.plugs) on.set(tag, (on.get(tag) ?? 0) + 1)
  const nowhere = view.plugs.filter((p) => !on.has(p.tag))
  const twice = view.plugs.filter((p) => (on.get(p.tag) ?? 0) > 1)
  const strangers = view.circuits.flatMap((c) => c.strangers)
  const wrong = [
    ...nowhere.map((p) =>
      connectionOf(p, view.system, outletOf(view.rules, p.outlet)) === null
        ? `${p.tag} (three-phase, ${view.system.title})`
        : p.tag,
    ),
    ...twice.map((p) => `${p.tag} twice`),
    ...strangers.map((t) => `${t}, which this box does not feed`),
  ]
  const holds = wrong.length === 0
  return [
    worded({
      what: 'plugs-fed',
      title: 'every plug on one circuit',
      basis: 'physics',
      rests: source('list of machines against list of circuits', 'computed'),
      verdict: holds ? 'holds' : 'fails',
      found: view.plugs.length - nowhere.length,
      wanted: view.plugs.length,
      unit: 'plugs',
      grave: false,
      said: holds
        ? `feeds each of its ${view.plugs.length} plugs from one circuit.`
        : `does not feed every plug from one circuit: ${wrong.join(', ')}.`,
    }),
    ...cordless(view),
  ]
}

/** Machines that stand away from their outlet with neither a cord nor a run that goes so far: nothing beyond the outlet can be judged. */
function cordless(view: BoxView): readonly Check[] {
  const far = new Map(view.plugs.map((p) => [p.tag, p.cordM]))
  const bare = view.circuits.flatMap(({ circuit }) => {
    const corded = new Set(circuit.cords.flatMap((cord) => [cord.plug, cord.sharedWith]))
    return circuit.plugs.filter((tag) => !corded.has(tag) && (far.get(tag) ?? 0) > circuit.run.lengthM)
  })
  if (bare.length === 0) return []
  return [
    worded({
      what: 'cord-missing',
      title: 'a cord to every machine',
      basis: 'physics',
      rests: source('list of machines against list of cords', 'computed'),
      verdict: 'unknown',
      found: bare.length,
      wanted: 0,
      unit: 'machines',
      grave: false,
      said: `names no cord that reaches ${bare.map((tag) => `${tag} (${far.get(tag)} m)`).join(', ')}.`,
    }),
  ]
}

function mainChecks(view: BoxView, sums: ReadonlyMap<Leg, LegSum>): readonly Check[] {
  const { rules, box, system } = view
  const { main, busA } = box.panel
  const out: Check[] = []
  const worst = [...sums.entries()].reduce<[Leg, LegSum] | null>(
    (a, b) => (a === null || b[1].allOnA > a[1].allOnA ? [b[0], b[1]] : a),
    null,
  )
  const held = heldByCap(view)
  if (worst !== null) {
    const [leg, sum] = worst
    const need = rules.demandA({
      continuousA: sum.continuousA,
      otherA: sum.allOnA - sum.continuousA,
      largestMotorA: sum.largestMotorA,
      generalVA: sum.generalVA,
      lineV: system.lineNeutralV,
    })
    const rests = need.steps[need.steps.length - 1]?.rests ?? source('demand of the set', 'memory')
    if (held) {
      const cap = box.staging.capA!
      const holds = rules.deviceHoldsA(main.ratingA)
      out.push(
        upper({
          what: 'main-holds',
          title: 'main against the cap of the interlock',
          basis: 'code',
          rests: holds.steps[0]?.rests ?? rests,
          steps: holds.steps,
          demandA: cap,
          limitA: holds.value,
          symbols: ['I cap', 'I max'],
          said: `is held to ${shown(cap)} A a leg by an interlock that fails off; its ${main.ratingA} A main holds ${shown(holds.value)} A. With everything on leg ${leg} would carry ${shown(sum.allOnA)} A.`,
        }),
      )
      out.push(
        upper({
          what: 'staged-within-cap',
          title: 'staged day under the cap',
          basis: 'physics',
          rests: source('sum of the runs as staged', 'computed'),
          steps: [],
          demandA: Math.max(0, ...sum.profileA, ...[...sums.values()].map((s) => Math.max(0, ...s.profileA))),
          limitA: cap,
          tightFrac: 0.1,
          symbols: ['I staged', 'I cap'],
          grave: false,
          said: `carries ${shown(Math.max(0, ...[...sums.values()].map((s) => Math.max(0, ...s.profileA))))} A on its worst leg as staged, under a cap of ${shown(cap)} A.`,
        }),
      )
    } else {
      out.push(
        upper({
          what: 'main-holds',
          title: 'main with everything on',
          basis: 'code',
          rests,
          steps: need.steps,
          demandA: need.value,
          limitA: main.ratingA,
          tightFrac: 0.1,
          symbols: ['I need', 'In'],
          said: `asks ${shown(need.value)} A of its ${main.ratingA} A main with everything on (leg ${leg}, ${shown(sum.allOnA)} A).`,
        }),
      )
    }
  }
  out.push(
    upper({
      what: 'bus',
      title: 'busbar of the panel',
      basis: 'maker',
      rests: source('busbar not under its main', 'common practice'),
      steps: [],
      demandA: main.ratingA,
      limitA: busA,
      symbols: ['In main', 'I bus'],
      said: `has a ${main.ratingA} A main on a ${busA} A busbar.`,
    }),
  )
  return out
}

function wayChecks(view: BoxView): readonly Check[] {
  const { box, system } = view
  const faults: string[] = []
  const taken = new Map<number, string>()
  for (const c of box.circuits) {
    if (c.ways.length !== c.legs.length) faults.push(`${c.id} has ${c.ways.length} ways for ${c.legs.length} poles`)
    c.ways.forEach((way, i) => {
      const other = taken.get(way)
      if (other !== undefined) faults.push(`way ${way} is taken by ${other} and ${c.id}`)
      taken.set(way, c.id)
      if (!Number.isInteger(way) || way < 1 || way > box.panel.ways)
        faults.push(`${c.id} is on way ${way} of a panel of ${box.panel.ways}`)
      if (i > 0 && way !== c.ways[i - 1]! + 2) faults.push(`the poles of ${c.id} are not one under another`)
    })
    const on = new Set(c.ways.map((way) => legOfWay(way, system.legs)))
    if (c.ways.length === c.legs.length && !c.legs.every((leg) => on.has(leg)))
      faults.push(`${c.id} is on leg ${[...on].join('')} and was counted on ${c.legs.join('')}`)
  }
  const holds = faults.length === 0
  const used = taken.size
  const rests = source('ways of the panel: odd left, even right, rows take the legs in turn', 'common practice')
  const frac = view.wanted?.spareWaysFrac ?? 0
  const wanted = spareWanted(used, frac)
  const spare = box.panel.ways - used
  return [
    worded({
      what: 'ways',
      title: 'ways of the panel',
      basis: 'maker',
      rests,
      verdict: holds ? 'holds' : 'fails',
      relation: '≤',
      found: used,
      wanted: box.panel.ways,
      unit: 'ways',
      grave: false,
      said: holds ? `uses ${used} of ${box.panel.ways} ways.` : `has ways that do not hold together: ${faults.join('; ')}.`,
    }),
    worded({
      what: 'spare',
      title: 'spare ways',
      basis: 'house',
      rests: source('spare ways as asked for', 'told'),
      verdict: spare >= wanted ? 'holds' : 'tight',
      relation: '≥',
      found: spare,
      wanted,
      unit: 'ways',
      grave: false,
      said: `leaves ${spare} spare ways; ${wanted} are wanted (${Math.round(frac * 100)} % of ${used}).`,
      mends: spare >= wanted ? [] : [{ path: 'panel.ways', value: used + wanted, words: `a panel of ${used + wanted} ways` }],
    }),
  ]
}

/** A box that may pass what everything in it is sized for: said once for all its circuits. */
function insideHotChecks(view: BoxView): readonly Check[] {
  if (view.insideHotC.told || view.unventilatedC <= MOST_INSIDE_C) return []
  return [
    worded({
      what: 'inside-hot',
      title: 'inside air at the hottest hour',
      basis: 'maker',
      rests: source('breakers are calibrated at 30 or 40 °C; house limit 60 °C', 'common practice'),
      verdict: 'unknown',
      relation: '≤',
      found: view.unventilatedC,
      wanted: MOST_INSIDE_C,
      unit: '°C',
      said: `may reach ${shown(view.unventilatedC)} °C inside when nothing cools it; conductors and devices are sized and judged up to ${MOST_INSIDE_C} °C: vents, fan or shade must keep it below, and air does not say yet whether they do.`,
      assumed: [`boxes.${view.box.box}.inside-hot`],
    }),
  ]
}
