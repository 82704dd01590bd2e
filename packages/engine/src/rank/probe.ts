import { type Job, readJob, systemById } from '../job/index.ts'
import { Fault } from '../kernel/index.ts'
import type { Model } from '../parts/index.ts'
import type { RuleSet } from '../rules/index.ts'

/** The call that a model is tried with: one machine on each of its outlets, in a mild place. Every limit moves one of these. */
export interface Probe {
  /** Ampere of the machine on each outlet, by outlet. */
  readonly loadA: Readonly<Record<string, number>>
  /** One machine that is apart from the rest of its kind: its load, and the length of its cord. */
  readonly one: { readonly outlet: string; readonly loadA: number; readonly cordM: number } | null
  readonly serviceA: number
  readonly faultA: number
  readonly designMinC: number
  readonly designMaxC: number
  readonly snowPa: number
  readonly snowM: number
  readonly setDown: string
  /** In the words of the code; null: both are judged. */
  readonly temporary: boolean | null
  /** On the scale, ready to travel; null: as its sheet adds up. */
  readonly massKg: number | null
}

type Row = Model['built']['circuits'][number]

/** Volts and phases of what plugs into a row of circuits. */
export function feedOf(
  row: Row,
  model: Model,
  rules: RuleSet,
): { readonly voltageV: number; readonly phases: 1 | 3; readonly watts: (currentA: number) => number } {
  const system = rules.systems.find((s) => s.id === model.built.system)
  if (system === undefined) throw new Fault('rank/system-unknown', model.built.system)
  const voltageV = row.poles === 1 ? system.lineNeutralV : system.lineLineV
  const phases = row.poles === 3 ? 3 : 1
  return { voltageV, phases, watts: (a) => a * voltageV * (phases === 3 ? Math.sqrt(3) : 1) }
}

/** What a continuous load may take of its device: the fullest machine an outlet is sold for. @source NEC 210.20(A), CE Code 8-104. Provenance: memory */
export const FULL_FRAC = 0.8
/** Of a full machine: just too much for two of them to share one circuit, so that each outlet keeps its own. */
export const MILD_FRAC = 0.55

/** Machines that ask little, and a place that asks nothing of a box but the heater and the fan that belong in it. */
export function mildProbe(model: Model, loadFrac = MILD_FRAC): Probe {
  const each = (value: (deviceA: number) => number) =>
    Object.fromEntries(model.built.circuits.map((c) => [c.outlet, value(c.deviceA)]))
  return {
    ...{ loadA: each((a) => loadFrac * FULL_FRAC * a), one: null, serviceA: model.built.serviceA, faultA: 2000 },
    ...{
      designMinC: MILD_MIN_C,
      designMaxC: MILD_MAX_C,
      snowPa: 100,
      snowM: 0.02,
      setDown: 'tilt-bed',
      temporary: null,
      massKg: null,
    },
  }
}

export const MILD_MIN_C = -5
export const MILD_MAX_C = 30

/** Cords are those that the plan takes for this length. */
export const CORD_M = 15

/** @throws Fault `rank/probe` when the text it writes is no job */
export function probeJob(model: Model, probe: Probe, rules: RuleSet): Job {
  const read = readJob(probeText(model, probe, rules))
  if (!read.ok) throw new Fault('rank/probe', read.problems[0]?.code ?? '')
  return read.value
}

function probeText(model: Model, p: Probe, rules: RuleSet): string {
  const machines = model.built.circuits.flatMap((row, i) => {
    const { voltageV, phases, watts } = feedOf(row, model, rules)
    const loadA = p.loadA[row.outlet]!
    const one = p.one?.outlet === row.outlet ? p.one : { loadA, cordM: CORD_M }
    const line = (tag: string, count: number, of: { readonly loadA: number; readonly cordM: number }) =>
      `    - { tag: ${tag}, what: probe, kind: heater, use: general, count: ${count}, power: ${plain(watts(of.loadA))} W, voltage: ${voltageV} V, phases: ${phases}, outlet: ${JSON.stringify(row.outlet)}, hours: 8 h, window: all day, days: 365, cord: ${plain(of.cordM)} m }`
    const rest = row.count - 1
    return [
      line(`P${i + 1}`, 1, one),
      ...(rest === 0 ? [] : [line(rest === 1 ? `R${i + 1}` : `R${i + 1}N1-${rest}`, rest, { loadA, cordM: CORD_M })]),
    ]
  })
  const system = systemById(model.built.system)
  return `plugstead: 1
title: what ${model.id} is good for
rules: { set: ${model.rules} }
needs:
  stay: 12 months
  growth: 0 %
  machines:
${machines.join('\n')}
  money: { currency: XXX }
facts:
  site:
    place: a mild place
    latitude: 45 deg
    elevation: 100 m
    access: { road-grade: 0 %, straight-run: 60 m, width: 8 m, overhead-line: none, unload: ${p.setDown} }
    ground: { surface: rock, bearing: 2000 kPa, frost-depth: 0.5 m, slope: 0 % }
    soil: { resistivity: 50 ohm m, frozen: 100 ohm m }
    snow: { ground-load: ${plain(p.snowPa / 1000)} kPa, depth: ${plain(p.snowM)} m, drifting: none }
    wind: { pressure: 0.3 kPa, pressure-is: velocity pressure, level: service, winter-from: 270 deg }
    corrosivity: C2${p.temporary === null ? '' : `\n    temporary: ${p.temporary ? 'yes' : 'no'}`}
  climate: { design-min: ${plain(p.designMinC)} C, extreme-min: ${plain(p.designMinC)} C, design-max: ${plain(p.designMaxC)} C }
  supply:
    system: ${JSON.stringify(system?.title ?? model.built.system)}
    offers:
      - { id: probe, kind: utility, what: probe, service: [${plain(p.serviceA)} A], fault: { current: ${plain(p.faultA)} A, of: any kind, by: the probe }, distance: 10 m, overhead: no, lead-time: 1 weeks, one-off: 0 XXX }
    tariff: { fixed: 0 XXX per month, energy: 0.1 XXX per kWh }
boxes:
  - { id: model, length: ${plain((model.body.lengthFt ?? 20) * 0.3048)} m, height: ${model.body.heightKind ?? 'standard'}, heated: no, spare-ways: 0 % }
`
}

/** Digits that a document reads: no thin spaces, no exponent. */
const plain = (n: number): string => String(Number(n.toFixed(6)))
