import { rodsDrawing, timeCurrent } from '@plugstead/drawings'
import type { Block, Inline, Sheet } from '../content.ts'
import { type BookInput, type BoxFaults, type BusFault, chartWidth, type FaultChart } from '../results.ts'
import { boxName, col, number, plain, quantity, right, spanOf } from '../words.ts'
import { sizeWords } from './circuits.ts'

/** Fault table of each source position, what trips and when, time–current charts, coordination, rods and touch. */
export function faultsSheets(input: BookInput): readonly Sheet[] {
  const all = input.assessment.results.faults.boxes
  return all.flatMap((box) => {
    const name = boxName(box, all)
    return [
      ...box.sources.map(
        (source): Sheet => ({
          part: 'faults',
          head: 'Fault levels, and what trips',
          sub: `${name}, fed by ${source.offer} (${source.mode}), ${source.told ? 'level told in writing' : 'both ends are bounds'}`,
          scale: 'not to scale',
          key: true,
          blocks: sourceBlocks(source),
        }),
      ),
      ...chartSheets(box, name, chartWidth(input)),
      earthSheet(input, box, name),
    ]
  })
}

function sourceBlocks(source: BoxFaults['sources'][number]): readonly Block[] {
  return [
    {
      k: 'table',
      small: true,
      columns: [
        col('at', -1),
        col('what'),
        col('kind of fault', 20),
        right('highest'),
        right('X/R'),
        right('peak'),
        right('compared'),
        right('interrupts'),
        right('lowest'),
        right('L–N'),
        right('L–earth'),
        right('loop'),
        col('weakest at', -0.7),
      ],
      rows: source.buses.map((b): Inline[] => [
        [['b', b.id]],
        b.kind,
        b.highest?.kind ?? 'unknown',
        quantity(b.highest?.currentA ?? null, 'A', 'unknown'),
        number(b.highest?.xOverRRatio ?? null),
        quantity(b.highest?.peakA ?? null, 'A'),
        quantity(b.highest?.comparedA ?? null, 'A'),
        quantity(b.interruptingA, 'A'),
        quantity(b.lowest?.leastA ?? null, 'A', 'unknown'),
        quantity(b.lowest?.lineNeutralA ?? null, 'A'),
        quantity(b.lowest?.lineEarthA ?? null, 'A'),
        quantity(b.lowest?.earthLoopOhm ?? null, 'Ω'),
        b.lowest?.at ?? '',
      ]),
    },
    {
      k: 'para',
      small: true,
      text: `Highest: cold conductors, lowest impedance, voltage factor ${number(source.voltageFactor.max)}, motors added. Lowest: hot conductors, weakest source, voltage factor ${number(source.voltageFactor.min)}.`,
    },
    { k: 'head', text: 'Does it trip, when, and by which part' },
    {
      k: 'table',
      small: true,
      columns: [
        col('at', -1),
        col('device', -1.2),
        col('line–neutral', -1.1),
        col('line–earth', -1.1),
        col('residual device', 22),
        col('asked', -1.3),
      ],
      rows: source.buses.filter((b) => b.clearing !== null).map(clearingRow),
    },
    ...withstandBlocks(source.buses),
    ...decrementBlocks(source),
  ]
}

function clearingRow(b: BusFault): readonly Inline[] {
  const c = b.clearing!
  const trip = (t: NonNullable<typeof c.lineNeutral> | null): string =>
    t === null
      ? '–'
      : Number.isFinite(t.slowS)
        ? `${quantity(t.fastS, 's')} … ${quantity(t.slowS, 's')}, ${t.by}`
        : t.by === 'nothing'
          ? 'nothing opens it'
          : `may never open, ${t.by}`
  return [
    [['b', b.id]],
    plain(`${c.device}, ${number(c.ratingA)} A ${c.family}`),
    trip(c.lineNeutral),
    trip(c.lineEarth),
    c.residualMA === null ? 'none' : `${quantity(c.residualMA, 'mA')}, ${quantity(c.residualS, 's')}`,
    plain(c.demand.said),
  ]
}

function withstandBlocks(buses: readonly BusFault[]): readonly Block[] {
  const rows = buses.flatMap((b) =>
    b.conductors.map((w): Inline[] => [
      [['b', b.id]],
      w.conductor,
      sizeWords(w.size),
      number(w.letThroughA2s),
      number(w.withstandA2s),
      quantity(w.atA, 'A'),
    ]),
  )
  if (rows.length === 0) return []
  return [
    { k: 'head', text: 'Heat of the fault in the conductors' },
    {
      k: 'table',
      small: true,
      columns: [
        col('at', -1),
        col('conductor', -1),
        col('size'),
        right('let through, A²s'),
        right('withstands, A²s'),
        right('nearest at'),
      ],
      rows,
    },
  ]
}

function decrementBlocks(source: BoxFaults['sources'][number]): readonly Block[] {
  const d = source.decrement
  if (d === null) return []
  return [
    { k: 'head', text: `${d.offer}: the set's current dies away`, note: `rated ${quantity(d.ratedA, 'A')}` },
    {
      k: 'para',
      text: `${d.points.map(([s, a]) => `${quantity(s, 's')} ${quantity(a, 'A')}`).join(', ')}. Sustained ${quantity(d.sustainedA, 'A')}. ${d.belowRatedS === null ? 'It does not fall below the rated current.' : `Below the rated current after ${quantity(d.belowRatedS, 's')}: a breaker's thermal part may never see it.`} ${d.boost === null ? 'Nobody has said whether the exciter is boosted.' : ''}`,
    },
  ]
}

const CHART_HEIGHT_MM = 84

/** Two charts a sheet. */
function chartSheets(box: BoxFaults, name: string, widthMm: number): readonly Sheet[] {
  if (box.charts.length === 0) return []
  return [
    {
      part: 'faults',
      head: 'Time against current',
      sub: `${name}: bands by hatch, fault levels as cut lines, what conductors withstand as chains`,
      scale: 'by decades',
      key: true,
      blocks: box.charts.flatMap((c): Block[] => [
        { k: 'head', text: plain(c.title) },
        { k: 'drawing', scene: timeCurrent({ widthMm, heightMm: CHART_HEIGHT_MM, ...chartParts(c) }) },
      ]),
    },
  ]
}

function chartParts(chart: FaultChart): Omit<Parameters<typeof timeCurrent>[0], 'widthMm' | 'heightMm'> {
  const of = (what: FaultChart['curves'][number]['what']) => chart.curves.filter((c) => c.what === what)
  const named = (c: FaultChart['curves'][number]) => ({ name: plain(c.label), points: c.points })
  return {
    bands: of('device fast').map((fast) => {
      const device = fast.id.replace(/ fast$/, '')
      const slow = of('device slow').find((s) => s.id.replace(/ slow$/, '') === device)
      // Without its slow edge a device has no band: the time it surely opens is not known.
      return { name: plain(fast.label.replace(/, may open$/, '')), fast: fast.points, slow: slow?.points ?? [], of: device }
    }),
    damage: of('cable damage').map(named),
    decay: of('generator').map(named),
    levels: [...of('fault lowest'), ...of('fault highest')].map((c) => ({
      name: plain(c.label),
      currentA: c.points[0]?.[0] ?? Number.NaN,
      of: c.what === 'fault highest' ? `${chart.box}/interrupting` : `${chart.circuit}/clearing`,
    })),
  }
}

function earthSheet(input: BookInput, box: BoxFaults, name: string): Sheet {
  const design = input.design.boxes.find((b) => b.box === box.box && b.phase === box.phase)
  const site = input.job.site
  const e = box.electrode
  const blocks: Block[] = []
  if (design !== undefined) {
    const d = design.electrode
    blocks.push({
      k: 'drawing',
      scene: rodsDrawing({
        widthMm: chartWidth(input),
        kind: d.kind,
        count: d.count,
        lengthM: d.lengthM,
        diameterM: d.diameterM,
        spacingM: d.spacingM,
        conductor: `${sizeWords(d.conductor.size)} ${d.conductor.metal}`,
        frostDepthM: { low: site.frostDepthM.low, high: site.frostDepthM.high },
      }),
    })
  }
  if (e !== null) {
    blocks.push({
      k: 'facts',
      rows: [
        ['soil', [spanOf(site.soilOhmM, 'Ω·m'), `, ${site.soilOhmM.told ? 'told' : plain(site.soilOhmM.basis)}`]],
        ['thawed', [spanOf(e.thawedOhm, 'Ω')]],
        ['frozen', e.frozenOhm === null ? 'frost does not reach it' : [spanOf(e.frozenOhm, 'Ω')]],
        ['both ends', [spanOf({ low: e.lowOhm, high: e.highOhm }, 'Ω')]],
        ['what the electrode alone would pass', `${quantity(e.faultA, 'A')}: no overcurrent device clears a fault through soil`],
      ],
    })
  }
  blocks.push({
    k: 'strip',
    text: 'The electrode is not the way back for fault current. The protective conductor is: prove it continuous before the supply is switched on.',
  })
  if (box.touch.length > 0) {
    blocks.push(
      { k: 'head', text: 'Touch voltage during a fault' },
      {
        k: 'table',
        columns: [col('circuit', -1), col('system', -1), right('volts to touch'), right('limit')],
        rows: box.touch.map((t): Inline[] => [[['b', t.circuit]], t.system, quantity(t.touchV, 'V'), quantity(t.limitV, 'V')]),
      },
    )
  }
  if (box.coordination.length > 0) {
    blocks.push(
      { k: 'head', text: 'Which opens first' },
      {
        k: 'table',
        columns: [col('upstream', -1), col('downstream', -1), right('selective up to'), right('highest that flows'), col('', 40)],
        rows: box.coordination.map((c): Inline[] => [
          c.upstream,
          c.downstream,
          Number.isFinite(c.selectiveToA) ? quantity(c.selectiveToA, 'A') : 'every fault',
          quantity(c.highestA, 'A'),
          c.whole ? 'only the nearer one opens' : 'both may open above it',
        ]),
      },
    )
  }
  blocks.push({ k: 'head', text: 'Arc flash', note: 'a caution, not a study' }, { k: 'strip', text: plain(box.arcFlash.said) })
  return { part: 'faults', head: 'Rods, touch and the order of opening', sub: name, scale: 'not to scale', key: true, blocks }
}
