import { QUESTION_WORDS } from '@plugstead/engine/kernel'
import type { Block, Inline, Sheet } from '../content.ts'
import type { BookInput, BoxShop } from '../results.ts'
import { col, money, number, plain, quantity, right } from '../words.ts'
import { pieceWords } from './build-words.ts'
import { type BuiltBox, cautionBlocks, dealt, drawingBlocks, judgedBlocks, mm, SIDE_WORDS, sheetOf } from './built.ts'
import { sizeWords } from './circuits.ts'

type Hours = BoxShop['hours']['total']

const SHEETS = {
  cuts: ['cut', 'cut-unproven', 'cut-too-long', 'cut-stock-short', 'cut-no-kerf', 'no-stock'],
  bends: ['bends', 'bend-too-near'],
  wires: ['wires'],
  holes: ['holes'],
  hours: ['hours'],
  steps: ['holds'],
} as const

/** What is bought, sawn, bent, pulled, drilled and done, by whom and in how many hours, of each box that is built. */
export function shopSheets(input: BookInput, built: readonly BuiltBox[]): readonly Sheet[] {
  return built.flatMap((box) => {
    const shop = input.assessment.results.shop.boxes.find((b) => b.box === box.id)
    if (shop === undefined) return []
    const of = dealt(input, box, 'shop', SHEETS)
    const sheet = (
      name: Parameters<typeof of>[0],
      head: string,
      sub: string,
      own: readonly Block[],
      sides: Sheet['sides'] = [],
    ): readonly Sheet[] =>
      sheetOf('shop', head, `${box.name}: ${sub}`, [...cautionBlocks(of(name)), ...own, ...judgedBlocks(box, of(name))], sides)
    return [
      ...sheet('rest', QUESTION_WORDS.shop, 'what is bought, and what needs it', billBlocks(shop)),
      ...sheet('cuts', 'Cutting', 'from stock, in the order of the saw', cutBlocks(shop, box)),
      ...sheet(
        'bends',
        'Raceways: pieces, bends and marks',
        'from the datum end of the pipe, before it is bent',
        bendBlocks(shop),
      ),
      ...sheet('wires', 'Wires to cut and pull', 'lengths with their loops', wireBlocks(shop)),
      ...sheet(
        'holes',
        'Holes, cuts and pads',
        'from the datum corner of each side',
        shop.holes.flatMap(holeBlocks),
        shop.holes.map((h) => h.side),
      ),
      ...sheet('steps', 'Order of the work', 'who does it, and where nothing goes on without a signature', stepBlocks(shop)),
      ...sheet('hours', 'Hours by trade', 'never one number: low, middle, high', hourBlocks(shop)),
      ...sheetOf('shop', 'Torque, serial numbers, labels', `${box.name}: to be filled in at the bench`, paperBlocks(shop)),
    ]
  })
}

function billBlocks({ bill }: BoxShop): readonly Block[] {
  const floor = bill.lines.some((l) => l.money === null)
  return [
    ...bill.sheets.flatMap((sheet): readonly Block[] => {
      const lines = bill.lines.filter((l) => l.sheet === sheet.sheet)
      if (lines.length === 0) return []
      const open = lines.filter((l) => l.money === null).length
      return [
        {
          k: 'head',
          text: sheet.sheet,
          note: `${sheet.money.toFixed(2)} ${bill.currency}${open === 0 ? '' : `, and ${open} without a price`}`,
        },
        {
          k: 'table',
          small: true,
          columns: [
            col('item', -1.2),
            right('quantity', 17),
            col('per', 9),
            col('counted from', -0.8),
            col('needed by', -1.4),
            right('each', 15),
            right(bill.currency, 15),
            col('price of', 20),
          ],
          rows: lines.map((l): Inline[] => [
            plain(l.what),
            number(l.quantity),
            l.per === 'm2' ? 'm²' : l.per,
            plain(l.from),
            needWords(l.needs),
            l.unitMoney === null ? '–' : l.unitMoney.toFixed(2),
            l.money === null ? 'not known' : l.money.toFixed(2),
            l.date,
          ]),
        },
      ]
    }),
    {
      k: 'facts',
      rows: [
        [[['b', 'together']], [['b', `${floor ? 'at least ' : ''}${bill.totalMoney.toFixed(2)} ${bill.currency}`]]],
        ...(bill.missing.length === 0 ? [] : ([['prices to ask for', reasons(bill.missing)]] as const)),
      ],
    },
  ]
}

function reasons(missing: BoxShop['bill']['missing']): string {
  const whys = [...new Set(missing.map((m) => m.why))]
  return whys.map((why) => `${missing.filter((m) => m.why === why).length} × ${why}`).join(', ')
}

/** All of them as far as a line of paper goes; the list as a file has every one. */
function needWords(needs: readonly string[]): string {
  const words = pieceWords(needs)
  if (words.length <= MOST_NEED_CHARACTERS) return words
  return `${words.slice(0, words.lastIndexOf(',', MOST_NEED_CHARACTERS))} and others: ${needs.length} in all`
}
const MOST_NEED_CHARACTERS = 110

function cutBlocks({ cuts, bill }: BoxShop, box: BuiltBox): readonly Block[] {
  return cuts.flatMap((cut, i): readonly Block[] => {
    const { plan } = cut
    const per = plan.goal === 'money' ? ` ${bill.currency}` : ` bar${plan.bound === 1 ? '' : 's'}`
    const proof = plan.proven
      ? `proven: no plan needs less than ${number(plan.bound)}${per}`
      : `not proven: none can need less than ${number(plan.bound)}${per}, this is ${plan.gap === null ? 'an unknown gap' : number(plan.gap)} above`
    return [
      {
        k: 'head',
        text: cut.section,
        note: `${cut.kind}: ${plan.outcome === 'cut' ? `${plan.count} bar${plan.count === 1 ? '' : 's'}, ${plan.setUps.count} set-ups (none can do with fewer than ${plan.setUps.least})` : 'no plan'}, kerf ${number(cut.kerfMm)} mm, trim ${number(cut.trimMm)} mm an end`,
      },
      ...drawingBlocks(box, (id) => id.startsWith(`bars-${i + 1}-`), BARS_MM),
      ...(plan.outcome === 'cut'
        ? [
            {
              k: 'para' as const,
              small: true,
              text: plain(
                `${proof}${plan.ffdCount === null ? '' : `; the plain rule, longest first, takes ${plan.ffdCount} bars`}.`,
              ),
            },
          ]
        : []),
      ...lackBlocks(cut),
      ...(plan.bars.length === 0 ? [] : [barTable(cut)]),
    ]
  })
}

/** Room for a bar a row, so that the letters of one do not stand on the next. */
const BARS_MM = 172

function lackBlocks({ plan }: BoxShop['cuts'][number]): readonly Block[] {
  return plan.lacks.map((lack) => ({
    k: 'para',
    text: [
      ['fails', 'cannot be cut'],
      lack.kind === 'too long'
        ? ` ${lack.id}: ${mm(lack.lengthMm)} mm, the longest stock is ${mm(lack.longestMm)} mm`
        : ` ${mm(lack.neededMm)} mm are needed, ${mm(lack.thereMm)} mm are there`,
    ],
  }))
}

function barTable({ plan }: BoxShop['cuts'][number]): Block {
  return {
    k: 'table',
    small: true,
    columns: [
      right('bars', 10),
      col('stock', 20),
      col('saw marks from the datum end, mm, and what ends there', -1),
      right('left, mm', 18),
    ],
    rows: plan.bars.map((bar): Inline[] => [
      `${bar.times} ×`,
      bar.stock,
      bar.pieces.flatMap((p, i) => [
        i === 0 ? '' : '; ',
        ['b', mm(p.sawMm)] as const,
        `${p.sawn ? '' : ' (its end)'} ${pieceWords([...new Set(p.labels)])}`,
      ]),
      `${mm(bar.remnantMm)}${bar.keep ? ', keep' : ''}`,
    ]),
  }
}

function bendBlocks({ raceways }: BoxShop): readonly Block[] {
  if (raceways.length === 0) return []
  const bends = raceways.flatMap((r) => r.bends.map((b) => ({ raceway: r.id, ...b })))
  return [
    {
      k: 'table',
      small: true,
      columns: [
        col('piece', -1),
        col('pipe', 20),
        col('from', -0.8),
        col('to', -0.8),
        right('cut, mm', 16),
        col('bend', 24),
        right('begins, mm', 18),
        right('arrow, mm', 17),
        right('middle, mm', 18),
        right('turned', 14),
      ],
      rows: raceways.flatMap((r) =>
        r.pieces.flatMap((p): readonly Inline[][] => {
          const head: Inline[] = [
            [['b', p.id]],
            `${r.kind} ${r.trade}`,
            p.from === 'box' && p.axisFromMm <= 0.5 ? r.from : p.from,
            p.to === 'box' && p.axisToMm >= r.axisMm - 0.5 ? r.to : p.to,
            `${number(Math.round(p.developedMm * 10) / 10)}${p.nipple ? ', nipple' : ''}`,
          ]
          const marks = p.marks.map((m): Inline[] => [
            `${m.kind} ${number(m.angleDeg)}°`,
            mm(m.startMm),
            m.arrowMm === null ? 'not known' : mm(m.arrowMm),
            mm(m.middleMm),
            m.turnDeg === null ? '–' : `${mm(m.turnDeg)}°`,
          ])
          if (marks.length === 0) return [[...head, 'straight', '', '', '', '']]
          return marks.map((m, i) => (i === 0 ? [...head, ...m] : ['', '', '', '', '', ...m]))
        }),
      ),
    },
    {
      k: 'para',
      small: true,
      text: 'Begins, arrow and middle: from the datum end of the piece. Arrow: where the bender’s arrow stands; not known where no table knows the bender. Turned: the plane against that of the bend before. Bend one, measure it, and correct the next.',
    },
    { k: 'head', text: 'What the bends take', note: 'along the axis of the raceway' },
    {
      k: 'table',
      small: true,
      columns: [
        col('raceway', -1),
        col('bend', 24),
        col('made', 24),
        right('at, mm', 15),
        right('angle', 13),
        right('rise, mm', 15),
        right('multiplier', 17),
        right('shrink, mm', 17),
        right('gain, mm', 15),
        right('take-up, mm', 19),
      ],
      rows: bends.map((b): Inline[] => [
        [['b', b.raceway]],
        b.kind,
        b.made,
        mm(b.atMm),
        `${number(b.angleDeg)}°`,
        ...(b.kind === 'quarter' ? ['–', '–', '–'] : [number(b.riseMm), number(b.multiplier), number(b.shrinkMm)]),
        b.made === 'bent' ? number(b.gainMm) : '–',
        b.takeUpMm === null ? '–' : number(b.takeUpMm),
      ]),
    },
    { k: 'head', text: 'Each raceway', note: 'pipe by arcs, and again by gains' },
    {
      k: 'table',
      small: true,
      columns: [
        col('raceway', -0.8),
        right('axis, mm', 18),
        right('pipe, mm', 18),
        right('again, mm', 18),
        col('straps at, mm', -1.2),
        col('pull boxes at, mm', -0.8),
        col('fittings', -1.4),
      ],
      rows: raceways.map((r): Inline[] => [
        [['b', r.id]],
        mm(r.axisMm),
        mm(r.developedMm),
        mm(r.checkMm),
        r.strapsMm.map(mm).join(', ') || 'none',
        r.pullsMm.map(mm).join(', ') || 'none',
        fittingWords(r.fittings),
      ]),
    },
  ]
}

type Fittings = BoxShop['raceways'][number]['fittings']
const FITTINGS: Readonly<Record<keyof Fittings, string>> = {
  connectors: 'connector',
  offsetConnectors: 'offset connector',
  couplings: 'coupling',
  elbows: 'pull elbow',
  pullBoxes: 'pull box',
  nipples: 'nipple',
}

const fittingWords = (of: Fittings): string =>
  (Object.keys(FITTINGS) as (keyof Fittings)[])
    .filter((kind) => of[kind] > 0)
    .map((kind) => `${of[kind]} × ${FITTINGS[kind]}`)
    .join(', ')

/** Wires of one pull in one row: those of one circuit that run the same way at one length. Bonds of one length that end alike, too. */
function wireBlocks({ wires, wireTotals }: BoxShop): readonly Block[] {
  if (wires.length === 0) return []
  const pulls = new Map<string, (typeof wires)[number][]>()
  for (const w of wires) {
    const from = w.raceways.length === 0 ? '' : w.from
    const key = JSON.stringify([w.circuit, from, w.to, w.raceways, w.size, w.metal, w.insulation, w.cutM])
    pulls.set(key, [...(pulls.get(key) ?? []), w])
  }
  const letters = [...new Set(wires.map((w) => w.conductor))].toSorted()
  const colours = (letter: string) => [...new Set(wires.filter((w) => w.conductor === letter).map((w) => w.colour))]
  const legend = letters.filter((letter) => colours(letter).length === 1)
  const example = wires[0]!
  return [
    {
      k: 'table',
      small: true,
      columns: [
        col('circuit', 23),
        col('from', -1.1),
        col('to', -0.9),
        col('through', -0.9),
        right('no.', 8),
        col('wires', -0.7),
        col('size', 30),
        right('cut each, m', 18),
      ],
      rows: [...pulls.values()].map((own): Inline[] => [
        [['b', own[0]!.circuit]],
        pieceWords([...new Set(own.map((w) => w.from))]),
        own[0]!.to,
        own[0]!.raceways.join(', ') || 'no raceway',
        String(own.length),
        [...new Set(own.map((w) => (legend.includes(w.conductor) ? w.conductor : `${w.conductor} ${w.colour}`)))].join(', '),
        `${sizeWords(own[0]!.size)} ${own[0]!.metal} ${own[0]!.insulation}`,
        own[0]!.cutM.toFixed(2),
      ]),
    },
    {
      k: 'para',
      small: true,
      text: `${legend.map((letter) => `${letter}: ${colours(letter)[0]}`).join('; ')}. Mark both ends before the pull, circuit and conductor, and where the other end is: “${example.markFrom}” here, “${example.markTo}” there.`,
    },
    { k: 'head', text: 'Wire from the reel' },
    {
      k: 'table',
      small: true,
      columns: [
        col('size', 24),
        col('metal', 16),
        col('insulation', 30),
        col('colour', -1),
        right('pieces', 18),
        right('metres together', 26),
      ],
      rows: wireTotals.map((t): Inline[] => [
        sizeWords(t.size),
        t.metal,
        t.insulation,
        t.colour,
        String(t.count),
        t.lengthM.toFixed(1),
      ]),
    },
  ]
}

function holeBlocks({ side, datum, bandMm, rows }: BoxShop['holes'][number]): readonly Block[] {
  return [
    {
      k: 'head',
      text: SIDE_WORDS[side],
      note: `datum: ${datum}${bandMm > 0 ? `; until the first flat is measured each may lie ${mm(bandMm)} mm to either side` : ''}`,
    },
    {
      k: 'table',
      small: true,
      columns: [
        col('what', -1),
        col('work', 17),
        col('face', 14),
        right('along, mm', 16),
        right('up, mm', 13),
        right('size, mm', 26),
        col('how', -1.4),
        col('needed by', 18),
      ],
      rows: rows.map((h): Inline[] => [
        [['b', h.id]],
        h.work,
        h.face,
        number(h.alongMm),
        number(h.upMm),
        h.round
          ? `ø ${number(h.widthMm)}`
          : `${number(h.widthMm)} × ${number(h.heightMm)}${h.cornerRadiusMm > 0 ? `, R ${number(h.cornerRadiusMm)}` : ''}`,
        plain(h.tool),
        h.id === h.needs || h.id.startsWith(`${h.needs} `) ? 'itself' : h.needs,
      ]),
    },
  ]
}

const hourWords = (h: Hours): string => `${h.low.toFixed(1)} … ${h.high.toFixed(1)}`

function stepBlocks({ steps }: BoxShop): readonly Block[] {
  return steps.flatMap((s): readonly Block[] => [
    ...(s.caution === null ? [] : [{ k: 'strip' as const, text: plain(s.caution) }]),
    {
      k: 'para',
      text: [
        ['b', `${s.id}  ${s.who}`],
        s.hours === null ? '' : `, ${hourWords(s.hours)} h`,
        ['br', ''],
        plain(s.words),
        ...(s.hold === null
          ? []
          : ([
              ['br', ''],
              ['boxed', 'hold point'],
              ` ${plain(s.hold.what)}. Nothing goes on until ${s.hold.signs} has signed: ________________________  day: ____________`,
            ] as const)),
      ],
    },
  ])
}

function hourBlocks({ hours, bill }: BoxShop): readonly Block[] {
  const row = (name: string, h: Hours, factor: number | null): Inline[] => [
    [['b', name]],
    h.low.toFixed(1),
    h.middle.toFixed(1),
    h.high.toFixed(1),
    factor === null ? '' : number(factor),
  ]
  return [
    {
      k: 'table',
      columns: [col('trade', -1), right('low, h'), right('middle, h'), right('high, h'), right('the shop’s own factor')],
      rows: [
        ...(Object.keys(hours.byTrade) as (keyof typeof hours.byTrade)[]).map((trade) =>
          row(trade, hours.byTrade[trade], hours.factors[trade]),
        ),
        row('together', hours.total, null),
      ],
    },
    {
      k: 'facts',
      rows: [
        [
          'at the shop’s rates',
          hours.money === null
            ? 'not known: a rate is missing'
            : `${money(hours.money.low, bill.currency)} … ${money(hours.money.high, bill.currency)}, middle ${money(hours.money.middle, bill.currency)}`,
        ],
        ['painted, welded', `${quantity(hours.paintM2, 'm²')}, ${quantity(hours.weldM, 'm')}`],
      ],
    },
    { k: 'head', text: 'From what' },
    {
      k: 'table',
      small: true,
      columns: [
        col('step', 11),
        col('trade', 20),
        col('what', -1.2),
        right('quantity', 18),
        col('unit', 20),
        right('hours each', 18),
        right('hours', 26),
        col('rests on', -1),
      ],
      rows: hours.lines.map((l): Inline[] => [
        l.step,
        l.trade,
        plain(l.what),
        number(l.quantity),
        l.unit === 'm2' ? 'm²' : l.unit,
        number(l.hoursEach),
        hourWords(l.hours),
        plain(l.rests.endsWith(`, ${l.what}`) ? l.rests.slice(0, -l.what.length - 2) : l.rests),
      ]),
    },
  ]
}

function paperBlocks({ torque, serials, labels }: BoxShop): readonly Block[] {
  return [...torqueBlocks(torque), ...serialBlocks(serials), ...labelBlocks(labels)]
}

/** Screws of one kind and torque in one row, whatever circuit they are of. */
function torqueBlocks(torque: BoxShop['torque']): readonly Block[] {
  const groups = new Map<string, { readonly what: string; readonly where: string; readonly of: string }[]>()
  const counts = new Map<string, number>()
  for (const t of torque) {
    const [, what = t.what, of = ''] = /^(.*) of (\S+)$/.exec(t.what) ?? []
    const key = JSON.stringify([what, t.torqueNm, t.rests])
    groups.set(key, [...(groups.get(key) ?? []), { what, where: t.where, of }])
    counts.set(key, (counts.get(key) ?? 0) + t.count)
  }
  if (groups.size === 0) return []
  return [
    { k: 'head', text: 'Torque', note: 'with a wrench that is in date; a mark across each screw when done' },
    {
      k: 'table',
      small: true,
      columns: [
        right('no.', 10),
        col('what', -0.9),
        col('where', -1.5),
        right('torque', 22),
        col('rests on', -0.8),
        col('done, initials', 24),
      ],
      rows: [...groups].map(([key, own]): Inline[] => {
        const [, torqueNm, rests] = JSON.parse(key) as [string, number | null, string]
        return [
          String(counts.get(key)),
          own[0]!.what,
          placeWords(own),
          torqueNm === null ? 'not known' : quantity(torqueNm, 'Nm'),
          plain(rests),
          '',
        ]
      }),
    },
  ]
}

/** `panel: C1, C2` where all are in one place, else the places. */
function placeWords(own: readonly { readonly where: string; readonly of: string }[]): string {
  const places = [...new Set(own.map((o) => o.where))]
  const of = own.flatMap((o) => (o.of === '' ? [] : [o.of]))
  return places.length === 1 && of.length > 0 ? `${places[0]}: ${of.join(', ')}` : pieceWords(places)
}

function serialBlocks(serials: BoxShop['serials']): readonly Block[] {
  if (serials.length === 0) return []
  return [
    { k: 'head', text: 'Serial numbers', note: 'from the plates, when it hangs' },
    {
      k: 'table',
      small: true,
      columns: [col('tag', -0.8), col('what', -1.3), col('rating', -0.8), col('maker and type', 44), col('serial number', 44)],
      rows: serials.map((s): Inline[] => [[['b', s.id]], plain(s.what), plain(s.rating), '', '']),
    },
  ]
}

function labelBlocks(labels: BoxShop['labels']): readonly Block[] {
  if (labels.length === 0) return []
  return [
    { k: 'head', text: 'Labels to make' },
    { k: 'para', text: `${labels.map((l) => `${l.count} × ${l.what}`).join(', ')}.` },
  ]
}
