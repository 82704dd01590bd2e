import { formatHour } from '@plugstead/engine/kernel'
import type { Block, Inline, Sheet } from '../content.ts'
import type { BookInput, BoxReach } from '../results.ts'
import { boxName, col, marked, number, percent, plain, quantity, right } from '../words.ts'
import { sizeWords } from './circuits.ts'

/** Volts at each plug, motor starts, the open neutral, and how long a cord may be. */
export function reachSheets({ assessment }: BookInput): readonly Sheet[] {
  const all = assessment.results.reach.boxes
  return all.map(
    (box): Sheet => ({
      part: 'reach',
      head: 'Volts at every plug',
      sub: `${boxName(box, all)}, fed by ${box.offer} (${box.mode}), conductors at ${plain(`${number(box.conductorC)} °C`)}`,
      scale: 'not to scale',
      key: true,
      blocks: [...voltBlocks(box), ...cordBlocks(box), ...startBlocks(box), ...neutralBlocks(box)],
    }),
  )
}

function voltBlocks(box: BoxReach): readonly Block[] {
  const all = box.states[0]
  if (all === undefined) return [{ k: 'para', text: 'No load state was solved.' }]
  const staged = box.states.slice(1)
  const worstStaged = (plug: string): string => {
    const volts = staged.flatMap((s) => s.plugs.filter((p) => p.plug === plug).map((p) => ({ v: p.voltageV, h: s.hoursH })))
    if (volts.length === 0) return '–'
    const low = volts.reduce((a, b) => (b.v < a.v ? b : a))
    return low.h.length === 0 ? quantity(low.v, 'V') : `${quantity(low.v, 'V')} at ${formatHour(low.h[0]!)}`
  }
  const limit = `limit ${box.limit.branchFrac === null ? '' : `${percent(box.limit.branchFrac)} from the panel, `}${percent(box.limit.totalFrac)} in all, basis ${box.limit.basis}: ${box.limit.place}`
  if (all.outcome !== 'solved') {
    return [
      {
        k: 'strip',
        text: `Everything on at once has ${all.outcome === 'none' ? 'no solution: the volts collapse' : 'not been solved: the iteration was given up'}. ${all.culprits.length > 0 ? `It hangs on ${all.culprits.join(', ')}.` : ''}`,
      },
    ]
  }
  return [
    { k: 'para', small: true, text: plain(limit) },
    {
      k: 'table',
      columns: [
        col('plug', -1),
        col('circuit'),
        right('nominal'),
        right('all on'),
        right('of nominal'),
        right('at best'),
        right('to the outlet'),
        right('with its cord'),
        right('lost in all'),
        right('heat left'),
        right('A'),
        right('lowest, staged'),
      ],
      rows: all.plugs.map((p) => [
        [['b', p.plug]],
        p.circuit,
        quantity(p.nominalV, 'V'),
        quantity(p.voltageV, 'V'),
        quantity(p.voltagePct, '%'),
        quantity(p.bestV, 'V'),
        percent(p.outletDropFrac),
        percent(p.branchDropFrac),
        percent(p.totalDropFrac),
        percent(p.heatLeftFrac),
        number(p.currentA),
        worstStaged(p.plug),
      ]),
    },
    {
      k: 'facts',
      rows: [
        ['at the panel, everything on', `${volts(all.panelV)}; strong source ${volts(all.panelBestV)}`],
        [
          'legs and neutral',
          `${Object.entries(all.legA)
            .map(([leg, a]) => `${leg} ${quantity(a ?? null, 'A')}`)
            .join(', ')}, neutral ${quantity(all.neutralA, 'A')}`,
        ],
        ['watts in, used, lost', `${quantity(all.sourceW, 'W')} = ${quantity(all.loadW, 'W')} + ${quantity(all.lossW, 'W')}`],
        [
          'how well it is solved',
          `${all.passes} passes, largest current left over ${scientific(all.residualA)}${'\u202f'}A, power left over ${scientific(all.imbalanceW)}${'\u202f'}W`,
        ],
      ],
    },
  ]
}

const volts = (v: Readonly<Record<string, number>>): string =>
  Object.entries(v)
    .map(([leg, x]) => `${leg} ${quantity(x, 'V')}`)
    .join(', ')

function scientific(value: number): string {
  if (value === 0) return '0'
  const power = Math.floor(Math.log10(Math.abs(value)))
  return Math.abs(power) < 3
    ? number(value)
    : `${number(Number((value / 10 ** power).toFixed(1)))} × 10${String(power)
        .replace('-', '⁻')
        .replace(/\d/g, (d) => '⁰¹²³⁴⁵⁶⁷⁸⁹'[Number(d)]!)}`
}

function cordBlocks(box: BoxReach): readonly Block[] {
  if (box.cords.length === 0) return []
  // As many sizes as stand side by side: from the lightest that does for some cord.
  const sizes = [...new Set(box.cords.flatMap((c) => c.longest.map((l) => l.size)))]
    .filter((s) => box.cords.some((c) => c.longest.some((l) => l.size === s && l.lengthM !== null)))
    .slice(0, MOST_SIZES)
  return [
    { k: 'head', text: 'Cords', note: 'and the longest of each size that still holds, in metres' },
    {
      k: 'table',
      small: true,
      columns: [
        col('plug', -1),
        col('circuit'),
        col('type'),
        col('size'),
        right('m'),
        right('A'),
        right('carries, A'),
        right('drop'),
        right('of nominal'),
        ...sizes.map((s) => right(sizeWords(s))),
        col('', 15),
      ],
      rows: box.cords.map((c) => [
        [['b', c.plug]],
        c.circuit,
        c.type,
        sizeWords(c.size),
        number(c.lengthM),
        number(c.currentA),
        number(c.ampacityA),
        quantity(c.dropV, 'V'),
        quantity(c.dropPct, '%'),
        ...sizes.map((s): Inline => {
          const longest = c.longest.find((l) => l.size === s)
          return longest?.lengthM === undefined || longest.lengthM === null
            ? '–'
            : Number.isFinite(longest.lengthM)
              ? String(Math.floor(longest.lengthM))
              : '∞'
        }),
        marked(c.verdict, c.verdict),
      ]),
    },
  ]
}

const MOST_SIZES = 5

function startBlocks(box: BoxReach): readonly Block[] {
  if (box.starts.length === 0) return []
  return [
    { k: 'head', text: 'Motor starts', note: 'each alone, on top of everything else' },
    {
      k: 'table',
      columns: [
        col('starts'),
        right('A'),
        right('pf'),
        right('dip at the machine'),
        right('dip at the panel'),
        col('below 85 %', -1),
        col('below 70 %', -1),
        right('lowest neighbour'),
      ],
      rows: box.starts.map((s): Inline[] => {
        const low = [...s.neighbours].sort((a, b) => a.voltagePct - b.voltagePct)[0]
        return [
          [['b', s.plug]],
          number(s.startA),
          number(s.startPowerFactorFrac),
          quantity(s.atMachinePct, '%'),
          quantity(s.atPanelPct, '%'),
          s.below85.join(', ') || 'none',
          s.below70.join(', ') || 'none',
          low === undefined ? '–' : `${low.plug} ${quantity(low.voltagePct, '%')}`,
        ]
      }),
    },
  ]
}

function neutralBlocks(box: BoxReach): readonly Block[] {
  const o = box.openNeutral
  if (o === null) return []
  return [
    { k: 'head', text: 'If the neutral of the feed comes loose', note: o.segment },
    {
      k: 'para',
      text:
        o.outcome === 'solved'
          ? `Legs to the floating neutral: ${volts(o.legV)}. ${o.over.length === 0 ? 'No plug rises above 110 % of nominal.' : `Above 110 %: ${o.over.map((p) => `${p.plug} ${quantity(p.voltageV, 'V')} (${quantity(p.voltagePct, '%')})`).join(', ')}.`}`
          : 'No solution was found: judged as the worst.',
    },
  ]
}
