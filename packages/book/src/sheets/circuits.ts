import { formatQuantity, type Verdict } from '@plugstead/engine/kernel'
import type { Block, Inline, PanelWay, Sheet } from '../content.ts'
import type { BookInput, BoxCircuits, CircuitRow } from '../results.ts'
import { boxName, col, marked, number, percent, plain, quantity, right } from '../words.ts'

/** Panel schedule, circuits, conductors, raceways, cords and labels of each box. */
export function circuitsSheets({ assessment, design }: BookInput): readonly Sheet[] {
  const all = assessment.results.circuits.boxes
  return all.flatMap((box) => {
    const name = boxName(box, all)
    const legs = box.legs.map((l) => l.leg)
    return [
      panelSheet(box, name, legs),
      sheet('Circuits', name, circuitTables(box)),
      sheet('Conductors and raceways', name, conductorBlocks(box)),
      sheet('Cords', `${name}: from the receptacle to the machine`, cordBlocks(box)),
      sheet('Labels', `${name}: to be cut out and stuck where they say`, labelBlocks(box, design)),
      sheet('Material', `${name}: what the circuits ask for`, materialBlocks(box)),
    ]
  })
}

const sheet = (head: string, sub: string, blocks: readonly Block[]): Sheet => ({
  part: 'circuits',
  head,
  sub,
  scale: 'not to scale',
  key: true,
  blocks,
})

function panelSheet(box: BoxCircuits, name: string, legs: readonly string[]): Sheet {
  const p = box.panel
  const byId = new Map(box.circuits.map((c) => [c.id, c]))
  const ways = [...p.ways].sort((a, b) => a.way - b.way)
  const left = ways.filter((w) => w.way % 2 === 1)
  const opposite = ways.filter((w) => w.way % 2 === 0)
  const rows = Math.max(left.length, opposite.length)
  const wayOf = (w: (typeof ways)[number]): PanelWay => {
    const circuit = w.circuit === null ? undefined : byId.get(w.circuit)
    if (circuit === undefined)
      return {
        way: String(w.way),
        serves: w.label === '' ? 'empty' : w.label,
        outlet: '',
        currentA: '',
        device: '',
        size: '',
        verdict: null,
      }
    const first = Math.min(...circuit.ways) === w.way
    if (!first)
      return {
        way: String(w.way),
        serves: `↑ pole ${[...circuit.ways].sort((a, b) => a - b).indexOf(w.way) + 1} of ${circuit.id}`,
        outlet: '',
        currentA: number(w.currentA),
        device: '',
        size: '',
        verdict: null,
      }
    return {
      way: String(w.way),
      serves: w.label || circuit.label,
      outlet: circuit.outlet,
      currentA: number(w.currentA),
      device: circuit.devicePoles > 1 ? `${circuit.deviceA}/${circuit.devicePoles}` : String(circuit.deviceA),
      size: bareSize(circuit.line),
      verdict: circuit.verdict,
    }
  }
  return sheet(
    'Panel schedule',
    `${name}: ${p.mainA} A main, ${p.mainPoles} poles, bus ${p.busA} A, ${plain(`${p.interruptingKA} kA`)}, ${p.usedCount} of ${p.waysCount} ways used, ${p.spareCount} left (${p.spareWantedCount} wanted)`,
    [
      {
        k: 'panel',
        sizeTitle: sizeTitle(box),
        legs,
        left: left.map(wayOf),
        right: opposite.map(wayOf),
        spine: Array.from({ length: rows }, (_, i) => ({ legs: [left[i]?.leg ?? opposite[i]?.leg ?? ''] })),
      },
      {
        k: 'para',
        small: true,
        text: `A: current on the way's leg. Poles after the stroke. ${p.bond}. ${p.stubs.length > 0 ? `Raceways left for the next electrician: ${p.stubs.join(', ')}.` : 'No raceway is left for later.'}`,
      },
      {
        k: 'head',
        text: 'Legs',
        note: box.balance.proven
          ? 'no assignment of legs has a lower peak'
          : `no assignment of legs can be below ${quantity(box.balance.peakBoundA, 'A')}`,
      },
      {
        k: 'table',
        columns: [col('leg', -1), right('W'), right('VA'), right('all on, A'), right('highest as staged, A'), right('from')],
        rows: box.legs.map((l) => [
          l.leg,
          number(l.powerW),
          number(l.apparentVA),
          number(l.allOnA),
          number(l.peakA),
          clock(l.peakH),
        ]),
      },
      {
        k: 'facts',
        rows: [
          [
            'unbalance',
            `${percent(box.balance.allOnImbalanceFrac)} everything on, ${percent(box.balance.peakImbalanceFrac)} at the highest quarter hour`,
          ],
          [
            'neutral of the feed',
            `${quantity(box.balance.neutralStagedA, 'A')} as staged, ${quantity(box.balance.neutralWorstA, 'A')} with the worst set of machines on`,
          ],
        ],
      },
    ],
  )
}

const clock = (h: number): string =>
  `${String(Math.floor(h)).padStart(2, '0')}:${String(Math.round((h % 1) * 60)).padStart(2, '0')}`
const bareSize = (size: string): string =>
  size.replace(/ (AWG|kcmil|mm2)$/, (_, unit: string) => (unit === 'kcmil' ? ' kcmil' : ''))
const sizeTitle = (box: BoxCircuits): string => (box.feed.line.endsWith('mm2') ? 'mm²' : 'AWG')
export const sizeWords = (size: string | null): string => (size === null ? '–' : size.replace('mm2', 'mm²'))

function shockWords(c: CircuitRow): string {
  const s = c.shock
  if (s.kind === 'none') return 'none'
  const sensitivity = s.sensitivityMA === null ? '' : `, ${formatQuantity(s.sensitivityMA, 'mA')}`
  return `${s.kind}${s.form === null ? '' : ` ${s.form}`}${sensitivity}${c.shockCount > 1 ? ` × ${c.shockCount}` : ''}`
}

function circuitTables(box: BoxCircuits): readonly Block[] {
  const families = [...new Set(box.circuits.map((c) => c.deviceFamily))]
  const several = families.length > 1
  return [
    ...(several || families.length === 0
      ? []
      : [{ k: 'para' as const, small: true, text: `All devices are of the family ${families[0]}.` }]),
    {
      k: 'table',
      small: true,
      columns: [
        col('circuit'),
        col('ways'),
        col('legs'),
        col('serves', -1.3),
        col('outlet'),
        right('W'),
        right('A'),
        right('device, A'),
        ...(several ? [col('family')] : []),
        col('shock', -0.9),
        right('kA'),
        right('m'),
        col('', 15),
      ],
      rows: box.circuits.map((c) => [
        [['b', c.id]],
        c.ways.join('+'),
        c.legs.join(''),
        c.label,
        c.outletCount > 1 ? `${c.outletCount} × ${c.outlet}` : c.outlet,
        number(c.powerW),
        number(c.currentA),
        c.devicePoles > 1 ? `${c.deviceA}/${c.devicePoles}` : String(c.deviceA),
        ...(several ? [c.deviceFamily] : []),
        shockWords(c),
        number(c.interruptingKA),
        number(c.lengthM),
        marked(c.verdict, c.verdict),
      ]),
    },
    { k: 'head', text: 'Checks that decide', note: 'the nearest of each circuit, but for ratings chosen to be equal' },
    {
      k: 'table',
      small: true,
      columns: [
        col('circuits', -1.6),
        col('check', -1),
        col('demand', -0.8),
        col('limit', -0.8),
        right('left'),
        col('worked out on', 22),
        col('', 18),
      ],
      rows: nearestRows(box),
    },
  ]
}

/** The nearest check of each circuit; circuits with the same figures share a row. A rating chosen equal to its limit cannot come nearer. */
function nearestRows(box: BoxCircuits): readonly (readonly Inline[])[] {
  const groups = new Map<
    string,
    { readonly ids: string[]; readonly cells: readonly Inline[]; readonly working: string; readonly verdict: Verdict }
  >()
  for (const c of box.circuits) {
    const byMargin = [...c.checks].sort((a, b) => (a.marginFrac ?? Infinity) - (b.marginFrac ?? Infinity))
    const nearest = byMargin.find((x) => x.verdict !== 'holds' || x.marginFrac !== 0) ?? byMargin[0]
    if (nearest === undefined) continue
    const cells = [
      nearest.code,
      `${nearest.demand.symbol} = ${formatQuantity(nearest.demand.value, nearest.demand.unit)}`,
      `${nearest.limit.symbol} = ${formatQuantity(nearest.limit.value, nearest.limit.unit)}`,
      percent(nearest.marginFrac),
    ]
    const key = JSON.stringify([cells, nearest.verdict])
    const group = groups.get(key)
    if (group === undefined) groups.set(key, { ids: [c.id], cells, working: nearest.working, verdict: nearest.verdict })
    else group.ids.push(c.id)
  }
  return [...groups.values()].map(({ ids, cells, working, verdict }) => [
    [['b', ids.join(', ')]],
    ...cells,
    [['sheet', working]],
    marked(verdict, verdict),
  ])
}

function conductorBlocks(box: BoxCircuits): readonly Block[] {
  const f = box.feed
  return [
    {
      k: 'table',
      small: true,
      columns: [
        col('circuit'),
        col('line'),
        col('neutral'),
        col('protective'),
        col('insulation'),
        col('metal'),
        right('sets'),
        right('m'),
        right('carries, A'),
        right('at'),
        right('carrying'),
        col('raceway', -1),
        col('shares'),
        right('box, cm³'),
      ],
      rows: [
        [
          [['b', 'feed']],
          sizeWords(f.line),
          sizeWords(f.neutral),
          sizeWords(f.protective),
          '',
          '',
          number(f.sets),
          number(f.lengthM),
          '',
          '',
          '',
          f.raceway,
          '',
          '',
        ],
        ...box.circuits.map((c): Inline[] => [
          [['b', c.id]],
          sizeWords(c.line),
          sizeWords(c.neutral),
          sizeWords(c.protective),
          c.insulation,
          c.metal,
          number(c.sets),
          number(c.lengthM),
          number(c.ampacityA),
          quantity(c.ambientC, '°C'),
          number(c.carryingCount),
          c.raceway,
          c.racewayShared ?? '–',
          c.boxVolumeMm3 === null ? '–' : number(c.boxVolumeMm3 / 1000),
        ]),
      ],
    },
    {
      k: 'para',
      small: true,
      text: `Feed from ${f.from}. Electrode: ${f.electrode}, conductor ${sizeWords(f.electrodeConductor)}.`,
    },
    { k: 'head', text: 'Wire by size and colour' },
    {
      k: 'table',
      columns: [
        col('size'),
        col('metal'),
        col('insulation'),
        col('colour', -1),
        col('use'),
        right('pieces'),
        right('metres together'),
      ],
      rows: box.wires.map((w) => [sizeWords(w.size), w.metal, w.insulation, w.colour, w.use, number(w.count), number(w.lengthM)]),
    },
    { k: 'head', text: 'Raceways' },
    {
      k: 'table',
      columns: [col('kind', -1), col('trade size'), right('pieces'), right('metres together')],
      rows: box.raceways.map((r) => [r.kind, r.trade, number(r.count), number(r.lengthM)]),
    },
  ]
}

function cordBlocks(box: BoxCircuits): readonly Block[] {
  if (box.cords.length === 0) return [{ k: 'para', text: 'No cord: every machine is wired.' }]
  return [
    {
      k: 'table',
      columns: [
        col('plug'),
        col('circuit'),
        col('what', -1),
        col('type'),
        col('size'),
        right('m'),
        right('A'),
        right('carries, A'),
        right('jacket to'),
        right('wanted'),
        col('', 20),
      ],
      rows: box.cords.map((c) => [
        [['b', c.plug]],
        c.circuit,
        c.plugs.length > 1 ? `${c.what} (${c.plugs.join(', ')})` : c.what,
        c.type,
        sizeWords(c.size),
        number(c.lengthM),
        number(c.currentA),
        number(c.ampacityA),
        quantity(c.jacketMinC, '°C', 'not marked'),
        quantity(c.wantedMinC, '°C', 'not told'),
        marked(c.verdict, c.verdict),
      ]),
    },
  ]
}

function labelBlocks(box: BoxCircuits, design: BookInput['design']): readonly Block[] {
  const of = design.boxes.find((b) => b.box === box.box && b.phase === box.phase)
  const head =
    of === undefined
      ? []
      : [{ lines: [box.subject, `${of.system}, ${of.serviceA} A`, `earthing ${of.earthing}`], caution: false }]
  return [
    {
      k: 'labels',
      labels: [
        ...head,
        ...box.labels.map((l) => ({
          lines: [l.place, ...plain(l.text).split('\n')],
          caution: /danger|warning|shock|isolate|two sources|not be opened/i.test(l.text),
        })),
      ],
    },
  ]
}

function materialBlocks(box: BoxCircuits): readonly Block[] {
  const m = box.material
  return [
    {
      k: 'table',
      small: true,
      columns: [
        col('item', -1),
        col('for', -1),
        right('quantity'),
        col('per'),
        right(`each, ${m.currency}`),
        right(m.currency),
        col('date'),
        col('price from', -0.8),
      ],
      rows: [
        ...m.lines.map((l): Inline[] => [
          l.id,
          l.for,
          number(l.quantity),
          l.per,
          l.unitMoney.toFixed(2),
          l.money.toFixed(2),
          l.date,
          l.source,
        ]),
        [[['b', 'together']], '', '', '', '', [['b', m.totalMoney.toFixed(2)]], '', ''],
      ],
    },
    ...(m.missing.length > 0
      ? [
          { k: 'head' as const, text: 'Not in the sum' },
          {
            k: 'table' as const,
            small: true,
            columns: [col('item', -1), col('for', -1), right('quantity'), col('why', -1)],
            rows: m.missing.map((x): Inline[] => [x.id, x.for, number(x.quantity), x.why]),
          },
        ]
      : []),
  ]
}
