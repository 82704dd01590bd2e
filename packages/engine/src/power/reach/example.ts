import type { BoxDesign, Circuit, Job, Plug, Span } from '../../job/index.ts'
import { rulesFor } from '../../rules/index.ts'
import type { Inputs } from '../inputs.ts'

/** An invented split-phase box for tests and the benchmark: heaters, chargers, a pump and a welder on one 200 A panel. */
export function exampleInputs(
  changes: {
    readonly plugs?: number
    readonly cordM?: number
    readonly system?: 'split' | 'wye'
    readonly chargerW?: number
    readonly interim?: boolean
    readonly rename?: (tag: string) => string
    readonly cordSize?: string
  } = {},
): Inputs {
  const rules = rulesFor('us', {})
  const count = changes.plugs ?? 24
  const wye = changes.system === 'wye'
  const system = wye ? 'wye 208/120' : 'split 120/240'
  const name = changes.rename ?? ((tag: string) => tag)
  const legs = wye ? (['A', 'B', 'C'] as const) : (['A', 'B'] as const)
  const plugs: Plug[] = []
  const circuits: Circuit[] = []
  for (let k = 0; k < count; k++) {
    const kind = k % 6 === 5 ? 'charger' : k === 3 ? 'motor' : 'heater'
    const twoLegs = k % 8 === 7
    const voltageV = twoLegs ? (wye ? 208 : 240) : 120
    const powerW = kind === 'charger' ? (changes.chargerW ?? 150) : kind === 'motor' ? 900 : twoLegs ? 2250 : 1500
    const pf = kind === 'charger' ? 0.65 : kind === 'motor' ? 0.57 : 1
    const tag = name(`M${k}`)
    plugs.push({
      tag,
      row: `M${k}`,
      what: kind,
      kind,
      powerW,
      voltageV,
      phases: 1,
      powerFactorFrac: told(pf),
      currentA: powerW / (voltageV * pf),
      currentTold: false,
      outlet: '5-20R',
      hoursPerDay: 3 + (k % 4),
      fromH: 10,
      readyH: 20,
      daysPerYear: 150,
      dutyFrac: 1,
      cordM: changes.cordM ?? 12 + (k % 5) * 4,
      machine: `M${k}`,
      use: 'vehicle-heater',
      ...(kind === 'motor' ? { motor: { hp: 0.75, codeLetter: 'K', start: 'direct' as const } } : {}),
      fedBy: { stay: 'B1' },
      essential: false,
    })
    const wire = { size: '12 AWG', metal: 'cu' as const, insulation: 'THWN-2' }
    const leg = legs[k % legs.length]!
    circuits.push({
      id: `C${k}`,
      ways: [k + 1],
      legs: twoLegs ? [leg, legs[(k + 1) % legs.length]!] : [leg],
      connection: twoLegs ? 'LL' : 'LN',
      device: { ratingA: 20, poles: twoLegs ? 2 : 1, family: 'us thermal-magnetic', interruptingKA: 22 },
      shock: { kind: 'none', sensitivityMA: null, form: null },
      run: {
        lengthM: 5,
        line: wire,
        neutral: twoLegs ? null : wire,
        protective: wire,
        raceway: { kind: 'EMT', trade: '1/2' },
        sets: 1,
      },
      outlet: '5-20R',
      plugs: [tag],
      own: null,
      cords: [
        {
          plug: tag,
          type: 'SEOOW',
          size: changes.cordSize ?? '12 AWG',
          lengthM: changes.cordM ?? 12 + (k % 5) * 4,
          jacketMinC: -50,
        },
      ],
      label: tag,
    })
  }
  const big = { size: '3/0 AWG', metal: 'cu' as const, insulation: 'THWN-2' }
  const box: BoxDesign = {
    box: 'B1',
    phase: 'stay',
    system,
    offer: 'U1',
    interim: changes.interim === false ? null : 'G1',
    serviceA: 200,
    transformer: null,
    panel: {
      busA: 200,
      ways: 42,
      main: { ratingA: 200, poles: wye ? 3 : 2, family: 'us thermal-magnetic', interruptingKA: 22 },
      interruptingKA: 22,
      feed: {
        lengthM: 12,
        line: big,
        neutral: { ...big, size: '1/0 AWG' },
        protective: null,
        raceway: { kind: 'EMT', trade: '2' },
        sets: 1,
      },
      bond: 'neutral bonded here',
    },
    circuits,
    staging: { control: 'timers', startH: Object.fromEntries(plugs.map((p, k) => [p.tag, 8 + (k % 9)])), capA: null },
    electrode: {
      kind: 'rods',
      count: 2,
      lengthM: 2.4,
      diameterM: 0.016,
      spacingM: 3,
      conductor: { size: '4 AWG', metal: 'cu', insulation: 'bare' },
    },
    transfer: 'neutral switched',
    setBond: 'at the set',
    earthing: 'service bond',
    fedFrom: null,
  }
  const offer = {
    available: true,
    serviceA: [200],
    distanceM: 12,
    leadDays: 10,
    oneOffMoney: null,
    earthing: null,
    earthingForbidden: false,
    note: '',
    system,
  }
  const job = {
    title: 'invented',
    invented: true,
    plugs,
    system,
    offers: [
      {
        ...offer,
        id: 'U1',
        kind: 'utility',
        what: 'service',
        transformer: { kVA: 75, impedancePct: told(1.8), xOverR: told(1.5), phases: wye ? 3 : 1 },
      },
      {
        ...offer,
        id: 'G1',
        kind: 'generator',
        what: 'set',
        generator: {
          ratedKW: 60,
          ratedKVA: 75,
          sets: 1,
          subtransientPct: told(11),
          turbo: null,
          boostExcitation: null,
          neutralBondFactory: null,
        },
      },
    ],
    site: { designMinC: -31, designMaxC: 29, extremeMinC: -38 },
    pins: [],
    assumed: [],
  } as unknown as Job
  return { job, design: { boxes: [box], builds: [], pinned: [] }, rules, prices: { currency: 'USD', rows: {} } }
}

const told = (value: number): Span => ({ low: value, high: value, basis: 'the job', told: true })
