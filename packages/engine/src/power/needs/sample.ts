import type { BoxDesign, BoxWanted, Circuit, Design, Job, Offer, Plug, Span, StagingControl } from '../../job/index.ts'
import { UNTOLD_YARD } from '../../job/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { boxLoads } from '../staging/index.ts'

/** Small invented jobs for tests of needs and supply: nothing here is used by the program. */
const told = (value: number): Span => ({ low: value, high: value, basis: 'told', told: true })

export function samplePlug(plug: Partial<Plug> & Pick<Plug, 'tag' | 'powerW'>): Plug {
  const voltageV = plug.voltageV ?? 120
  const pf = plug.powerFactorFrac ?? told(1)
  const phases = plug.phases ?? 1
  return {
    row: plug.tag,
    what: plug.tag,
    kind: 'heater',
    voltageV,
    phases,
    powerFactorFrac: pf,
    currentA: plug.powerW / (voltageV * pf.low * (phases === 3 ? Math.sqrt(3) : 1)),
    currentTold: false,
    outlet: '5-20R',
    hoursPerDay: 3,
    fromH: 20,
    readyH: 5,
    daysPerYear: 100,
    dutyFrac: 1,
    cordM: 20,
    machine: plug.tag,
    use: 'vehicle-heater',
    fedBy: { season: 'B1' },
    essential: false,
    ...plug,
  }
}

export const sampleBox = (id: string, box: Partial<BoxWanted> = {}): BoxWanted => ({
  id,
  lengthFt: 20,
  heightKind: 'standard',
  heatedC: null,
  insideHotC: told(30),
  insideColdC: told(-20),
  spareWaysFrac: 0.25,
  ...box,
})

export const sampleOffer = (offer: Partial<Offer> & Pick<Offer, 'id' | 'kind'>): Offer => ({
  what: offer.id,
  system: 'split 120/240',
  available: true,
  serviceA: [],
  distanceM: 20,
  leadDays: 10,
  oneOffMoney: 1000,
  earthing: 'service bond',
  earthingForbidden: false,
  note: '',
  ...offer,
})

export function sampleJob(job: Partial<Job> & { readonly plugs: readonly Plug[] }): Job {
  return {
    title: 'sample',
    invented: true,
    rules: { set: 'us', edition: null, overlays: [] },
    system: 'split 120/240',
    boxes: [sampleBox('B1')],
    phases: [{ id: 'season', fromMonth: 1, toMonth: 12, said: 'season' }],
    offers: [sampleOffer({ id: 'street', kind: 'utility', serviceA: [200] })],
    tariff: {
      currency: 'USD',
      fixedMoneyPerMonth: 40,
      blocks: [{ upToKWh: null, moneyPerKWh: 0.1 }],
      demandMoneyPerKW: 10,
      demandMoneyPerKVA: null,
      demandWindowMin: 15,
      ratchetFrac: 0,
      powerFactorFloorFrac: null,
      dieselMoneyPerL: 1.2,
    },
    site: {
      place: 'sample',
      latitudeDeg: null,
      elevationM: 200,
      designMinC: -25,
      designMaxC: 28,
      extremeMinC: null,
      meanCByMonth: null,
      soilOhmM: told(100),
      frozenSoilOhmM: told(1000),
      frostDepthM: told(1),
      temporary: true,
    },
    needs: {
      growthFrac: 0,
      goal: 'least cost over the stay',
      stayMonths: 12,
      orderDate: '2027-05-02',
      neededBy: '2027-10-20',
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
    ...job,
  }
}

const own = (kind: Circuit['own']): kind is NonNullable<Circuit['own']> => kind !== null

/** A design in which every plug and own load has a way of its own, on the leg that carries least. */
export function sampleDesign(job: Job, rules: RuleSet, box: Partial<BoxDesign> = {}, control: StagingControl = 'none'): Design {
  const size = {
    size: rules.sizes[Math.floor(rules.sizes.length / 2)]?.name ?? '',
    metal: 'cu' as const,
    insulation: rules.defaults.insulation,
  }
  const run = { lengthM: 20, line: size, neutral: size, protective: size, raceway: null, sets: 1 }
  const device = (ratingA: number) => ({ ratingA, poles: 1 as const, family: rules.defaults.deviceFamily, interruptingKA: 10 })
  const boxes = job.boxes.flatMap((wanted) =>
    job.phases.map((phase): BoxDesign => {
      const circuits = boxLoads({ job, boxId: wanted.id, phaseId: phase.id, rules })
        .filter((load) => load.box === wanted.id)
        .map(
          (load, i): Circuit => ({
            id: `W${i + 1}`,
            ways: [i + 1],
            legs: load.legs,
            connection: load.legs.length === 3 ? 'LLL' : load.legs.length === 2 ? 'LL' : 'LN',
            device: device(20),
            shock: { kind: 'none', sensitivityMA: null, form: null },
            run,
            outlet: load.plug?.outlet ?? 'hard-wired',
            plugs: load.plug ? [load.tag] : [],
            own: own(load.own) ? load.own : null,
            cords: [],
            label: load.tag,
          }),
        )
      return {
        box: wanted.id,
        phase: phase.id,
        system: job.system,
        offer: job.offers[0]?.id ?? 'none',
        interim: null,
        serviceA: 200,
        transformer: null,
        panel: { busA: 200, ways: 42, main: device(200), interruptingKA: 22, feed: run, bond: 'neutral bonded here' },
        circuits,
        staging: { control, startH: Object.fromEntries(job.plugs.map((plug) => [plug.tag, plug.fromH])), capA: null },
        electrode: { kind: 'rods', count: 2, lengthM: 2.44, diameterM: 0.016, spacingM: 3, conductor: size },
        transfer: 'none',
        setBond: 'none',
        earthing: 'service bond',
        fedFrom: wanted.fedFrom ? { box: wanted.fedFrom.box, run, device: device(100) } : null,
        ...box,
      }
    }),
  )
  return { boxes, builds: [], pinned: [] }
}
