import type { BoxBody } from '../../box/index.ts'
import type { SnowFramePlan } from '../../haul/result.ts'
import { type BoxDesign, type FitDesign, type ItemKind, type Opening, wirewayPieces } from '../../job/index.ts'
import { type Material, materialsOf } from '../../parts/index.ts'
import type { FramePiece } from '../../skin/result.ts'
import { byText } from '../figures.ts'
import type { MeasureNeed } from '../measures.ts'
import type { BillLine, BillSheet, NutsOf, RacewaySheet, SectionCut, WirePull } from '../result.ts'
import { isSheet } from '../sections.ts'
import { frameNeeds } from '../snow-frame.ts'
import { bondMadeOf } from '../wires.ts'

export interface BillRequest {
  readonly body: BoxBody
  readonly fit: FitDesign
  readonly openings: readonly Opening[]
  readonly whole: BoxDesign
  readonly frames: readonly FramePiece[]
  readonly snowFrame: SnowFramePlan | null
  /** Against heat and damp, what nothing else counts. */
  readonly measures: readonly MeasureNeed[]
  readonly cuts: readonly SectionCut[]
  readonly raceways: readonly RacewaySheet[]
  readonly wires: readonly WirePull[]
  /** As the strut sheet counted them; null: two for each thing on each channel. */
  readonly nuts: readonly NutsOf[] | null
}

export type Need = Omit<BillLine, 'unitMoney' | 'money' | 'date' | 'source'>

const STOOD = 'design'

/** Everything to buy for one box: bars by the cutting plans, wire by the pull list, the rest by the design; one line for each id and sheet. */
export function billNeeds(of: BillRequest): readonly Need[] {
  return summed([
    ...steel(of),
    ...frameNeeds(of.snowFrame),
    ...against(of.measures),
    ...raceways(of),
    ...wire(of),
    ...hung(of),
    ...electrical(of),
  ])
}

const need = (
  sheet: BillSheet,
  id: string,
  what: string,
  quantity: number,
  per: Need['per'],
  from: string,
  needs: readonly string[],
) => ({ sheet, id, what, quantity, per, from, needs }) as const

function summed(all: readonly Need[]): readonly Need[] {
  const sums = new Map<string, Need>()
  for (const n of all) {
    if (n.quantity <= 0) continue
    const key = `${n.sheet}|${n.id}`
    const had = sums.get(key)
    sums.set(
      key,
      had === undefined
        ? n
        : {
            ...had,
            quantity: had.quantity + n.quantity,
            from: had.from === n.from ? n.from : `${had.from}; ${n.from}`,
            needs: [...new Set([...had.needs, ...n.needs])],
          },
    )
  }
  return [...sums.values()].map((n) => ({ ...n, quantity: tidy(n), needs: [...new Set(n.needs)].toSorted(byText) }))
}

/** Wire is read off a reel to 0.1 m, bars to the millimetre, sheet to 0.01 m², always up. */
function tidy({ quantity, per, id }: Need): number {
  const parts = per === 'each' ? 1 : per === 'm2' ? 100 : id.startsWith('conductor/') || id.startsWith('cord/') ? 10 : 1000
  return Math.ceil(quantity * parts - 1e-6) / parts
}

const against = (measures: readonly MeasureNeed[]): readonly Need[] =>
  measures.map((m) => need(m.sheet, m.id, m.what, m.quantity, m.per, 'measures against heat and damp', [m.measure]))

function bars(cut: SectionCut): readonly Need[] {
  const sheet: BillSheet = cut.kind === 'raceway' ? 'raceway' : 'steel'
  const needs = [...new Set(cut.pieces.map((p) => p.needs))]
  const bought = Map.groupBy(
    cut.plan.bars.filter((b) => !b.stock.startsWith('rack ')),
    (b) => b.stock,
  )
  return [...bought].map(([stock, own]) => {
    const count = own.reduce((sum, b) => sum + b.times, 0)
    return need(sheet, cut.priceId, cut.section, (count * own[0]!.lengthMm) / 1000, 'm', `${count} × ${stock}`, needs)
  })
}

function steel(of: BillRequest): readonly Need[] {
  const { body, fit, frames, openings } = of
  const sheets = frames.filter(isSheet).flatMap((p): readonly Need[] => {
    const found = /^sheet ([\d.]+) mm x ([\d.]+) mm$/.exec(p.section)
    if (found === null) return []
    const areaM2 = (p.count * Number(found[2]) * p.lengthMm) / 1e6
    return [need('steel', `sheet/${found[1]} mm`, `steel sheet ${found[1]} mm`, areaM2, 'm2', 'plates and hoods', [p.opening])]
  })
  const fixings = fit.strut.flatMap((p) => p.fixings.map((f) => ({ how: f.how, id: p.id })))
  const by = (how: string): readonly string[] => fixings.filter((f) => f.how === how).map((f) => f.id)
  const studs = by('bolt to pad')
  const pads = [...by('weld to pad'), ...studs]
  const bolts = by('bolt through flat')
  const nuts = by('channel nut')
  const hangs = fit.items.flatMap((i) => (i.hangsOn.length === 0 ? [] : [i]))
  const hungNuts = (of.nuts ?? hangs.map((i) => ({ count: 2 * i.hangsOn.length }))).reduce((sum, n) => sum + n.count, 0)
  const counted = of.nuts === null ? 'two for each thing on each channel' : 'strut sheet'
  return [
    need('steel', `box/${body.type}`, `${body.type} box`, 1, 'each', STOOD, [body.box]),
    ...of.cuts.filter((c) => c.kind !== 'raceway').flatMap(bars),
    ...sheets,
    need('steel', 'pad/75 mm', 'weld pad 75 × 75 × 5 mm', pads.length, 'each', 'fixings of the channel', pads),
    need(
      'steel',
      'stud/M10 isolated',
      'stud M10 with nut, isolating sleeve and sheet',
      studs.length,
      'each',
      'fixings of the channel',
      studs,
    ),
    need(
      'steel',
      'bolt/through flat',
      'bolt with sealing and backing washer',
      bolts.length,
      'each',
      'fixings of the channel',
      bolts,
    ),
    need('steel', 'nut/channel', 'channel nut with bolt and washer', nuts.length, 'each', 'fixings of the channel', nuts),
    need(
      'steel',
      'nut/channel',
      'channel nut with bolt and washer',
      hungNuts,
      'each',
      counted,
      hangs.map((i) => i.id),
    ),
    ...openings.flatMap((o): readonly Need[] => [
      ...(o.use === 'personnel door'
        ? [need('steel', 'door/personnel', 'door leaf with hinges, seal and inside release', 1, 'each', STOOD, [o.id])]
        : []),
      ...(o.meshMm === null
        ? []
        : [need('steel', 'mesh/stainless', 'welded stainless mesh', (o.widthMm * o.heightMm) / 1e6, 'm2', STOOD, [o.id])]),
      ...(o.plate?.entries ?? []).flatMap((e): readonly Need[] => [
        need(
          'steel',
          `gland/${e.thread}${e.split ? ' split' : ''}`,
          `gland ${e.thread}${e.split ? ', split' : ''}`,
          1,
          'each',
          STOOD,
          [o.id],
        ),
        ...(e.plug === null ? [need('steel', `plug/${e.thread}`, `blanking plug ${e.thread}`, 1, 'each', STOOD, [o.id])] : []),
      ]),
    ]),
  ]
}

function raceways(of: BillRequest): readonly Need[] {
  return [
    ...of.cuts.filter((c) => c.kind === 'raceway').flatMap(bars),
    ...wireways(of),
    ...of.raceways.flatMap((r): readonly Need[] => {
      const size = `${r.kind}/${r.trade}`
      const each = (word: string, count: number, from: string) =>
        need('raceway', `${word}/${size}`, `${word} ${r.kind} ${r.trade}`, count, 'each', from, [r.id])
      return [
        each('connector', r.fittings.connectors, 'bend sheet'),
        each('offset connector', r.fittings.offsetConnectors, 'bend sheet'),
        each('coupling', r.fittings.couplings, 'bend sheet'),
        each('pull elbow', r.fittings.elbows, 'bend sheet'),
        each('nipple', r.fittings.nipples, 'bend sheet'),
        each('strap', r.strapsMm.length, 'raceways of the design'),
        need('raceway', 'box/pull', 'pull box', r.fittings.pullBoxes, 'each', 'bend sheet', [r.id]),
      ]
    }),
  ]
}

/** What joins the lengths of a wireway, turns its corners, closes its ends and hangs it: a hanger for each channel rail behind it, and one more. */
function wireways({ fit, cuts }: BillRequest): readonly Need[] {
  const pieces = wirewayPieces(fit.items)
  const part = pieces[0]?.part.replace(' ', '/')
  if (part === undefined) return []
  const ids = pieces.map((p) => p.id)
  const lengths = cuts.filter((c) => c.section === part).reduce((sum, c) => sum + c.pieces.length, 0)
  const hangers = pieces.reduce((sum, p) => sum + p.hangsOn.length + 1, 0)
  const each = (word: string, count: number) =>
    need('raceway', `${word}/${part}`, `${word}, ${part.replace('/', ' ')}`, count, 'each', 'layout', ids)
  return [each('coupling', lengths - pieces.length), each('elbow', pieces.length - 1), each('end', 2), each('hanger', hangers)]
}

function wire(of: BillRequest): readonly Need[] {
  return [
    ...of.wires.map((w) =>
      need(
        w.circuit === 'bond' ? 'earth' : 'wire',
        `conductor/${w.size}/${w.metal}`,
        `conductor ${w.size} ${w.metal === 'cu' ? 'copper' : 'aluminium'}`,
        w.cutM,
        'm',
        'pull list',
        [w.circuit === 'bond' ? w.from : w.circuit],
      ),
    ),
    ...of.fit.bonds.flatMap((b): readonly Need[] => {
      const made = bondMadeOf(b)
      return made === 'wire' ? [] : [need('earth', `bond/${made}`, `bonding ${made}`, 1, 'each', 'bonding points', [b.id])]
    }),
  ]
}

/** Things that hang and have no row in the list of electrical material. */
const OWN_ROW: Partial<Record<ItemKind, BillSheet>> = {
  meter: 'gear',
  'service disconnect': 'gear',
  'surge device': 'gear',
  contactors: 'gear',
  controls: 'gear',
  thermostat: 'gear',
  extinguisher: 'gear',
  'earth bar': 'earth',
}

function hung(of: BillRequest): readonly Need[] {
  return of.fit.items.flatMap((i): readonly Need[] => {
    const sheet = OWN_ROW[i.kind]
    if (i.kind === 'light') return [need('gear', 'own/light', 'sealed light strip', 1, 'each', 'things that hang', [i.id])]
    return sheet === undefined ? [] : [need(sheet, `item/${i.part}`, i.part, 1, 'each', 'things that hang', [i.id])]
  })
}

/** Electrical material of the design, without what the pull list, the cutting plans and the hung things count better, and without work. */
function electrical({ whole, fit }: BillRequest): readonly Need[] {
  return materialsOf(whole).flatMap((m): readonly Need[] => {
    const inside = m.for === 'branch circuits' && /^(conductor|raceway)\//.test(m.id)
    if (inside || m.id.startsWith('work/') || m.id === 'own/light') return []
    return [need(sheetOf(m), m.id, `${m.id.replaceAll('/', ' ')}, ${m.for}`, m.quantity, m.per, STOOD, tracedTo(m, whole, fit))]
  })
}

function sheetOf(m: Material): BillSheet {
  if (m.for === 'electrode') return 'earth'
  if (m.for === 'cords') return 'cords'
  if (m.id.startsWith('conductor/')) return 'wire'
  return m.id.startsWith('raceway/') || m.id === 'stub/raceway' ? 'raceway' : 'gear'
}

/** Ids in the design that ask for a material. */
function tracedTo(m: Material, whole: BoxDesign, fit: FitDesign): readonly string[] {
  const circuits = whole.circuits
  const [word, name] = m.id.split('/')
  const ids = (test: (c: BoxDesign['circuits'][number]) => boolean) => circuits.filter(test).map((c) => c.id)
  if (word === 'device')
    return [
      ...ids((c) => `device/${c.device.ratingA} A/${c.device.poles}` === m.id),
      ...(m.for.startsWith('primary') ? ['transformer'] : []),
    ]
  if (word === 'outlet') return ids((c) => c.outlet === name || (name === 'hard-wired' && /^hard[ -]?wired/i.test(c.outlet)))
  if (m.id === 'box/outlet') return ids((c) => c.own !== 'stub' && c.own !== 'spare')
  if (word === 'shock') return ids((c) => c.shock.kind !== 'none')
  if (word === 'heater' || word === 'fan') return ids((c) => c.own === word)
  if (word === 'own') return ids((c) => c.own !== null)
  if (m.for === 'cords') return circuits.flatMap((c) => c.cords.map((k) => k.plug))
  if (m.for === 'staging') return ids((c) => c.plugs.length > 0)
  if (word === 'stub') return fit.items.filter((i) => i.kind === 'stub').map((i) => i.id)
  if (m.for === 'branch circuits') return circuits.map((c) => c.id)
  return [m.for === 'electrode' ? 'electrode' : m.for]
}
