import { type DemandLane, demandDay } from '@plugstead/drawings'
import { formatHour, THIN } from '@plugstead/engine/kernel'
import type { Block, Inline, Sheet } from '../content.ts'
import { type BookInput, type BoxNeeds, chartWidth } from '../results.ts'
import { boxName, col, number, percent, quantity, right, spanOf } from '../words.ts'

const LANE_MM = 40
/** Groups on the demand day: more would not be told apart by hatch. */
const MOST_GROUPS = 6

/** Machine list, what the service must carry, and the day before and after staging. */
export function needsSheets(input: BookInput): readonly Sheet[] {
  const { assessment, design } = input
  return assessment.results.needs.boxes.flatMap((box) => {
    const name = boxName(box, assessment.results.needs.boxes)
    const serviceA = design.boxes.find((b) => b.box === box.box && b.phase === box.phase)?.serviceA ?? null
    return [machineSheet(box, name), daySheet(box, name, serviceA, chartWidth(input))]
  })
}

function machineSheet(box: BoxNeeds, name: string): Sheet {
  return {
    part: 'needs',
    head: 'What has to run',
    sub: `${name}, with its own light, heat and controls`,
    scale: 'not to scale',
    key: true,
    blocks: [
      {
        k: 'table',
        columns: [
          col('plug'),
          col('what', -1),
          col('outlet'),
          right('V'),
          right('W'),
          right('VA'),
          right('pf'),
          right('A'),
          col('legs'),
          right('h a day'),
          right('from'),
          right('ready'),
        ],
        rows: box.rows.map((r) => [
          [['b', r.tag]],
          r.own ? `${r.what} (of the box)` : r.what,
          r.outlet,
          number(r.voltageV),
          number(r.powerW),
          [spanOf(r.apparentVA, '')],
          [spanOf(r.powerFactorFrac, '')],
          r.provenance === 'told'
            ? [['told', number(r.currentA)]]
            : r.provenance === 'assumed'
              ? [['assumed', number(r.currentA)]]
              : number(r.currentA),
          r.legs.join(''),
          number(r.hoursPerDay),
          r.fromH === r.readyH ? 'all day' : formatHour(r.fromH),
          r.fromH === r.readyH ? '' : formatHour(r.readyH),
        ]),
      },
      ...(box.sharedPlugs.length > 0
        ? [
            {
              k: 'para' as const,
              text: `One plug for several rows, their currents added: ${box.sharedPlugs.map((s) => `${s.plug} (${s.tags.join(', ')}) ${quantity(s.currentA, 'A')}`).join('; ')}.`,
            },
          ]
        : []),
      { k: 'head', text: 'Sums', note: 'everything on at nameplate' },
      {
        k: 'table',
        columns: [
          col('', -1),
          right('plugs'),
          right('W'),
          right('VA, plain sum'),
          right('VA that flows'),
          right('pf'),
          right('kWh a day'),
          right('kWh a month of full days'),
          right('kWh a year'),
        ],
        rows: (
          [
            ['machines', box.machines],
            ['the box itself', box.own],
            ['all', box.all],
          ] as const
        ).map(([words, s]) => [
          words,
          number(s.plugs),
          number(s.powerW),
          number(s.plainVA),
          [spanOf(s.vectorVA, '')],
          [spanOf(s.powerFactorFrac, '')],
          number(s.energyPerDayKWh),
          number(s.energyFullMonthKWh),
          number(s.energyPerYearKWh),
        ]),
      },
      { k: 'head', text: 'What the service must carry', note: `${box.demand.basis}; worst leg ${box.demand.worstLeg}` },
      {
        k: 'table',
        columns: [
          col('leg', -1),
          right('all on, A'),
          right('phasor sum, A'),
          right('staged, A'),
          right('continuous, A'),
          right('other, A'),
          right('largest motor, A'),
          right('line–neutral, A'),
        ],
        rows: box.demand.legs.map((l) => [
          l.leg,
          number(l.allOnA),
          number(l.phasorA),
          number(l.stagedA),
          number(l.continuousA),
          number(l.otherA),
          number(l.largestMotorA),
          number(l.lineNeutralA),
        ]),
      },
      {
        k: 'facts',
        rows: [
          ['asked by the rule set', quantity(box.demand.needA, 'A')],
          [`with ${percent(box.demand.growthFrac)} growth`, quantity(box.demand.needWithGrowthA, 'A')],
          ['next standard size', quantity(box.demand.deviceA, 'A', 'none is large enough')],
          ['unbalance, everything on', percent(box.demand.imbalanceFrac)],
          [
            'cold restart after an outage',
            `${quantity(box.coldRestart.worstA, 'A')} on the worst leg, ${quantity(box.coldRestart.withLargestStartA, 'A')} with the largest motor start on top; ${box.coldRestart.lockedOutBy === null ? 'nothing holds the rest off' : `held off by ${box.coldRestart.lockedOutBy}`}`,
          ],
        ],
      },
    ],
  }
}

function daySheet(box: BoxNeeds, name: string, serviceA: number | null, widthMm: number): Sheet {
  const st = box.staging
  const control: Readonly<Record<string, string>> = {
    none: 'Nobody holds the starts apart.',
    timers: 'Timers hold the starts apart. A timer fails on: it cuts the peak and the bill, never the size of the service.',
    interlock: 'An interlock holds the cap and fails off: the size may rest on it.',
  }
  return {
    part: 'needs',
    head: 'The day, before and after staging',
    sub: name,
    scale: 'not to scale',
    key: true,
    blocks: [
      { k: 'para', text: `${control[box.control] ?? ''} ${st.objective === '' ? '' : `Made least: ${st.objective}.`}` },
      {
        k: 'drawing',
        scene: demandDay({
          widthMm,
          laneMm: box.demand.legs.length > 2 ? 32 : LANE_MM,
          unit: 'A',
          lanes: lanesOf(box, serviceA),
        }),
      },
      { k: 'para', small: true, text: legendOf(box) },
      {
        k: 'table',
        columns: [
          col('peak of', -1),
          right('before'),
          right('staged'),
          right('first at'),
          right('no plan can be below'),
          col('by the rule'),
          right('gap'),
          col('proof'),
        ],
        rows: st.peaks.map((p): Inline[] => {
          const best = p.bounds.find((b) => b.value === p.bound)
          return [
            p.of === 'total' ? 'all together' : `leg ${p.of}`,
            quantity(p.before, p.unit),
            quantity(p.after, p.unit),
            formatHour(p.atH),
            quantity(p.bound, p.unit),
            best === undefined
              ? ''
              : `${best.rule}, ${best.fromH === best.toH ? 'whole day' : `${formatHour(best.fromH)} to ${formatHour(best.toH)}`}`,
            percent(p.gapFrac),
            p.proof,
          ]
        }),
      },
      { k: 'head', text: 'Starts', note: `${st.moved.length} of ${Object.keys(st.startH).length} plugs had room to move` },
      startsTable(box),
    ],
  }
}

function startsTable(box: BoxNeeds): Block {
  const rows = box.rows.filter((r) => box.staging.startH[r.tag] !== undefined)
  const cells = rows.map((r): Inline[] => {
    const start = box.staging.startH[r.tag]!
    return [[['b', r.tag]], `${formatHour(start)} to ${formatHour(start + r.hoursPerDay)}`]
  })
  const per = 4
  const perColumn = Math.ceil(cells.length / per)
  return {
    k: 'table',
    small: true,
    columns: Array.from({ length: per }, () => [col('plug', -1), col('on', -1.4)]).flat(),
    rows: Array.from({ length: perColumn }, (_, i) =>
      Array.from({ length: per }, (_, c) => cells[c * perColumn + i] ?? ['', '']).flat(),
    ),
  }
}

/** Groups of machines by what they are, largest first; the rest together. */
function groupNames(box: BoxNeeds): readonly string[] {
  const watts = new Map<string, number>()
  for (const r of box.rows) watts.set(groupOf(r), (watts.get(groupOf(r)) ?? 0) + r.powerW * r.hoursPerDay)
  return [...watts.entries()].sort((a, b) => b[1] - a[1] || (a[0] < b[0] ? -1 : 1)).map(([name]) => name)
}

const groupOf = (row: BoxNeeds['rows'][number]): string => (row.own ? 'the box itself' : row.what)

function lanesOf(box: BoxNeeds, serviceA: number | null): readonly DemandLane[] {
  const names = groupNames(box)
  const shown = names.length > MOST_GROUPS ? names.slice(0, MOST_GROUPS - 1) : names
  const legs = box.demand.legs.map((l) => l.leg)
  return legs.map((leg) => {
    const groups = new Map<string, number[]>(
      [...shown, ...(shown.length < names.length ? ['others'] : [])].map((n) => [n, new Array<number>(96).fill(0)]),
    )
    for (const row of box.rows) {
      if (!row.legs.includes(leg)) continue
      const start = box.staging.startH[row.tag] ?? row.fromH
      const into = groups.get(groupOf(row)) ?? groups.get('others')!
      const slots = Math.min(96, Math.round(row.hoursPerDay * 4))
      for (let k = 0; k < slots; k += 1) {
        const at = (Math.round(start * 4) + k) % 96
        into[at] = into[at]! + row.currentA
      }
    }
    const after = box.staging.afterA[leg] ?? []
    // What the engine's profile has beyond the groups drawn here (boxes fed from this one) stands as a group of its own.
    const missing = after.map((v, s) => Math.max(0, v - [...groups.values()].reduce((sum, g) => sum + g[s]!, 0)))
    const all = [...groups.entries()].map(([name, values]) => ({ name, after: values }))
    if (missing.some((v) => v > 1e-6)) all.push({ name: 'fed from here', after: missing })
    const proof = box.staging.peaks.find((p) => p.of === leg)
    return {
      name: `leg ${leg}`,
      before: box.staging.beforeA[leg] ?? [],
      groups: all,
      bound: proof?.bound ?? null,
      service: serviceA,
      workings: { peak: `${box.box}/staging`, service: `${box.box}/service-demand` },
    }
  })
}

const HATCH_WORDS = [
  'upright lines close',
  'slant lines close',
  'upright lines wide',
  'slant lines wide',
  'dots',
  'blank',
] as const

function legendOf(box: BoxNeeds): string {
  const names = groupNames(box)
  const shown = names.length > MOST_GROUPS ? [...names.slice(0, MOST_GROUPS - 1), 'others'] : names
  return `From the base: ${shown.map((n, i) => `${n}, ${HATCH_WORDS[i]}`).join('; ')}. Thin outline: everything started when its window opens. Chain line: no plan can be below it. Heavy line: the supply; where it is missing, the supply stands above the sheet. Amperes,${THIN}quarter hours.`
}
