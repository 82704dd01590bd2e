import { type Finding, judgeUpper, put, source, type Verdict, type Working, worst } from '../../kernel/index.ts'
import type { Inputs } from '../inputs.ts'
import type { PeakProof } from '../staging/index.ts'
import { basisWords, capHolds } from './demand.ts'
import { type BoxFacts, clock, found, shown } from './finding.ts'
import type { Sums } from './result.ts'

const TIGHT_FRAC = 0.1
/** Legs that differ by more than this from their mean are worth moving a plug for. House rule. */
const IMBALANCE_FRAC = 0.2
/** A staged peak this near its bound needs no more work. House rule. */
const GAP_FRAC = 0.1

export interface BoxFindings {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
}

export function boxFindings(
  inputs: Inputs,
  facts: BoxFacts,
  sums: { readonly machines: Sums; readonly own: Sums; readonly all: Sums },
): BoxFindings {
  const { subject, box, worked, staging, rules } = facts
  const { demand, coldRestart } = worked
  const ids = {
    list: `${subject}/list`,
    demand: `${subject}/service-demand`,
    staging: `${subject}/staging`,
    restart: `${subject}/cold-restart`,
  }
  const findings: Finding[] = []
  const weakestDemand = worked.steps.some((s) => s.rests.provenance === 'memory') ? 'memory' : 'told'
  const confirm = weakestDemand === 'memory' ? { confirm: true } : {}

  findings.push(
    found({
      code: 'needs/list',
      subject,
      verdict: 'holds',
      basis: 'physics',
      provenance: 'told',
      said: `${sums.machines.plugs} plugs and ${sums.own.plugs} loads of the box itself: ${shown(sums.all.powerW / 1000)} kW, ${shown(sums.all.plainVA / 1000)} kVA added plainly, ${shown(sums.all.vectorVA.high / 1000)} kVA as it flows; ${shown(sums.all.energyPerDayKWh)} kWh on a full day, ${Math.round(sums.all.energyPerYearKWh)} kWh a year.`,
      workings: [ids.list],
    }),
  )
  findings.push(...ownLoadFindings(facts))

  const limitA = box.serviceA
  const now = judgeUpper(demand.needA, limitA, TIGHT_FRAC)
  findings.push(
    found({
      code: 'needs/service-demand',
      subject,
      verdict: now,
      basis: 'code',
      provenance: weakestDemand,
      ...confirm,
      said: `Leg ${demand.worstLeg} asks for a ${shown(demand.needA)} A service ${basisWords(demand.basis)}; the design has ${limitA} A.`,
      demand: put('I', demand.needA, 'A'),
      limit: put('In', limitA, 'A'),
      workings: [ids.demand],
      mends:
        now === 'fails' && demand.deviceA !== null
          ? [{ path: 'service.rating', value: demand.deviceA, words: `${demand.deviceA} A service instead of ${limitA} A` }]
          : [],
    }),
  )
  if (demand.growthFrac > 0) {
    const grown = judgeUpper(demand.needWithGrowthA, limitA, 0)
    findings.push(
      found({
        code: 'needs/growth',
        subject,
        verdict: grown === 'fails' ? 'tight' : grown,
        basis: 'house',
        provenance: weakestDemand,
        said: `With ${Math.round(demand.growthFrac * 100)} % growth leg ${demand.worstLeg} asks for ${shown(demand.needWithGrowthA)} A of ${limitA} A${grown === 'fails' ? ': there is room for today only' : ''}.`,
        demand: put('I′', demand.needWithGrowthA, 'A'),
        limit: put('In', limitA, 'A'),
        workings: [ids.demand],
      }),
    )
  }
  const highest = Math.max(...demand.legs.map((l) => l.allOnA))
  findings.push(
    found({
      code: 'needs/legs',
      subject,
      verdict: demand.legs.length > 1 && demand.imbalanceFrac > IMBALANCE_FRAC ? 'tight' : 'holds',
      basis: 'house',
      provenance: 'told',
      said: `Legs, not kilowatts, set the limit: with everything on ${demand.legs.map((l) => `${l.leg} ${shown(l.allOnA)} A`).join(', ')}; the highest is ${Math.round(demand.imbalanceFrac * 100)} % over the mean.`,
      demand: put('I', highest, 'A'),
      workings: [ids.demand],
    }),
  )
  if (worked.vehicleHeaters) {
    const { platesW, ruleW } = worked.vehicleHeaters
    findings.push(
      found({
        code: 'needs/vehicle-heaters',
        subject,
        verdict: 'holds',
        basis: 'code',
        provenance: 'memory',
        confirm: true,
        said: `Vehicle heaters: ${shown(platesW / 1000)} kW by their plates, ${shown(ruleW / 1000)} kW by the text of the set with every place full; sized for the greater.`,
        demand: put('P', Math.max(platesW, ruleW), 'W'),
        workings: [ids.demand],
      }),
    )
  }
  findings.push(...stagingFindings(inputs, facts, ids.staging))
  findings.push(restartFinding(facts, ids.restart))

  const workings: Working[] = [
    {
      id: ids.list,
      title: `Sum of the machine list of ${subject}`,
      steps: [
        ...(
          [
            ['machines', sums.machines],
            ['own', sums.own],
            ['all', sums.all],
          ] as const
        ).map(([name, sum]) => ({
          symbol: `P ${name}`,
          expression: 'ΣP',
          values: [put('plugs', sum.plugs)],
          result: sum.powerW,
          unit: 'W',
          rests: source('machine list', 'told'),
        })),
        {
          symbol: 'ΣS',
          expression: 'ΣV·I, plain',
          values: [],
          result: sums.all.plainVA,
          unit: 'VA',
          rests: source('machine list', 'told'),
        },
        {
          symbol: 'S',
          expression: '√((ΣP)² + (ΣQ)²)',
          values: [put('ΣP', sums.all.powerW, 'W'), put('ΣQ', sums.all.reactiveVar.high, 'var')],
          result: sums.all.vectorVA.high,
          unit: 'VA',
          rests: source('sum of P and Q', 'computed'),
        },
        {
          symbol: 'W',
          expression: 'ΣP·h·duty',
          values: [],
          result: sums.all.energyPerDayKWh,
          unit: 'kWh a day',
          rests: source('machine list', 'told'),
        },
      ],
    },
    {
      id: ids.demand,
      title: `Service that ${subject} needs`,
      steps: worked.steps,
      judgement: {
        demand: put('I', demand.needA, 'A'),
        relation: '≤',
        limit: put('In', limitA, 'A'),
        tight: '10 %',
        rests: source(rules.title, weakestDemand),
      },
      notes: [
        demand.basis === 'everything on'
          ? 'No clock or thermostat lowers this: they fail on in the cold.'
          : 'A hard cap holds the sum: the interlock is in the design and fails off.',
      ],
    },
    stagingWorking(facts, ids.staging),
    {
      id: ids.restart,
      title: `Restart of ${subject} after an outage`,
      steps: [
        {
          symbol: 'I',
          expression: 'everything that is plugged in, worst leg',
          values: demand.legs.map((l) => put(l.leg, l.allOnA, 'A')),
          result: coldRestart.worstA,
          unit: 'A',
          rests: source('machine list', 'told'),
        },
        {
          symbol: 'I+',
          expression: 'and the largest motor starting on top',
          values: [],
          result: coldRestart.withLargestStartA,
          unit: 'A',
          rests: source('usual start ratios, or the plate', 'common practice'),
        },
      ],
    },
  ]
  if (demand.capA !== null || staging.control === 'interlock') findings.push(capFinding(inputs, facts, ids.staging))
  return { findings, workings }

  function ownLoadFindings(of: BoxFacts): Finding[] {
    const own = of.loads.filter((load) => load.own !== null)
    const without = own.filter((load) => {
      const home = of.behind.find((b) => b.box === load.box)
      return !home?.circuits.some((c) => c.own === load.own)
    })
    const watts = own.map((load) => `${load.own} ${Math.round(load.powerW)} W`).join(', ')
    return [
      found({
        code: 'needs/own-loads',
        subject,
        verdict: without.length > 0 ? 'fails' : 'holds',
        basis: 'house',
        provenance: 'common practice',
        said:
          without.length > 0
            ? `The box has no circuit for its own ${without.map((load) => load.own).join(', ')}.`
            : `The box's own loads are on the list: ${watts}.`,
        assumed: own.map((load) => `boxes.${load.box}.${load.own}`),
        workings: [`${subject}/list`],
      }),
    ]
  }

  function capFinding(at: Inputs, of: BoxFacts, id: string): Finding {
    const cap = of.box.staging.capA
    const fixedA = Math.max(
      ...demand.legs.map((l) =>
        of.loads.filter((load) => load.legs.includes(l.leg) && !load.stageable).reduce((sum, load) => sum + load.currentA, 0),
      ),
    )
    const peakA = of.staging.worst.after
    const holdsCap = capHolds(at.job, of.box.staging)
    const verdict: Verdict =
      cap === null ? 'unknown' : !holdsCap ? 'fails' : worst([judgeUpper(peakA, cap, 0), judgeUpper(fixedA, cap, TIGHT_FRAC)])
    const said =
      cap === null
        ? 'An interlock is in the design without the current it holds.'
        : !holdsCap
          ? `A hand switch puts everything on, so the interlock's ${shown(cap)} A holds nothing: the size stays that of everything on.`
          : `The interlock holds ${shown(cap)} A on each leg and fails off; the staged peak is ${shown(peakA)} A, and ${shown(fixedA)} A of it cannot be shed.`
    return found({
      code: 'needs/interlock-cap',
      subject,
      verdict,
      basis: 'house',
      provenance: 'told',
      said,
      demand: put('I', Math.max(peakA, fixedA), 'A'),
      ...(cap === null ? {} : { limit: put('cap', cap, 'A') }),
      workings: [id],
    })
  }

  function restartFinding(of: BoxFacts, id: string): Finding {
    const limit = of.box.serviceA
    const verdict = coldRestart.lockedOutBy !== null ? 'holds' : judgeUpper(coldRestart.worstA, limit, TIGHT_FRAC)
    const what =
      coldRestart.lockedOutBy ??
      (of.box.staging.control === 'timers' ? 'nothing locks it out: timers fail on' : 'nothing locks it out')
    return found({
      code: 'needs/cold-restart',
      subject,
      verdict,
      basis: 'physics',
      provenance: 'told',
      said: `After an outage everything starts at once: ${shown(coldRestart.sumW / 1000)} kW, ${shown(coldRestart.worstA)} A on the worst leg of a ${limit} A service, ${shown(coldRestart.withLargestStartA)} A as the largest motor starts; ${what}.`,
      demand: put('I', coldRestart.worstA, 'A'),
      limit: put('In', limit, 'A'),
      workings: [id],
      mends:
        verdict === 'fails'
          ? [
              {
                path: 'staging.control',
                value: 'interlock',
                words: 'an interlock that fails off and lets groups in one after the other',
              },
            ]
          : [],
    })
  }
}

const firmness = (peak: PeakProof): string =>
  peak.proof === 'gap'
    ? `${Math.round(peak.gapFrac * 100)} % above its bound of ${shown(peak.bound)} A`
    : peak.proof === 'proven'
      ? 'proven least'
      : 'proven least for starts on the quarter-hour'

function stagingFindings(inputs: Inputs, facts: BoxFacts, id: string): Finding[] {
  const { subject, staging } = facts
  const { worst: peak } = staging
  const total = staging.peaks.find((p) => p.of === 'total')
  const kW = (w: number | undefined) => shown((w ?? Number.NaN) / 1000)
  const out: Finding[] = []
  if (staging.control === 'none') {
    const could = peak.bound < peak.before * (1 - GAP_FRAC)
    out.push(
      found({
        code: 'needs/staging',
        subject,
        verdict: 'holds',
        basis: 'house',
        provenance: 'told',
        said: `Nothing is staged: the worst leg peaks at ${shown(peak.before)} A at ${clock(peak.atH)}${could ? `; no staging brings it below ${shown(peak.bound)} A` : ', and staging would change little'}.`,
        demand: put('I', peak.after, 'A'),
        limit: put('bound', peak.bound, 'A'),
        workings: [id],
        mends: could
          ? [{ path: 'staging.control', value: 'timers', words: 'start times by clocks: a lower bill, not a smaller service' }]
          : [],
      }),
    )
    return out
  }
  out.push(
    found({
      code: 'needs/staging',
      subject,
      verdict: peak.proof === 'gap' && peak.gapFrac > GAP_FRAC ? 'tight' : 'holds',
      basis: 'house',
      provenance: 'told',
      said: `Staged, leg ${peak.of} peaks at ${shown(peak.after)} A instead of ${shown(peak.before)} A, ${firmness(peak)}; all together ${kW(total?.after)} kW instead of ${kW(total?.before)} kW.`,
      demand: put('I', peak.after, 'A'),
      limit: put('bound', peak.bound, 'A'),
      workings: [id],
    }),
  )
  if (staging.control === 'timers') {
    out.push(
      found({
        code: 'needs/timers-fail-on',
        subject,
        verdict: 'holds',
        basis: 'house',
        provenance: 'common practice',
        said: `Timers and thermostats fail on in the cold: they lower the bill, and the service stays sized for everything on${inputs.job.needs.manualAllOn ? '; the hand switch puts everything on as well' : ''}.`,
        workings: [id],
      }),
    )
  }
  return out
}

function stagingWorking(facts: BoxFacts, id: string): Working {
  const { staging, subject } = facts
  return {
    id,
    title: `Start times of ${subject}`,
    steps: staging.peaks.flatMap((peak) => [
      ...peak.bounds.map((bound) => ({
        symbol: `${peak.of} ≥`,
        expression: BOUND_WORDS[bound.rule],
        values: [put('from', clock(bound.fromH)), put('to', clock(bound.toH))],
        result: bound.value,
        unit: peak.unit,
        rests: source('bound over spans of the day', 'computed'),
      })),
      {
        symbol: `${peak.of} peak`,
        expression: 'sum of what is on',
        values: [put('at', clock(peak.atH)), put('before', peak.before, peak.unit)],
        result: peak.after,
        unit: peak.unit,
        rests: source('start times of the design', 'computed'),
      },
    ]),
    notes: [
      `Made least: ${staging.objective}. ${staging.workCount} placements tried.`,
      'What a clock cannot move is counted as on through its whole window.',
      `Duty even while on, no staging of any kind keeps the mean below ${shown(staging.dutyBoundW / 1000)} kW from ${clock(staging.dutyBoundFromH)} to ${clock(staging.dutyBoundToH)}.`,
    ],
  }
}

const BOUND_WORDS: Record<PeakProof['bounds'][number]['rule'], string> = {
  energy: 'energy of runs whose window lies in the span, over its length',
  energetic: 'hours that cannot fall outside the span, over its length',
  compulsory: 'runs longer than half their window, on in the middle of it',
  step: 'equal runs in one window go in waves',
  'rounded up': 'least sum of machines that reaches the bound',
  search: 'searched through: no lower peak exists',
}
