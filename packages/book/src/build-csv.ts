import type { Assessment } from '@plugstead/engine/assess'
import type { Design } from '@plugstead/engine/job'
import { csv } from './csv.ts'
import type { BookInput } from './results.ts'
import { positionWords, ventRows } from './sheets/air-vents.ts'
import { axisM, fixingWords, lengthMm } from './sheets/build-words.ts'

/** Every opening with its place from the left edge of its side, as seen from outside, and from the underside of the box. */
export function openingsCsv(assessment: Assessment, design: Design): string {
  const designed = new Map(design.builds.flatMap((b) => b.skin.openings.map((o) => [`${b.box} ${o.id}`, o] as const)))
  return csv(
    [
      'box',
      'opening',
      'use',
      'side',
      'class',
      'class asked',
      'shape',
      'from left mm',
      'up mm',
      'width mm',
      'height mm',
      'corner radius mm',
      'above ground mm',
      'frame',
      'hood',
      'mesh mm',
      'clear gap mm',
      'lets in',
      'reached by',
      'serves',
      'verdict',
    ],
    assessment.results.skin.boxes.flatMap((b) =>
      b.openings.map((o) => {
        const of = designed.get(`${b.box} ${o.id}`)
        return [
          b.box,
          o.id,
          o.use,
          o.side,
          o.class,
          o.needs,
          of?.shape ?? null,
          o.fromLeftMm,
          o.upMm,
          o.widthMm,
          o.heightMm,
          of?.cornerRadiusMm ?? null,
          o.aboveGroundMm,
          of?.frame ?? null,
          of === undefined ? null : of.hood ? 'yes' : 'no',
          of?.meshMm ?? null,
          o.clearGapMm,
          o.passes.join('; '),
          o.reaches,
          of?.serves.join(' ') ?? null,
          o.verdict,
        ]
      }),
    ),
  )
}

/** Every piece of channel, end to end in the axes of the box. */
export function strutCsv(design: Design): string {
  return csv(
    [
      'box',
      'piece',
      'use',
      'section',
      'pattern',
      'side',
      'from x mm',
      'from y mm',
      'from z mm',
      'to x mm',
      'to y mm',
      'to z mm',
      'length mm',
      'held by',
      'carries',
    ],
    design.builds.flatMap(({ box, fit }) =>
      fit.strut.map((p) => [
        box,
        p.id,
        p.use,
        p.section,
        p.pattern,
        p.side,
        ...p.fromMm,
        ...p.toMm,
        lengthMm(p),
        fixingWords(p.fixings),
        fit.items
          .filter((i) => i.hangsOn.includes(p.id))
          .map((i) => i.id)
          .join('; '),
      ]),
    ),
  )
}

/** Every raceway: its axis, its bends as laid, where it is held, what lies in it. Pipe, all pieces before bending, kicks, and straps as a kick moves them: where the shop made its sheets. */
export function racewaysCsv(assessment: Assessment, design: Design): string {
  return csv(
    [
      'box',
      'raceway',
      'kind',
      'trade',
      'from',
      'to',
      'circuits',
      'axis m',
      'pipe mm',
      'quarters',
      'offsets',
      'of them bent as kicks',
      'saddles',
      'bends together deg',
      'straps at mm',
      'pull boxes at mm',
      'conductors',
    ],
    design.builds.flatMap(({ box, fit }) => {
      const sheets = assessment.results.shop.boxes.find((b) => b.box === box)?.raceways ?? []
      return fit.raceways.map((r) => {
        const sheet = sheets.find((s) => s.id === r.id)
        const count = (kind: (typeof r.bends)[number]['kind']): number => r.bends.filter((b) => b.kind === kind).length
        return [
          box,
          r.id,
          r.kind,
          r.trade,
          r.from,
          r.to,
          r.circuits.join(' '),
          axisM(r),
          sheet?.developedMm ?? null,
          count('quarter'),
          count('offset'),
          sheet?.bends.filter((b) => b.kind === 'kick').length ?? null,
          count('saddle'),
          r.bends.reduce((sum, b) => sum + b.sumDeg, 0),
          (sheet ?? r).strapsMm.join(' '),
          r.pullsMm.join(' '),
          r.conductors.map((c) => `${c.count} × ${c.size} ${c.insulation}`).join('; '),
        ]
      })
    }),
  )
}

/** Every wire to cut, with the marks of both ends. */
export function wiresCsv(assessment: Assessment): string {
  return csv(
    [
      'box',
      'wire',
      'circuit',
      'conductor',
      'colour',
      'size',
      'metal',
      'insulation',
      'from',
      'to',
      'raceways',
      'route m',
      'cut m',
      'mark at from',
      'mark at to',
    ],
    assessment.results.shop.boxes.flatMap((b) =>
      b.wires.map((w) => [
        b.box,
        w.id,
        w.circuit,
        w.conductor,
        w.colour,
        w.size,
        w.metal,
        w.insulation,
        w.from,
        w.to,
        [...w.raceways, ...(w.wirewayM === null ? [] : ['wireway'])].join(' '),
        w.routeM,
        w.cutM,
        w.markFrom,
        w.markTo,
      ]),
    ),
  )
}

/** Every piece to saw, in the order of the saw: one record for each piece of each way to cut a bar. */
export function cutsCsv(assessment: Assessment): string {
  return csv(
    [
      'box',
      'kind',
      'section',
      'way',
      'bars',
      'stock',
      'bar mm',
      'piece',
      'from mm',
      'saw at mm',
      'length mm',
      'sawn',
      'pieces',
      'left over mm',
      'kept',
      'proven',
    ],
    assessment.results.shop.boxes.flatMap((b) =>
      b.cuts.flatMap((cut) =>
        cut.plan.bars.flatMap((bar, way) =>
          bar.pieces.map((p, at) => [
            b.box,
            cut.kind,
            cut.section,
            way + 1,
            bar.times,
            bar.stock,
            bar.lengthMm,
            at + 1,
            p.fromMm,
            p.sawMm,
            p.lengthMm,
            p.sawn ? 'yes' : 'no',
            p.labels.join('; '),
            bar.remnantMm,
            bar.keep ? 'yes' : 'no',
            cut.plan.proven ? 'yes' : 'no',
          ]),
        ),
      ),
    ),
  )
}

/** What is bought, and everything that needs it. An empty price: not known, and in no sum. */
export function billCsv(assessment: Assessment): string {
  return csv(
    [
      'box',
      'sheet',
      'item',
      'what',
      'quantity',
      'per',
      'counted from',
      'needed by',
      'currency',
      'each',
      'price',
      'price of',
      'price from',
    ],
    assessment.results.shop.boxes.flatMap((b) =>
      b.bill.lines.map((l) => [
        b.box,
        l.sheet,
        l.id,
        l.what,
        l.quantity,
        l.per,
        l.from,
        l.needs.join('; '),
        b.bill.currency,
        l.unitMoney,
        l.money,
        l.date,
        l.source,
      ]),
    ),
  )
}

/** Hours of every work, by the step in which they are spent. */
export function hoursCsv(assessment: Assessment): string {
  return csv(
    ['box', 'step', 'trade', 'what', 'quantity', 'unit', 'hours each', 'low h', 'middle h', 'high h', 'rests on'],
    assessment.results.shop.boxes.flatMap((b) =>
      b.hours.lines.map((l) => [
        b.box,
        l.step,
        l.trade,
        l.what,
        l.quantity,
        l.unit,
        l.hoursEach,
        l.hours.low,
        l.hours.middle,
        l.hours.high,
        l.rests,
      ]),
    ),
  )
}

/** Every line of the cost. An empty sum: in another currency, or without a price. */
export function costCsv(assessment: Assessment): string {
  return csv(
    [
      'group',
      'box',
      'item',
      'what',
      'quantity',
      'per',
      'each',
      'currency',
      'low',
      'likely',
      'high',
      'in the sum',
      'price of',
      'counted from',
      'rests on',
    ],
    assessment.results.money.lines.map((l) => [
      ...[l.group, l.box ?? 'job', l.id, l.what, l.quantity, l.per, l.unitMoney, l.currency],
      ...[l.lowMoney, l.likelyMoney, l.highMoney, l.money, l.date, l.from, l.rests.place],
    ]),
  )
}

/** Vents and fans with their two positions: what the welder cuts and what the yard sets in autumn and spring. */
export function ventsCsv(input: BookInput): string {
  return csv(
    [
      ...['box', 'opening', 'use', 'side', 'from left mm', 'up mm', 'above ground mm', 'shape', 'width mm', 'height mm'],
      ...['clear dirty cm2', 'clear clean cm2', 'mesh mm', 'hood', 'summer', 'winter', 'open in winter %', 'what it is for'],
    ],
    ventRows(input).map((v) => {
      const { summer, winter } = positionWords(v)
      return [
        ...[v.box, v.id, v.use, v.side, v.fromLeftMm, v.upMm, v.aboveGroundMm, v.shape, v.widthMm, v.heightMm],
        ...[Math.round(v.clearM2.low * 1e4), Math.round(v.clearM2.high * 1e4), v.meshMm, v.hood ? 'yes' : 'no'],
        ...[summer, winter, v.use === 'fan' ? null : Math.round(v.winterFrac * 100), v.what],
      ]
    }),
  )
}
