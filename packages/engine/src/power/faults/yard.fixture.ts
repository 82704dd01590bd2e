import type { BoxDesign, Circuit, Design, Job, Offer, Plug, Span } from '../../job/index.ts'
import { UNTOLD_YARD } from '../../job/index.ts'
import { rulesFor } from '../../rules/index.ts'
import type { Inputs } from '../inputs.ts'

const told = (value: number): Span => ({ low: value, high: value, basis: 'told', told: true })
const between = (low: number, high: number): Span => ({ low, high, basis: 'table transformer-typical', told: false })

export const utility = (more: Partial<Offer> = {}): Offer => ({
  id: 'line',
  kind: 'utility',
  what: 'overhead service',
  system: 'us-split',
  available: true,
  serviceA: [200],
  distanceM: 15,
  leadDays: 60,
  oneOffMoney: 9000,
  transformer: { kVA: 75, impedancePct: told(1.8), xOverR: told(1.5), phases: 1 },
  earthing: null,
  earthingForbidden: false,
  note: '',
  ...more,
})

export const set = (more: Partial<NonNullable<Offer['generator']>> = {}, offer: Partial<Offer> = {}): Offer => ({
  id: 'set',
  kind: 'generator',
  what: 'hired set',
  system: 'us-split',
  available: true,
  serviceA: [],
  distanceM: 10,
  leadDays: 3,
  oneOffMoney: 0,
  generator: {
    ratedKW: 48,
    ratedKVA: 60,
    sets: 1,
    subtransientPct: told(12),
    turbo: true,
    boostExcitation: null,
    neutralBondFactory: null,
    ...more,
  },
  earthing: 'TN-S',
  earthingForbidden: false,
  note: '',
  ...offer,
})

export function plug(tag: string, more: Partial<Plug> = {}): Plug {
  return {
    tag,
    row: tag,
    what: 'engine heater',
    kind: 'heater',
    powerW: 1500,
    voltageV: 120,
    phases: 1,
    powerFactorFrac: told(1),
    currentA: 12.5,
    currentTold: true,
    outlet: '5-20R',
    hoursPerDay: 4,
    fromH: 0,
    readyH: 6,
    daysPerYear: 150,
    dutyFrac: 1,
    cordM: 20,
    machine: tag,
    use: 'vehicle-heater',
    fedBy: { stay: 'P' },
    essential: false,
    ...more,
  }
}

export interface CircuitTask {
  readonly id: string
  readonly plug: string
  readonly cordSize?: string
  readonly cordM?: number
  readonly runM?: number
  readonly more?: Partial<Circuit>
}

export function circuit({ id, plug: tag, cordSize = '12 AWG', cordM = 20, runM = 5, more = {} }: CircuitTask): Circuit {
  const wire = { size: '12 AWG', metal: 'cu' as const, insulation: 'THWN-2' }
  return {
    id,
    ways: [1],
    legs: ['A'],
    connection: 'LN',
    device: { ratingA: 20, poles: 1, family: 'us thermal-magnetic', interruptingKA: 22 },
    shock: { kind: 'class A', sensitivityMA: 6, form: null },
    run: { lengthM: runM, line: wire, neutral: wire, protective: wire, raceway: { kind: 'EMT', trade: '1/2' }, sets: 1 },
    outlet: '5-20R',
    plugs: [tag],
    own: null,
    cords: [{ plug: tag, type: 'SOOW', size: cordSize, lengthM: cordM, jacketMinC: -40 }],
    label: id,
    ...more,
  }
}

export interface YardTask {
  readonly set?: 'us' | 'ca' | 'intl'
  readonly system?: string
  readonly offers?: readonly Offer[]
  readonly interim?: string | null
  readonly plugs?: readonly Plug[]
  readonly circuits?: readonly Circuit[]
  readonly box?: Partial<BoxDesign>
  readonly job?: Partial<Job>
  readonly site?: Partial<Job['site']>
}

/** Building wire of the set's own name. */
function inThisSet(c: Circuit, insulation: string): Circuit {
  const named = <W extends { readonly insulation: string } | null>(wire: W): W =>
    wire === null || wire.insulation !== 'THWN-2' ? wire : { ...wire, insulation }
  return { ...c, run: { ...c.run, line: named(c.run.line), neutral: named(c.run.neutral), protective: named(c.run.protective) } }
}

/** A made-up yard: one box, two heaters, a 75 kVA transformer at 1.8 %. */
export function yard(task: YardTask = {}): Inputs {
  const rules = rulesFor(task.set ?? 'us')
  const system = task.system ?? rules.systems.find((s) => s.kind === 'split')?.id ?? rules.systems[0]!.id
  const offers = (task.offers ?? [utility()]).map((o) => (o.system === 'us-split' ? { ...o, system } : o))
  const feed = { size: '3/0 AWG', metal: 'cu' as const, insulation: rules.defaults.insulation }
  const box: BoxDesign = {
    box: 'P',
    phase: 'stay',
    system,
    offer: offers[0]!.id,
    interim: task.interim ?? null,
    serviceA: 200,
    transformer: null,
    panel: {
      busA: 225,
      ways: 30,
      main: { ratingA: 200, poles: 2, family: 'us thermal-magnetic', interruptingKA: 22 },
      interruptingKA: 22,
      feed: {
        lengthM: 15,
        line: feed,
        neutral: feed,
        protective: { ...feed, size: '6 AWG' },
        raceway: { kind: 'PVC 40', trade: '2' },
        sets: 1,
      },
      bond: 'neutral bonded here',
    },
    circuits: (task.circuits ?? [circuit({ id: 'C1', plug: 'H1' }), circuit({ id: 'C2', plug: 'H2', cordM: 30 })]).map((c) =>
      inThisSet(c, rules.defaults.insulation),
    ),
    staging: { control: 'none', startH: {}, capA: null },
    electrode: {
      kind: 'rods',
      count: 2,
      lengthM: 2.44,
      diameterM: 0.0159,
      spacingM: 3,
      conductor: { size: '6 AWG', metal: 'cu', insulation: 'bare' },
    },
    transfer: 'none',
    setBond: 'none',
    earthing: 'service bond',
    fedFrom: null,
    ...task.box,
  }
  const job: Job = {
    title: 'made-up yard',
    invented: true,
    rules: { set: rules.id, edition: null, overlays: [] },
    system,
    plugs: task.plugs ?? [plug('H1'), plug('H2')],
    boxes: [
      {
        id: 'P',
        lengthFt: 20,
        heightKind: 'standard',
        heatedC: null,
        insideHotC: told(35),
        insideColdC: told(0),
        spareWaysFrac: 0.25,
      },
    ],
    phases: [{ id: 'stay', fromMonth: 0, toMonth: 24, said: '' }],
    offers,
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
      place: 'nowhere',
      latitudeDeg: null,
      elevationM: 0,
      designMinC: -31,
      designMaxC: 29,
      extremeMinC: -38,
      meanCByMonth: null,
      soilOhmM: told(600),
      frozenSoilOhmM: told(4000),
      frostDepthM: told(1.5),
      temporary: null,
      ...task.site,
    },
    needs: {
      growthFrac: 0,
      goal: 'least cost over the stay',
      stayMonths: 24,
      orderDate: null,
      neededBy: null,
      manualAllOn: false,
      forbidden: [],
      frequencyHz: rules.frequencyHz,
    },
    money: { currency: 'USD', electricianPerHMoney: null, interestFrac: null },
    built: null,
    builtBody: null,
    surveys: [],
    yard: UNTOLD_YARD,
    pins: [],
    assumed: [],
    unused: [],
    ...task.job,
  }
  const design: Design = { boxes: [box], builds: [], pinned: [] }
  return { job, design, rules, prices: { currency: 'USD', rows: {} } }
}

export { between, told }
