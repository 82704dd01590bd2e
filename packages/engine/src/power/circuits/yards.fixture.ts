import type { BoxDesign, BoxWanted, Design, Job, Offer, Plug, RuleSetId, Span, Staging } from '../../job/index.ts'
import { UNTOLD_YARD } from '../../job/index.ts'
import type { Prices } from '../../parts/index.ts'
import { rulesFor } from '../../rules/index.ts'
import type { Inputs } from '../inputs.ts'
import { designCircuits } from './design.ts'
import type { CircuitsRequest } from './request.ts'

/** Invented yards for the tests of circuits. Currents by I = P/(U·pf). */

export const told = (value: number): Span => ({ low: value, high: value, basis: 'as written', told: true })
const span = (low: number, high: number): Span => ({ low, high, basis: 'bounded', told: false })

export type Row = Partial<Omit<Plug, 'tag' | 'powerFactorFrac'>> & {
  readonly tag: string
  readonly powerW: number
  readonly voltageV: number
  readonly pf?: number
}

export function plugOf(row: Row): Plug {
  const pf = row.pf ?? 1
  const phases = row.phases ?? 1
  const { pf: _pf, ...rest } = row
  return {
    row: row.tag,
    what: row.tag,
    kind: 'heater',
    outlet: '5-20R',
    hoursPerDay: 3,
    fromH: 18,
    readyH: 0,
    daysPerYear: 150,
    dutyFrac: 1,
    cordM: 20,
    machine: row.tag,
    use: 'vehicle-heater',
    essential: false,
    currentTold: false,
    fedBy: { P1: 'BX1' },
    ...rest,
    phases,
    powerFactorFrac: told(pf),
    currentA: row.currentA ?? row.powerW / (row.voltageV * pf * (phases === 3 ? Math.sqrt(3) : 1)),
  }
}

const many = (n: number, make: (i: number) => Row): Plug[] => Array.from({ length: n }, (_, i) => plugOf(make(i + 1)))

/** Twenty-eight plugs of a groomer yard on 120/240 V split phase. */
export const GROOMER_PLUGS: readonly Plug[] = [
  ...many(4, (i) => ({
    tag: `G${i}C`,
    machine: `G${i}`,
    powerW: 1500,
    voltageV: 120,
    fromH: 10.5,
    readyH: 16.5,
    hoursPerDay: 3,
    cordM: 6 + 6 * i,
  })),
  ...many(4, (i) => ({
    tag: `G${i}H`,
    machine: `G${i}`,
    powerW: 1000,
    voltageV: 120,
    outlet: '5-15R',
    fromH: 10.5,
    readyH: 16.5,
    hoursPerDay: 4,
    cordM: 6 + 6 * i,
  })),
  ...many(3, (i) => ({
    tag: `G${i + 4}C`,
    machine: `G${i + 4}`,
    powerW: 1500,
    voltageV: 120,
    fromH: 18,
    readyH: 0,
    hoursPerDay: 3,
    cordM: 8 + 6 * i,
  })),
  ...many(3, (i) => ({
    tag: `G${i + 4}H`,
    machine: `G${i + 4}`,
    powerW: 1000,
    voltageV: 120,
    outlet: '5-15R',
    fromH: 18,
    readyH: 0,
    hoursPerDay: 4,
    cordM: 8 + 6 * i,
  })),
  plugOf({ tag: 'LD1', powerW: 2250, voltageV: 240, outlet: '6-20R', fromH: 23, readyH: 5, hoursPerDay: 4, cordM: 38 }),
  ...many(4, (i) => ({ tag: `TK${i}`, powerW: 750, voltageV: 120, outlet: '5-15R', fromH: 1, readyH: 7, cordM: 17 + 3 * i })),
  ...many(5, (i) => ({
    tag: `SM${i}`,
    powerW: 150,
    voltageV: 120,
    pf: 0.65,
    kind: 'charger' as const,
    use: 'charger' as const,
    outlet: '5-15R',
    fromH: 17,
    readyH: 7,
    hoursPerDay: 14,
    cordM: 8,
  })),
  plugOf({
    tag: 'FP1',
    powerW: 900,
    voltageV: 120,
    pf: 0.57,
    kind: 'motor',
    use: 'pump',
    outlet: 'hard-wired',
    fromH: 6,
    readyH: 18,
    hoursPerDay: 1,
    cordM: 16,
    motor: { hp: 0.75, fullLoadA: 13.8, start: 'direct', codeLetter: 'K' },
  }),
  plugOf({
    tag: 'RP1',
    powerW: 200,
    voltageV: 120,
    pf: 0.95,
    kind: 'electronic',
    use: 'general',
    outlet: '5-15R',
    fromH: 0,
    readyH: 0,
    hoursPerDay: 24,
    cordM: 10,
    essential: true,
  }),
  plugOf({
    tag: 'TS1',
    powerW: 1500,
    voltageV: 120,
    use: 'building',
    fromH: 0,
    readyH: 0,
    hoursPerDay: 24,
    dutyFrac: 0.45,
    cordM: 22,
  }),
  plugOf({
    tag: 'WR1',
    powerW: 9600,
    voltageV: 240,
    pf: 0.8,
    kind: 'welder',
    use: 'general',
    outlet: '6-50R',
    fromH: 7,
    readyH: 17,
    hoursPerDay: 2,
    dutyFrac: 0.4,
    cordM: 12,
  }),
]

const OFFER: Offer = {
  id: 'U1',
  kind: 'utility',
  what: 'utility pole',
  system: 'split 120/240',
  available: true,
  serviceA: [200, 400],
  distanceM: 28,
  leadDays: 91,
  oneOffMoney: 18500,
  earthing: null,
  earthingForbidden: false,
  note: '',
}

const BOX: BoxWanted = {
  id: 'BX1',
  lengthFt: 20,
  heightKind: 'standard',
  heatedC: null,
  insideHotC: span(20, 40),
  insideColdC: told(-10),
  spareWaysFrac: 0.25,
}

export interface YardChanges {
  readonly set?: RuleSetId
  readonly system?: string
  readonly plugs?: readonly Plug[]
  readonly box?: Partial<BoxWanted>
  readonly offer?: Partial<Offer>
  readonly job?: Partial<Job>
}

export function jobOf(changes: YardChanges = {}): Job {
  const box = { ...BOX, ...changes.box }
  const system = changes.system ?? 'split 120/240'
  return {
    title: 'Groomer yard (invented)',
    invented: true,
    rules: { set: changes.set ?? 'us', edition: null, overlays: [] },
    system,
    plugs: changes.plugs ?? GROOMER_PLUGS,
    boxes: [box],
    phases: [{ id: 'P1', fromMonth: 1, toMonth: 6, said: 'the stay' }],
    offers: [{ ...OFFER, system, ...changes.offer }],
    tariff: {
      currency: 'USD',
      fixedMoneyPerMonth: null,
      blocks: [],
      demandMoneyPerKW: null,
      demandMoneyPerKVA: null,
      demandWindowMin: 15,
      ratchetFrac: 0,
      powerFactorFloorFrac: null,
      dieselMoneyPerL: null,
    },
    site: {
      place: 'an invented hill',
      latitudeDeg: 46,
      elevationM: 2450,
      designMinC: -31,
      designMaxC: 29,
      extremeMinC: -38,
      meanCByMonth: null,
      soilOhmM: told(600),
      frozenSoilOhmM: told(4000),
      frostDepthM: told(1.5),
      temporary: true,
    },
    needs: {
      growthFrac: 0,
      goal: 'least cost over the stay',
      stayMonths: 6,
      orderDate: null,
      neededBy: null,
      manualAllOn: false,
      forbidden: [],
      frequencyHz: 60,
    },
    money: { currency: 'USD', electricianPerHMoney: null, interestFrac: null },
    built: null,
    builtBody: null,
    surveys: [],
    yard: UNTOLD_YARD,
    pins: [],
    assumed: [],
    unused: [],
    ...changes.job,
  }
}

export const NO_PRICES: Prices = { currency: 'USD', rows: {} }

export interface Yard {
  readonly job: Job
  readonly request: CircuitsRequest
  readonly box: BoxDesign
  readonly inputs: Inputs
}

/** A yard with its box designed, ready to be asked. */
export function yardOf(
  changes: YardChanges & {
    readonly request?: Partial<CircuitsRequest>
    readonly staging?: Partial<Staging>
    readonly prices?: Prices
  } = {},
): Yard {
  const job = jobOf(changes)
  const rules = rulesFor(job.rules.set)
  const prices = changes.prices ?? NO_PRICES
  const staging: Staging = {
    control: 'none',
    startH: Object.fromEntries(job.plugs.map((p) => [p.tag, p.fromH])),
    capA: null,
    ...changes.staging,
  }
  const request: CircuitsRequest = {
    job,
    box: job.boxes[0]!,
    phase: 'P1',
    rules,
    prices,
    system: job.system,
    offer: job.offers[0]!,
    serviceA: 400,
    interruptingKA: 22,
    staging,
    ...changes.request,
  }
  const box = boxOf(request, staging)
  return { job, request, box, inputs: { job, design: designOf(box), rules, prices } }
}

export const designOf = (...boxes: readonly BoxDesign[]): Design => ({ boxes, builds: [], pinned: [] })

export function boxOf(request: CircuitsRequest, staging: Staging): BoxDesign {
  const made = designCircuits(request)
  return {
    box: request.box.id,
    phase: request.phase,
    system: request.system,
    offer: request.offer.id,
    interim: null,
    serviceA: request.serviceA,
    transformer: made.transformer,
    panel: made.panel,
    circuits: made.circuits,
    staging,
    electrode: made.electrode,
    transfer: request.transfer ?? 'none',
    setBond: 'none',
    earthing: request.earthing ?? 'service bond',
    fedFrom: made.fedFrom,
  }
}
