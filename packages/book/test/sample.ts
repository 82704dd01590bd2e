import type { Assessment } from '@plugstead/engine/assess'
import type { Circuit, Design, Job, Leg, Plug, Run, Span } from '@plugstead/engine/job'
import { UNTOLD_YARD } from '@plugstead/engine/job'
import { type Finding, put, QUESTIONS, source, step, type Working, worst } from '@plugstead/engine/kernel'
import type { RuleSet } from '@plugstead/engine/rules'
import type { BookInput } from '../src/results.ts'
import {
  SAMPLE_BUILD,
  SAMPLE_BUILT_FINDINGS,
  SAMPLE_BUILT_WORKINGS,
  SAMPLE_FIT,
  SAMPLE_HAUL,
  SAMPLE_SHOP,
  SAMPLE_SKIN,
} from './sample-build.ts'

/**
 * Made-up figures in the shapes the engine gives, for looking at sheets and for golden files. Nothing in it was computed: it must never be
 * taken for an answer, and no check of the engine reads it.
 */
export function sample(kind: 'split' | 'wye', machines = 18): BookInput {
  const wye = kind === 'wye'
  const legs: readonly Leg[] = wye ? ['A', 'B', 'C'] : ['A', 'B']
  const volts = wye ? 230 : 120
  const told = (value: number): Span => ({ low: value, high: value, basis: 'as told', told: true })
  const size = wye ? '2.5 mm2' : '12 AWG'
  const plugs = Array.from({ length: machines }, (_, i): Plug => {
    const motor = i % 7 === 6
    return {
      tag: `${motor ? 'L' : 'G'}${i + 1}${motor ? '' : 'C'}`,
      row: motor ? 'loader' : 'groomer',
      what: motor ? 'loader compressor' : i % 3 === 0 ? 'hydraulic tank heater' : 'coolant heater',
      kind: motor ? 'motor' : 'heater',
      powerW: motor ? 1100 : i % 3 === 0 ? 1000 : 1500,
      voltageV: volts,
      phases: 1,
      powerFactorFrac: motor ? { low: 0.75, high: 0.85, basis: 'table', told: false } : told(1),
      currentA: (motor ? 1100 / 0.8 : i % 3 === 0 ? 1000 : 1500) / volts,
      currentTold: false,
      outlet: wye ? 'CEE 16 A 3-pole' : '5-20R',
      hoursPerDay: motor ? 1 : 4,
      fromH: 20,
      readyH: 6,
      daysPerYear: 120,
      dutyFrac: 1,
      cordM: 12 + i,
      machine: `groomer ${i + 1}`,
      use: 'vehicle-heater',
      fedBy: { winter: 'B1' },
      essential: false,
    }
  })
  const wire = (s: string) => ({ size: s, metal: 'cu' as const, insulation: wye ? 'XLPE' : 'THWN-2' })
  const run = (lengthM: number, s: string): Run => ({
    lengthM,
    line: wire(s),
    neutral: wire(s),
    protective: wire(s),
    raceway: { kind: wye ? 'conduit' : 'EMT', trade: wye ? '20' : '1/2' },
    sets: 1,
  })
  const circuits = plugs.map(
    (p, i): Circuit => ({
      id: `C${i + 1}`,
      ways: [i + 1],
      legs: [legs[Math.floor(i / 2) % legs.length]!],
      connection: 'LN',
      device: { ratingA: wye ? 16 : 20, poles: 1, family: wye ? 'IEC 60898 C' : 'us thermal-magnetic', interruptingKA: 10 },
      shock: wye ? { kind: 'rcd', sensitivityMA: 30, form: 'A' } : { kind: 'equipment 30 mA', sensitivityMA: 30, form: null },
      run: run(6, size),
      outlet: p.outlet,
      plugs: [p.tag],
      own: null,
      cords: [{ plug: p.tag, type: wye ? 'H07RN-F' : 'SEOOW', size, lengthM: p.cordM, jacketMinC: -40 }],
      label: `${p.tag} ${p.what}`,
    }),
  )
  const job: Job = {
    title: 'Groomer yard, mid-mountain',
    invented: true,
    rules: { set: wye ? 'intl' : 'us', edition: null, overlays: [] },
    system: wye ? '230/400 V' : '120/240 V',
    plugs,
    boxes: [
      {
        id: 'B1',
        lengthFt: 20,
        heightKind: 'standard',
        heatedC: null,
        insideHotC: { low: 30, high: 45, basis: 'bounded', told: false },
        insideColdC: { low: -35, high: -20, basis: 'bounded', told: false },
        spareWaysFrac: 0.2,
      },
    ],
    phases: [{ id: 'winter', fromMonth: 11, toMonth: 4, said: 'the season' }],
    offers: [
      {
        id: 'U1',
        kind: 'utility',
        what: 'new service from the road',
        system: wye ? '230/400 V' : '120/240 V',
        available: true,
        serviceA: [100, 200],
        transformer: {
          kVA: 50,
          impedancePct: { low: 1.2, high: 2.4, basis: 'bounded', told: false },
          xOverR: told(1.5),
          phases: 1,
        },
        distanceM: 60,
        leadDays: 90,
        oneOffMoney: 8200,
        earthing: 'TN-C-S',
        earthingForbidden: false,
        note: '',
      },
      {
        id: 'S1',
        kind: 'generator',
        what: 'hired set',
        system: wye ? '230/400 V' : '120/240 V',
        available: true,
        serviceA: [],
        generator: {
          ratedKW: 40,
          ratedKVA: 50,
          sets: 1,
          subtransientPct: { low: 10, high: 16, basis: 'bounded', told: false },
          turbo: null,
          boostExcitation: null,
          neutralBondFactory: null,
        },
        distanceM: 8,
        leadDays: 5,
        oneOffMoney: 900,
        earthing: null,
        earthingForbidden: false,
        note: '',
      },
      {
        id: 'N1',
        kind: 'neighbour',
        what: 'lift station’s spare',
        system: wye ? '230/400 V' : '120/240 V',
        available: true,
        serviceA: [],
        spareA: 60,
        distanceM: 140,
        leadDays: 20,
        oneOffMoney: 3100,
        earthing: null,
        earthingForbidden: false,
        note: '',
      },
    ],
    tariff: {
      currency: 'USD',
      fixedMoneyPerMonth: 30,
      blocks: [{ upToKWh: null, moneyPerKWh: 0.14 }],
      demandMoneyPerKW: 9,
      demandMoneyPerKVA: null,
      demandWindowMin: 15,
      ratchetFrac: 0,
      powerFactorFloorFrac: null,
      dieselMoneyPerL: 1.1,
    },
    site: {
      place: 'a made-up mountain',
      latitudeDeg: 46,
      elevationM: 1450,
      designMinC: -31,
      designMaxC: 30,
      extremeMinC: -38,
      meanCByMonth: null,
      soilOhmM: { low: 100, high: 1000, basis: 'gravel, bounded', told: false },
      frozenSoilOhmM: { low: 2000, high: 20000, basis: 'frozen gravel', told: false },
      frostDepthM: { low: 0.9, high: 1.5, basis: 'bounded', told: false },
      temporary: null,
    },
    needs: {
      growthFrac: 0.2,
      goal: 'least cost over the stay',
      stayMonths: 24,
      orderDate: '2027-07-10',
      neededBy: '2027-11-01',
      manualAllOn: true,
      forbidden: [],
      frequencyHz: wye ? 50 : 60,
    },
    money: { currency: 'USD', electricianPerHMoney: 95, interestFrac: 0.06 },
    built: null,
    builtBody: null,
    surveys: [],
    yard: UNTOLD_YARD,
    pins: [{ path: 'choices.cords.G2C.size', value: size, by: 'foreman', why: 'a roll is on the shelf' }],
    assumed: [
      {
        path: 'facts.site.soil',
        said: 'gravel, 100 to 1000 Ω·m, both ends judged',
        source: 'IEEE Std 142, table of soils (memory)',
      },
      { path: 'facts.supply.offers[0].transformer', said: '50 kVA at 1.2 to 2.4 %', source: 'common practice' },
    ],
    unused: ['needs.light', 'facts.wind'],
  }
  const ways = Math.max(24, 2 * Math.ceil((machines * 1.2) / 2))
  const design: Design = {
    pinned: ['choices.cords.G2C.size'],
    builds: wye ? [] : [SAMPLE_BUILD],
    boxes: [
      {
        box: 'B1',
        phase: 'winter',
        system: job.system,
        offer: 'U1',
        interim: 'S1',
        serviceA: 200,
        transformer: null,
        panel: {
          busA: 200,
          ways,
          main: { ratingA: 200, poles: wye ? 3 : 2, family: wye ? 'IEC 60947-2' : 'us thermal-magnetic', interruptingKA: 22 },
          interruptingKA: 10,
          feed: run(60, wye ? '95 mm2' : '3/0 AWG'),
          bond: 'neutral bonded here',
        },
        circuits,
        staging: {
          control: 'timers',
          startH: Object.fromEntries(plugs.map((p, i) => [p.tag, (20 + (i % 3) * 3) % 24])),
          capA: null,
        },
        electrode: {
          kind: 'rods',
          count: 2,
          lengthM: 2.4,
          diameterM: 0.016,
          spacingM: 3,
          conductor: { size: wye ? '16 mm2' : '6 AWG', metal: 'cu', insulation: 'bare' },
        },
        transfer: 'none',
        setBond: 'none',
        earthing: 'TN-C-S',
        fedFrom: null,
      },
    ],
  }
  return { job, design, rules: rulesOf(wye), assessment: assessmentOf(job, design, legs, volts) }
}

function rulesOf(wye: boolean): RuleSet {
  const rules: Partial<RuleSet> = {
    id: wye ? 'intl' : 'us',
    title: wye ? 'IEC 60364' : 'NFPA 70',
    edition: wye ? 'current parts' : '2023',
    symbols: wye ? 'IEC 60617' : 'IEEE 315',
    frequencyHz: wye ? 50 : 60,
    colours: wye
      ? { A: 'brown', B: 'black', C: 'grey', N: 'blue', PE: 'green and yellow' }
      : { A: 'black', B: 'red', C: 'blue', N: 'white', PE: 'green or bare' },
  }
  return rules as RuleSet
}

function assessmentOf(job: Job, design: Design, legs: readonly Leg[], volts: number): Assessment {
  const box = design.boxes[0]!
  const at = { box: 'B1', phase: 'winter' }
  const slots = (of: (hour: number) => number): readonly number[] => Array.from({ length: 96 }, (_, s) => of(s / 4))
  const inWindow = (h: number, from: number, long: number): boolean => (h - from + 24) % 24 < long
  const legPlugs = (leg: Leg) =>
    job.plugs.filter((p) => box.circuits.some((c) => c.plugs.includes(p.tag) && c.legs.includes(leg)))
  const before = Object.fromEntries(
    legs.map((l) => [
      l,
      slots((h) =>
        legPlugs(l)
          .filter((p) => inWindow(h, p.fromH, p.hoursPerDay))
          .reduce((s, p) => s + p.currentA, 0),
      ),
    ]),
  )
  const after = Object.fromEntries(
    legs.map((l) => [
      l,
      slots((h) =>
        legPlugs(l)
          .filter((p) => inWindow(h, box.staging.startH[p.tag]!, p.hoursPerDay))
          .reduce((s, p) => s + p.currentA, 0),
      ),
    ]),
  )
  const peak = (v: readonly number[] | undefined): number => Math.max(...(v ?? [0]))
  const ends = (low: number, high = low) => ({ low, high })
  const sums = (n: number, w: number) => ({
    plugs: n,
    powerW: w,
    reactiveVar: ends(0, w * 0.05),
    plainVA: w * 1.02,
    vectorVA: ends(w, w * 1.01),
    powerFactorFrac: ends(0.98, 1),
    energyPerDayKWh: w / 250,
    energyPerYearKWh: w / 2.1,
    energyMeanMonthKWh: w / 25,
    energyFullMonthKWh: w / 8.3,
  })
  const allW = job.plugs.reduce((s, p) => s + p.powerW, 0)
  const proofs = legs.map((l) => ({
    of: l,
    unit: 'A' as const,
    before: peak(before[l]),
    after: peak(after[l]),
    atH: 20,
    bounds: [{ rule: 'energy' as const, value: peak(after[l]) * 0.93, fromH: 20, toH: 6 }],
    bound: peak(after[l]) * 0.93,
    proof: 'proven on the grid' as const,
    gapFrac: 0,
  }))
  const built = design.builds.length > 0
  const power = judged(job, volts)
  const findings = [...power.findings, ...(built ? SAMPLE_BUILT_FINDINGS : [])]
  const workings = [...power.workings, ...(built ? SAMPLE_BUILT_WORKINGS : [])]
  return {
    questions: QUESTIONS.map((id) => {
      const own = findings.filter((f) => f.question === id)
      return {
        id,
        verdict: own.length === 0 ? ('not built' as const) : worst(own.map((f) => f.verdict)),
        findings: own.map((f) => f.code),
      }
    }),
    findings,
    workings,
    assumed: job.assumed,
    results: {
      fit: built ? SAMPLE_FIT : { boxes: [] },
      skin: built ? SAMPLE_SKIN : { boxes: [] },
      air: null,
      haul: built ? SAMPLE_HAUL : { boxes: [] },
      shop: built ? SAMPLE_SHOP : { boxes: [] },
      dates: {
        ...{
          today: null,
          needed: null,
          neededFrom: 'nobody said',
          earliest: null,
          earliestAlone: null,
          interimFrom: null,
          interim: null,
        },
        ...{ marginDays: null, orderBy: null, leastDays: null, chain: [], critical: [], closed: [], chance: null, acts: [] },
        ...{ mustStart: [], holidays: { place: 'us', days: [] } },
      },
      money: NO_MONEY,
      needs: {
        machines: sums(job.plugs.length, allW),
        dutyBoundW: allW / 3,
        boxes: [
          {
            ...at,
            rows: job.plugs.map((p) => ({
              tag: p.tag,
              row: p.row,
              what: p.what,
              machine: p.machine,
              own: false,
              kind: p.kind,
              outlet: p.outlet,
              voltageV: p.voltageV,
              phases: p.phases,
              powerW: p.powerW,
              apparentVA: ends(p.powerW / p.powerFactorFrac.high, p.powerW / p.powerFactorFrac.low),
              reactiveVar: ends(0),
              powerFactorFrac: ends(p.powerFactorFrac.low, p.powerFactorFrac.high),
              currentA: p.currentA,
              legs: box.circuits.find((c) => c.plugs.includes(p.tag))?.legs ?? [],
              hoursPerDay: p.hoursPerDay,
              fromH: p.fromH,
              readyH: p.readyH,
              dutyFrac: 1,
              daysPerYear: 120,
              disagreementFrac: null,
              continuous: true,
              elementFrac: null,
              energyPerDayKWh: 6,
              energyPerYearKWh: 720,
              provenance: p.kind === 'motor' ? ('assumed' as const) : ('told' as const),
            })),
            machines: sums(job.plugs.length, allW),
            own: sums(3, 900),
            all: sums(job.plugs.length + 3, allW + 900),
            control: 'timers',
            staging: {
              ...at,
              control: 'timers',
              objective: 'the highest leg',
              startH: box.staging.startH,
              moved: job.plugs.map((p) => p.tag),
              beforeA: before as never,
              afterA: after as never,
              beforeW: slots(() => 0),
              afterW: slots(() => 0),
              peaks: proofs,
              worst: proofs[0]!,
              dutyBoundW: allW / 3,
              dutyBoundFromH: 20,
              dutyBoundToH: 6,
              workCount: 1234,
            },
            demand: {
              worstLeg: 'A',
              needA: 148.2,
              needWithGrowthA: 177.8,
              growthFrac: 0.2,
              deviceA: 200,
              basis: 'everything on',
              capA: null,
              allOnW: allW,
              allOnVA: allW * 1.02,
              imbalanceFrac: 0.04,
              legs: legs.map((l) => ({
                leg: l,
                allOnA: peak(before[l]),
                phasorA: peak(before[l]) * 0.99,
                stagedA: peak(after[l]),
                continuousA: peak(before[l]) * 0.9,
                otherA: 11,
                largestMotorA: 11.5,
                lineNeutralA: peak(before[l]),
              })),
            },
            coldRestart: { sumW: allW, sumA: { A: 118, B: 112, C: 0 }, worstA: 118, withLargestStartA: 171, lockedOutBy: null },
            meanW: slots(() => 0),
            hourlyKWh: [],
            sharedPlugs: [],
          },
        ],
      },
      supply: { boxes: [supplyOf(job)] },
      circuits: { boxes: [circuitsOf(job, design, legs, after as Record<Leg, readonly number[]>)] },
      reach: { boxes: [reachOf(job, design, legs, volts)] },
      faults: { boxes: [faultsOf(design, volts)] },
    },
  }
}

type Results = Assessment['results']

function supplyOf(job: Job): Results['supply']['boxes'][number] {
  const row = (
    offer: string,
    rank: number,
    more: Partial<Results['supply']['boxes'][number]['offers'][number]>,
  ): Results['supply']['boxes'][number]['offers'][number] => ({
    offer,
    kind: 'utility',
    what: job.offers.find((o) => o.id === offer)?.what ?? '',
    system: job.system,
    available: true,
    sizeA: 200,
    sizeSaid: 'service 200 A',
    needA: 177.8,
    ownTransformerKVA: null,
    transformer: null,
    dropFrac: { low: 0.012, high: 0.016 },
    meterPlace: 'on the box, road side',
    feeMoney: 400,
    leadDays: 90,
    readyDate: '2027-10-08',
    lateDays: -24,
    oneOffMoney: 8200,
    monthlyMoney: { low: 610, high: 640 },
    overStayMoney: { low: 22800, high: 23600 },
    bill: null,
    generator: null,
    lacks: ['the utility’s written fault level', 'an easement over lot 12'],
    verdict: 'holds',
    rank,
    why: 'least cost over the stay',
    ...more,
  })
  const offers = [
    row('U1', 1, {
      transformer: { kVA: 50, own: false, phases: 1, impedancePct: { low: 1.2, high: 2.4 }, loadFrac: 0.57, verdict: 'holds' },
      bill: {
        currency: 'USD',
        energyKWh: 3120,
        peakKW: 19.4,
        peakKVA: { low: 19.4, high: 20.1 },
        complete: true,
        totalMoney: { low: 641, high: 641 },
        lines: [
          { what: 'fixed', said: 'a month', money: { low: 30, high: 30 } },
          { what: 'energy', said: '3120 kWh × 0.14', money: { low: 436.8, high: 436.8 } },
          { what: 'demand', said: '19.4 kW × 9', money: { low: 174.6, high: 174.6 } },
        ],
      },
    }),
    row('N1', 2, {
      kind: 'neighbour',
      sizeA: 60,
      sizeSaid: '60 A spare',
      verdict: 'fails',
      why: 'its spare is below the need',
      lacks: ['a sub-meter', 'the owner’s word in writing'],
    }),
    row('S1', 3, {
      kind: 'generator',
      sizeSaid: '40 kW set',
      verdict: 'tight',
      monthlyMoney: null,
      overStayMoney: null,
      dropFrac: null,
      why: 'fuel',
      generator: {
        offer: 'S1',
        ratedKW: 40,
        ratedKVA: 50,
        availableKW: { low: 31, high: 34 },
        availableKVA: { low: 39, high: 42 },
        sets: 1,
        stagedKW: 12,
        allOnKW: 27,
        stagedKVA: 12.4,
        allOnKVA: 27.9,
        onePhaseFrac: 0.7,
        meanKW: 4.3,
        meanFrac: 0.11,
        meanLeastFrac: 0.3,
        largestStart: {
          plug: 'L7',
          startKVA: { low: 6.1, high: 8.2 },
          dipFrac: { low: 0.02, high: 0.034 },
          limitFrac: 0.15,
          verdict: 'holds',
        },
        fuelLPerMonth: { low: 1210, high: 1480 },
        fuelMoneyPerMonth: { low: 1331, high: 1628 },
        quietKept: false,
        quietLoadKW: 3.2,
        verdict: 'tight',
      },
    }),
  ]
  return {
    box: 'B1',
    phase: 'winter',
    chosen: 'U1',
    chosenRow: offers[0]!,
    best: 'U1',
    offers,
    interim: {
      fromDate: '2027-11-01',
      toDate: '2027-11-15',
      days: 14,
      offer: 'S1',
      money: { low: 900, high: 1300 },
      why: 'ready in 5 days.',
    },
    bonds: [
      {
        position: 'network',
        earthing: 'service bond',
        bonds: [{ where: 'panel', ours: true }],
        wanted: 1,
        verdict: 'holds',
        said: 'One bond, at the panel.',
      },
    ],
  }
}

function circuitsOf(
  job: Job,
  design: Design,
  legs: readonly Leg[],
  after: Record<Leg, readonly number[]>,
): Results['circuits']['boxes'][number] {
  const box = design.boxes[0]!
  const plugOf = (tag: string | undefined): Plug => job.plugs.find((p) => p.tag === tag)!
  const verdictAt = (i: number): 'holds' | 'tight' => (i === 6 ? 'tight' : 'holds')
  return {
    box: 'B1',
    phase: 'winter',
    subject: 'B1',
    system: job.system,
    panel: {
      busA: 200,
      mainA: 200,
      mainPoles: box.panel.main.poles,
      interruptingKA: 10,
      waysCount: box.panel.ways,
      usedCount: box.circuits.length,
      spareCount: box.panel.ways - box.circuits.length,
      spareWantedCount: 4,
      stubs: ['1 north', '1 south'],
      bond: 'neutral bonded here',
      ways: Array.from({ length: box.panel.ways }, (_, i) => {
        const c = box.circuits[i]
        return {
          way: i + 1,
          side: i % 2 === 0 ? ('left' as const) : ('right' as const),
          leg: legs[Math.floor(i / 2) % legs.length]!,
          circuit: c?.id ?? null,
          deviceA: c?.device.ratingA ?? null,
          poles: c === undefined ? null : 1,
          label: c?.label ?? '',
          powerW: c === undefined ? 0 : plugOf(c.plugs[0]).powerW,
          apparentVA: 0,
          currentA: c === undefined ? 0 : plugOf(c.plugs[0]).currentA,
        }
      }),
    },
    legs: legs.map((leg) => ({
      leg,
      powerW: 13500,
      apparentVA: 13700,
      allOnA: 113.4,
      peakA: Math.max(...after[leg]),
      peakH: 20.25,
      profileA: after[leg],
    })),
    balance: {
      allOnImbalanceFrac: 0.041,
      peakImbalanceFrac: 0.06,
      peakA: 37.5,
      peakBoundA: 37.5,
      proven: true,
      neutralStagedA: 12.5,
      neutralWorstA: 62.5,
    },
    circuits: box.circuits.map((c, i) => {
      const p = plugOf(c.plugs[0])
      return {
        id: c.id,
        subject: c.id,
        label: c.label,
        ways: c.ways,
        legs: c.legs,
        connection: c.connection,
        plugs: c.plugs,
        own: null,
        outlet: c.outlet,
        outletCount: 1,
        powerW: p.powerW,
        apparentVA: p.powerW,
        currentA: p.currentA,
        continuousA: p.currentA,
        deviceA: c.device.ratingA,
        devicePoles: 1,
        deviceFamily: c.device.family,
        interruptingKA: 10,
        shock: c.shock,
        shockCount: 1,
        line: c.run.line.size,
        neutral: c.run.line.size,
        protective: c.run.line.size,
        insulation: c.run.line.insulation,
        metal: 'cu',
        lengthM: 6,
        sets: 1,
        ampacityA: 25,
        ambientC: 45,
        carryingCount: 2,
        raceway: `${c.run.raceway!.kind} ${c.run.raceway!.trade}`,
        racewayShared: null,
        boxVolumeMm3: 344_000,
        checks: [
          {
            code: 'circuits/terminals',
            verdict: verdictAt(i),
            demand: put('I1', p.currentA * 1.25, 'A'),
            limit: put('It', 20, 'A'),
            marginFrac: 1 - (p.currentA * 1.25) / 20,
            working: 'G2C/drop',
            provenance: 'memory' as const,
          },
        ],
        verdict: verdictAt(i),
      }
    }),
    cords: box.circuits.map((c, i) => {
      const p = plugOf(c.plugs[0])
      return {
        plug: p.tag,
        plugs: [p.tag],
        circuit: c.id,
        what: p.what,
        type: c.cords[0]!.type,
        size: c.cords[0]!.size,
        lengthM: p.cordM,
        currentA: p.currentA,
        ampacityA: 20,
        jacketMinC: -40,
        wantedMinC: -36,
        verdict: verdictAt(i),
      }
    }),
    feed: {
      from: 'U1',
      lengthM: 60,
      line: box.panel.feed.line.size,
      neutral: box.panel.feed.line.size,
      protective: box.panel.feed.line.size,
      sets: 1,
      raceway: 'PVC 2',
      electrode: '2 rods of 2.4 m',
      electrodeConductor: box.electrode.conductor.size,
      checks: [],
    },
    labels: [
      { place: 'main', text: 'Main 200 A\nFed from U1' },
      { place: 'panel door', text: 'Danger: two sources\nIsolate both, lock, prove dead' },
      ...box.circuits.map((c) => ({ place: `way ${c.ways[0]}`, text: `${c.label}\n${c.outlet}, ${c.device.ratingA} A` })),
    ],
    wires: [
      {
        size: box.circuits[0]!.run.line.size,
        metal: 'cu',
        insulation: box.circuits[0]!.run.line.insulation,
        colour: 'black',
        use: 'line',
        count: 18,
        lengthM: 108,
      },
    ],
    raceways: [{ kind: box.circuits[0]!.run.raceway!.kind, trade: box.circuits[0]!.run.raceway!.trade, count: 18, lengthM: 108 }],
    material: {
      currency: 'USD',
      totalMoney: 1482.5,
      lines: [
        {
          id: 'device/20 A/1',
          for: 'branch circuits',
          quantity: 18,
          per: 'each',
          unitMoney: 14.5,
          money: 261,
          date: '2027-01-05',
          source: 'invented',
        },
      ],
      missing: [{ id: 'panel/200 A/24', for: 'panel', quantity: 1, why: 'no row in the price table' }],
    },
  }
}

function reachOf(job: Job, design: Design, legs: readonly Leg[], volts: number): Results['reach']['boxes'][number] {
  const box = design.boxes[0]!
  const plugs = job.plugs.map((p, i) => {
    const v = volts * (0.985 - 0.0012 * p.cordM)
    return {
      plug: p.tag,
      circuit: box.circuits[i]!.id,
      nominalV: volts,
      voltageV: v,
      bestV: v * 1.02,
      voltagePct: (v / volts) * 100,
      totalDropFrac: 1 - v / volts,
      branchDropFrac: 0.0012 * p.cordM,
      outletDropFrac: 0.004,
      currentA: p.currentA,
      powerW: p.powerW,
      heatLeftFrac: (v / volts) ** 2,
    }
  })
  return {
    box: 'B1',
    phase: 'winter',
    mode: 'network',
    offer: 'U1',
    conductorC: 20,
    limit: { branchFrac: 0.03, totalFrac: 0.05, basis: 'house', place: 'NEC 210.19 informational note' },
    states: [
      {
        id: 'all on',
        hoursH: [],
        outcome: 'solved',
        culprits: [],
        plugs,
        panelV: Object.fromEntries(legs.map((l) => [l, volts * 0.985])),
        panelBestV: Object.fromEntries(legs.map((l) => [l, volts * 1.01])),
        legA: { A: 113.2, B: 108.9 },
        neutralA: 14.2,
        sourceW: 25200,
        loadW: 24600,
        lossW: 600,
        residualA: 2.3e-11,
        imbalanceW: 4.1e-9,
        passes: 6,
      },
    ],
    starts: [
      {
        plug: 'L7',
        startA: 62,
        startPowerFactorFrac: 0.6,
        atMachinePct: 9.3,
        atPanelPct: 2.1,
        neighbours: [{ plug: 'G6C', voltagePct: 94.1, dipPct: 2 }],
        below85: [],
        below70: [],
      },
    ],
    openNeutral: {
      segment: 'feed',
      legV: { A: 151, B: 89 },
      over: [{ plug: 'G1C', voltageV: 151, voltagePct: 125.8 }],
      outcome: 'solved',
    },
    cords: job.plugs.map((p, i) => ({
      plug: p.tag,
      circuit: box.circuits[i]!.id,
      type: box.circuits[i]!.cords[0]!.type,
      size: box.circuits[i]!.cords[0]!.size,
      lengthM: p.cordM,
      currentA: p.currentA,
      ampacityA: 20,
      dropV: 0.0012 * p.cordM * volts,
      dropPct: 0.12 * p.cordM,
      jacketMinC: -40,
      neededMinC: -36,
      verdict: i === 6 ? ('tight' as const) : ('holds' as const),
      longest: [
        { size: box.circuits[i]!.cords[0]!.size, lengthM: 25.9, by: 'drop' as const },
        { size: volts > 200 ? '4 mm2' : '10 AWG', lengthM: 41.2, by: 'drop' as const },
      ],
    })),
  }
}

function faultsOf(design: Design, volts: number): Results['faults']['boxes'][number] {
  const box = design.boxes[0]!
  const fault = (a: number) => ({
    kind: 'line-line' as const,
    currentA: a,
    byKindA: {},
    motorA: 0,
    xOverRRatio: 1.4,
    peakA: a * 1.6,
    kappaRatio: 1.13,
    comparedA: a,
    impedance: { r: 0.01, x: 0.01 },
    conductorC: 20,
  })
  const low = (a: number) => ({
    lineNeutralA: a,
    lineLineA: null,
    lineEarthA: a * 0.93,
    leastA: a * 0.93,
    loopOhm: volts / a,
    earthLoopOhm: volts / (a * 0.93),
    at: 'U1',
    conductorC: 75,
  })
  const trip = (a: number) => ({
    currentA: a,
    fastS: 0.008,
    slowS: a > 190 ? 0.02 : 11,
    by: a > 190 ? ('magnetic' as const) : ('thermal' as const),
    sure: a > 190,
  })
  const curve = (rating: number, ratios: readonly (readonly [number, number])[]) =>
    ratios.map(([r, s]) => [r * rating, s] as const)
  const slow = [
    [1.45, 3600],
    [2, 120],
    [4, 20],
    [10, 3],
    [10, 0.02],
    [1000, 0.02],
  ] as const
  const fast = [
    [1.13, 3600],
    [2, 20],
    [4, 4],
    [5, 1],
    [5, 0.008],
    [1000, 0.008],
  ] as const
  const rating = box.circuits[0]!.device.ratingA
  return {
    box: 'B1',
    phase: 'winter',
    sources: [
      {
        mode: 'network',
        offer: 'U1',
        told: false,
        voltageFactor: { max: 1.05, min: 0.95 },
        decrement: null,
        buses: [
          {
            id: 'main',
            kind: 'main',
            circuit: null,
            plug: null,
            highest: fault(9400),
            lowest: low(3200),
            interruptingA: 22000,
            withstandA: 22000,
            clearing: null,
            conductors: [],
          },
          ...box.circuits.map((c, i) => ({
            id: c.plugs[0]!,
            kind: 'cord end' as const,
            circuit: c.id,
            plug: c.plugs[0]!,
            highest: fault(1400 - 30 * i),
            lowest: low(260 - 6 * i),
            interruptingA: 10000,
            withstandA: null,
            clearing: {
              device: c.id,
              ratingA: rating,
              family: c.device.family,
              deviceC: -20,
              lineNeutral: trip(260 - 6 * i),
              lineEarth: trip((260 - 6 * i) * 0.93),
              residualMA: 30,
              residualS: 0.04,
              demand: { kind: 'magnetic' as const, timeS: null, said: 'no time in the code: does the magnetic part trip' },
            },
            conductors: [
              { conductor: 'cord' as const, size: c.cords[0]!.size, letThroughA2s: 21000, withstandA2s: 226000, atA: 1400 },
            ],
          })),
        ],
      },
    ],
    coordination: [{ upstream: 'main', downstream: 'C1', selectiveToA: 2000, highestA: 9400, whole: false }],
    charts: ['C1', 'C7'].map((id) => ({
      box: 'B1',
      phase: 'winter',
      mode: 'network' as const,
      circuit: id,
      title: `${id}, with the main above it`,
      curves: [
        { id, what: 'device fast' as const, label: `${id}, ${rating} A`, points: curve(rating, fast) },
        { id, what: 'device slow' as const, label: `${id}, ${rating} A`, points: curve(rating, slow) },
        { id: 'main', what: 'device fast' as const, label: 'main, 200 A', points: curve(200, fast) },
        { id: 'main', what: 'device slow' as const, label: 'main, 200 A', points: curve(200, slow) },
        {
          id: 'cord',
          what: 'cable damage' as const,
          label: `cord, ${box.circuits[0]!.cords[0]!.size}`,
          points: [
            [150, 10],
            [4754, 0.01],
          ] as const,
        },
        { id: 'lo', what: 'fault lowest' as const, label: 'lowest', points: [[240, 1]] as const },
        { id: 'hi', what: 'fault highest' as const, label: 'highest', points: [[1400, 1]] as const },
      ],
    })),
    electrode: {
      kind: 'rods',
      count: 2,
      lowOhm: 24,
      thawedOhm: { low: 24, high: 242 },
      frozenOhm: { low: 90, high: 2100 },
      highOhm: 2100,
      faultA: 5,
    },
    touch: [{ circuit: 'C1', system: 'TN', touchV: 58, limitV: 50 }],
    arcFlash: {
      said: 'Arc flash is not studied here. Work on nothing that is live; isolate, lock, prove dead.',
      leeJPerCm2: null,
      boundaryMm: null,
    },
  }
}

function judged(job: Job, volts: number): { readonly findings: readonly Finding[]; readonly workings: readonly Working[] } {
  const findings: Finding[] = []
  const workings: Working[] = []
  const common = { basis: 'code' as const, provenance: 'memory' as const, assumed: [], mends: [] }
  for (const [i, p] of job.plugs.entries()) {
    const id = `${p.tag}/drop`
    const drop = 0.0012 * p.cordM * volts
    const limit = 0.03 * volts
    workings.push({
      id,
      title: `The cord of ${p.tag}`,
      steps: [
        step(
          'L',
          'L_branch + L_cord',
          [put('L_branch', 6, 'm'), put('L_cord', p.cordM, 'm')],
          6 + p.cordM,
          'm',
          source('yard plan', 'told'),
        ),
        step(
          'R',
          '2·r·L',
          [put('r', 0.005211, 'Ω/m'), put('L', 6 + p.cordM, 'm')],
          2 * 0.005211 * (6 + p.cordM),
          'Ω',
          source('12 AWG copper at 20 °C', 'memory'),
        ),
        step(
          'R_h',
          'U_0²/P',
          [put('U_0', volts, 'V'), put('P', p.powerW, 'W')],
          volts ** 2 / p.powerW,
          'Ω',
          source('element’s plate', 'computed'),
        ),
        step(
          'I',
          'U_0/√((R_h + R)² + (X_source + 2·x·L)²)',
          [
            put('U_0', volts, 'V'),
            put('R_h', volts ** 2 / p.powerW, 'Ω'),
            put('R', 0.375, 'Ω'),
            put('X_source', 0.0123, 'Ω'),
            put('x', 0.0001, 'Ω/m'),
            put('L', 6 + p.cordM, 'm'),
          ],
          p.currentA,
          'A',
          source('Ohm’s law', 'computed'),
        ),
        step('ΔU_max', '0.03·U_0', [put('U_0', volts, 'V')], limit, 'V', source('NEC 210.19(A), informational note', 'memory')),
      ],
      judgement: {
        demand: put('ΔU', drop, 'V'),
        relation: '≤',
        limit: put('ΔU_max', limit, 'V'),
        tight: '10 %',
        rests: source('NEC 210.19(A), informational note', 'memory'),
      },
      crossCheck: [
        step(
          'ΔU',
          'I·R',
          [put('I', p.currentA, 'A'), put('R', 0.375, 'Ω')],
          p.currentA * 0.375,
          'V',
          source('by hand, approximate', 'computed'),
        ),
      ],
    })
    const verdict = drop > limit ? 'fails' : drop > limit * 0.9 ? 'tight' : 'holds'
    findings.push({
      ...common,
      code: 'reach/drop',
      question: 'reach',
      subject: p.tag,
      verdict,
      basis: 'house',
      said: `${drop.toFixed(1)} V lost along ${p.cordM} m of cord; ${limit.toFixed(1)} V is the limit of the house.`,
      confirm: i < 3,
      assumed: i < 3 ? ['facts.site.soil'] : [],
      workings: [id],
      mends:
        verdict === 'holds' ? [] : [{ path: `cords.${p.tag}.size`, value: '10 AWG', words: '10 AWG cord instead of 12 AWG' }],
    })
  }
  findings.push({
    ...common,
    code: 'faults/interrupting',
    question: 'faults',
    subject: 'P1',
    verdict: 'fails',
    said: '17.4 kA may flow here; its breakers interrupt 10 kA.',
    confirm: true,
    workings: ['P1/interrupting'],
    decides: 'the inspector',
    caution: 'The panel may burst under the highest fault: see faults 1.',
  })
  workings.push({
    id: 'P1/interrupting',
    title: 'What may flow at the panel',
    steps: [
      step(
        'I_k',
        'c·U/(√3·Z)',
        [put('c', 1.05), put('U', 400, 'V'), put('Z', 0.0139, 'Ω')],
        17400,
        'A',
        source('IEC 60909-0, clause 6', 'memory'),
      ),
    ],
    judgement: {
      demand: put('I_k', 17400, 'A'),
      relation: '≤',
      limit: put('I_cn', 10000, 'A'),
      tight: 'none',
      rests: source('nameplate', 'told'),
    },
  })
  findings.push({
    ...common,
    code: 'needs/service',
    question: 'needs',
    subject: 'B1',
    verdict: 'holds',
    said: '148.2 A asked of 200 A.',
    workings: [],
  })
  findings.push({
    ...common,
    code: 'supply/offer',
    question: 'supply',
    subject: 'U1',
    verdict: 'holds',
    said: 'The service is ready 24 days before it is needed.',
    workings: [],
  })
  findings.push({
    ...common,
    code: 'circuits/terminals',
    question: 'circuits',
    subject: 'C7',
    verdict: 'tight',
    said: '15.6 A on a device of 20 A.',
    workings: [],
  })
  return { findings, workings }
}

/** Of a job in which nothing is priced. */
export const NO_MONEY: Assessment['results']['money'] = {
  ...{ currency: 'USD', day: null, lines: [], groups: [], beside: [], lacking: [], rows: [], aged: [], spread: null },
  price: {
    ...{ costMoney: 0, bearingMoney: 0, passedMoney: 0, marginFrac: null, marginFrom: null, markUpFrac: null },
    ...{ marginMoney: null, priceMoney: null, tax: null, totalMoney: null, isFloor: true },
  },
  ...{
    overCostFrac: null,
    lossFrac: null,
    options: [],
    rent: null,
    comparison: null,
    validDays: 30,
    validTold: true,
    oldAfterDays: 120,
    orderDepositFrac: 0,
  },
}
