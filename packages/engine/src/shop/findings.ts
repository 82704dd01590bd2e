import type { BoxBody } from '../box/index.ts'
import type { MassItem } from '../haul/result.ts'
import type { BoxBuild, BoxDesign } from '../job/index.ts'
import { type Finding, put, type Source, type Step, source, step, type Working, weakest } from '../kernel/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { benderFor } from './bends/bender.ts'
import { byText, figure } from './figures.ts'
import type { BoxShop, Hours, RacewaySheet, SectionCut } from './result.ts'
import type { Saw } from './stock.ts'
import { bendsId, bendsWorking, wiresId, wiresWorking } from './workings.ts'

interface Judged {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
}

export interface JudgeRequest {
  readonly sheets: BoxShop
  readonly build: BoxBuild
  readonly body: BoxBody
  readonly whole: BoxDesign
  readonly rules: Pick<RuleSet, 'build'>
  readonly saw: Saw
  /** What lifting counted, thing by thing; null: it was not answered. */
  readonly lifted: readonly MassItem[] | null
}

type Of = Omit<Finding, 'question' | 'workings' | 'mends' | 'assumed'> & Partial<Pick<Finding, 'assumed' | 'workings'>>

const found = (of: Of): Finding => ({ question: 'shop', assumed: [], workings: [], mends: [], ...of })

export const notDesigned = (box: string, what: string): Finding =>
  found({
    code: 'shop/not-designed',
    subject: box,
    verdict: 'unknown',
    basis: 'house',
    said: `Nothing is bought or cut yet for ${box}: its ${what} was not worked out.`,
    provenance: 'computed',
  })

/** What the sheets of one box say of themselves. */
export function judgeShop(of: JudgeRequest): Judged {
  const bill = judgeBill(of)
  const hours = judgeHours(of)
  return {
    findings: [
      bill.finding,
      ...judgePrices(of),
      ...of.sheets.cuts.flatMap((cut) => judgeCut(of, cut)),
      ...judgeKerf(of),
      ...judgeBends(of),
      judgeWires(of),
      ...judgeHoles(of),
      hours.finding,
      judgeHolds(of),
      ...judgeMass(of),
    ],
    workings: [
      bill.working,
      hours.working,
      wiresWorking(of.sheets),
      ...of.sheets.raceways.map((r) => bendsWorking(of.sheets.box, r, benderFor(r, of.rules).rests)),
      ...of.sheets.cuts.map((cut) => ({ ...cut.plan.working, id: cutId(of, cut) })),
    ],
  }
}

const two = (n: number): string => n.toFixed(2)
const mm = (n: number): string => `${Number(n.toFixed(1))} mm`

function judgeBill({ sheets }: JudgeRequest): { readonly finding: Finding; readonly working: Working } {
  const { bill, box } = sheets
  const id = `${box}/bill`
  const without = bill.missing.filter((m) => !m.countsInSum).length
  const rests = source('the shop’s price table', 'told')
  const working: Working = {
    id,
    title: `Bill of material of ${box}`,
    steps: [
      ...bill.sheets.map((s) => step(s.sheet, 'Σ lines', [put('lines', s.linesCount)], s.money, bill.currency, rests)),
      step(
        'total',
        'Σ sheets',
        bill.sheets.map((s) => put(s.sheet, s.money, bill.currency)),
        bill.totalMoney,
        bill.currency,
        rests,
      ),
    ],
  }
  return {
    working,
    finding: found({
      code: 'shop/bill',
      subject: box,
      verdict: 'holds',
      basis: 'house',
      said: `${bill.lines.length} lines to buy for ${two(bill.totalMoney)} ${bill.currency}${without === 0 ? '' : `, and ${without} without a price: the sum is a floor`}.`,
      demand: put('total', bill.totalMoney, bill.currency),
      provenance: 'told',
      workings: [id],
    }),
  }
}

function judgePrices({ sheets }: JudgeRequest): readonly Finding[] {
  const { bill, box } = sheets
  if (bill.missing.length === 0) return []
  const unpriced = bill.missing.filter((m) => !m.countsInSum)
  const undated = bill.missing.filter((m) => m.countsInSum)
  const said = [
    ...(unpriced.length === 0 ? [] : [`No price, and in no sum: ${unpriced.map((m) => m.id).join('; ')}.`]),
    ...(undated.length === 0 ? [] : [`Counted, but: ${undated.map((m) => `${m.id}: ${m.why}`).join('; ')}.`]),
  ]
  return [
    found({
      code: 'shop/price-missing',
      subject: box,
      verdict: unpriced.length > 0 ? 'unknown' : 'tight',
      basis: 'house',
      said: said.join(' '),
      provenance: 'computed',
    }),
  ]
}

const cutId = ({ sheets }: JudgeRequest, cut: SectionCut): string =>
  `${sheets.box} ${cut.section.replaceAll('/', ' ')}/cutting-plan`

function judgeCut(of: JudgeRequest, cut: SectionCut): readonly Finding[] {
  const { plan } = cut
  const subject = `${of.sheets.box} ${cut.section}`
  const about = {
    subject,
    basis: 'physics' as const,
    provenance: 'computed' as const,
    workings: [cutId(of, cut)],
    assumed: of.saw.assumed,
  }
  const lacks = plan.lacks.map((lack) =>
    lack.kind === 'too long'
      ? found({
          ...about,
          code: 'shop/cut-too-long',
          verdict: 'fails',
          said: `${lack.id} is ${mm(lack.lengthMm)} long; the longest stock gives ${mm(lack.longestMm)} between its trims.`,
          demand: put('piece', lack.lengthMm, 'mm'),
          limit: put('stock', lack.longestMm, 'mm'),
        })
      : found({
          ...about,
          code: 'shop/cut-stock-short',
          verdict: 'fails',
          said: `The pieces come to ${mm(lack.neededMm)}; all stock together has ${mm(lack.thereMm)}.`,
          demand: put('needed', lack.neededMm, 'mm'),
          limit: put('there', lack.thereMm, 'mm'),
        }),
  )
  if (plan.outcome === 'given up')
    return [
      ...lacks,
      found({
        ...about,
        code: 'shop/cut-unproven',
        verdict: 'unknown',
        said: 'No plan was found within the counted work, and none is proven impossible.',
      }),
    ]
  if (plan.outcome !== 'cut') return lacks
  const counted = (count: number, what: string): string => `${count} ${what}${count === 1 ? '' : 's'}`
  const unit = plan.goal === 'money' ? of.sheets.bill.currency : plan.bound === 1 ? 'bar' : 'bars'
  const amount = plan.goal === 'money' ? plan.costMoney : plan.count
  const money = (n: number): string => (plan.goal === 'money' ? two(n) : String(n))
  const pieces = cut.pieces.reduce((sum, p) => sum + p.count, 0)
  return [
    ...lacks,
    plan.proven
      ? found({
          ...about,
          code: 'shop/cut',
          verdict: 'holds',
          said: `${counted(pieces, 'piece')} from ${counted(plan.count, 'bar')} with a cut of ${mm(cut.kerfMm)}; no plan needs less than ${money(plan.bound)} ${unit}, and this one needs ${money(amount ?? 0)}.`,
          demand: put('found', amount ?? 0, unit),
          limit: put('bound', plan.bound, unit),
        })
      : found({
          ...about,
          code: 'shop/cut-unproven',
          verdict: 'unknown',
          said: `${counted(pieces, 'piece')} from ${counted(plan.count, 'bar')}, ${money(plan.gap ?? 0)} ${unit} above the bound of ${money(plan.bound)}: a better plan may exist.`,
          demand: put('found', amount ?? 0, unit),
          limit: put('bound', plan.bound, unit),
        }),
  ]
}

function judgeKerf({ sheets, saw }: JudgeRequest): readonly Finding[] {
  if (saw.kerfMm > 0) return []
  const usual = figure('kerf')
  return [
    found({
      code: 'shop/cut-no-kerf',
      subject: sheets.box,
      verdict: 'tight',
      basis: 'house',
      said: `The saw’s cut is given as 0 mm; a chop saw takes ${usual.value} mm. Pieces that fill a bar to its end will come out short.`,
      demand: put('kerf', 0, 'mm'),
      limit: put('usual', usual.value, 'mm'),
      provenance: usual.rests.provenance,
    }),
  ]
}

function judgeBends({ sheets }: JudgeRequest): readonly Finding[] {
  const apart = sheets.raceways.filter((r) => Math.abs(r.developedMm - r.checkMm) > 0.01)
  const bent = sheets.raceways.flatMap((r) => r.bends)
  const fittings = bent.filter((b) => b.made !== 'bent').length
  const out = sheets.raceways.flatMap((r) => (r.short === null ? [] : [tooNear(sheets.box, r, r.short)]))
  if (sheets.raceways.length === 0) return out
  return [
    found({
      code: 'shop/bends',
      subject: sheets.box,
      verdict: apart.length === 0 ? 'holds' : 'fails',
      basis: 'physics',
      said:
        apart.length === 0
          ? `${bent.length - fittings} bends, and ${fittings} corners and steps made with fittings, in ${sheets.raceways.length} raceways; every developed length comes out the same by arcs and by gains.`
          : `Developed lengths differ by two roads: ${apart.map((r) => r.id).join(', ')}.`,
      provenance: 'memory',
      workings: sheets.raceways.map((r) => bendsId(sheets.box, r.id)),
    }),
    ...out,
  ]
}

/** What moving a box along its slotted channel takes up. Common practice. */
const TAKEN_UP_MM = 25

function tooNear(box: string, r: RacewaySheet, short: NonNullable<RacewaySheet['short']>): Finding {
  const [a, b] = short.between
  const over = short.freeMm < -TAKEN_UP_MM
  const slight = short.freeMm < 0 && !over
  const pair = `${a[0]!.toUpperCase()}${a.slice(1)} and ${b}`
  return found({
    code: 'shop/bend-too-near',
    subject: `${box} ${r.id}`,
    verdict: over && short.bent ? 'fails' : 'tight',
    basis: 'physics',
    said: !short.bent
      ? `${pair}: the fittings overlap by ${mm(-short.freeMm)} by their assumed size; measure what is bought.`
      : over
        ? `${pair} run into each other by ${mm(-short.freeMm)}; ${mm(short.needMm)} of straight pipe must lie between them, bent from ${r.kind} ${r.trade} at a radius of ${mm(r.radiusMm)}.`
        : slight
          ? `${pair} run into each other by ${mm(-short.freeMm)}: the box it meets is moved so far along its channel before it is bolted.`
          : `Between ${a} and ${b} there are ${mm(short.freeMm)} of straight pipe; a bender wants ${mm(short.needMm)}.`,
    demand: put('straight', short.freeMm, 'mm'),
    limit: put('needed', short.needMm, 'mm'),
    provenance: 'common practice',
    workings: [bendsId(box, r.id)],
  })
}

/** Each raceway holds as many wires as the pull list leads through it, and every circuit that lies in a raceway is on the list. */
function judgeWires({ sheets, build, whole }: JudgeRequest): Finding {
  const differ = build.fit.raceways.flatMap((r) => {
    const drawn = r.conductors.reduce((sum, c) => sum + c.count, 0)
    const pulled = sheets.wires.filter((w) => w.raceways.includes(r.id) && !w.conductor.includes('/')).length
    return drawn === pulled ? [] : [`${r.id}: ${drawn} drawn, ${pulled} pulled`]
  })
  const listed = new Set(sheets.wires.map((w) => w.circuit))
  const parallel = [...new Set(sheets.wires.filter((w) => w.conductor.includes('/')).map((w) => w.circuit))]
  const lost = [
    ...(listed.has('feed') ? [] : ['feed']),
    ...whole.circuits
      .filter((c) => c.own !== 'spare' && c.own !== 'stub' && c.run.raceway !== null && !listed.has(c.id))
      .map((c) => c.id),
  ]
  const metres = sheets.wireTotals.reduce((sum, t) => sum + t.lengthM, 0)
  const wrong = [
    ...(differ.length === 0 ? [] : [`Raceways and pull list differ: ${differ.join('; ')}.`]),
    ...(lost.length === 0 ? [] : [`No raceway in the box leads ${lost.join(', ')}: its wires inside are not on the list.`]),
    ...(parallel.length === 0 ? [] : [`Parallel sets of ${parallel.join(', ')} have one raceway drawn for all.`]),
  ]
  return found({
    code: 'shop/wires',
    subject: sheets.box,
    verdict: differ.length > 0 ? 'fails' : wrong.length > 0 ? 'unknown' : 'holds',
    basis: 'house',
    said: `${sheets.wires.length} wires, ${metres.toFixed(0)} m to cut. ${wrong.length === 0 ? 'Every raceway holds as many as are pulled through it.' : wrong.join(' ')}`,
    provenance: 'common practice',
    workings: [wiresId(sheets.box)],
  })
}

function judgeHoles({ sheets }: JudgeRequest): readonly Finding[] {
  const rows = sheets.holes.flatMap((w) => w.rows)
  const roof = sheets.holes.filter((w) => w.side === 'roof').flatMap((w) => w.rows.filter((r) => r.work !== 'weld pad'))
  const loose = sheets.holes.filter((w) => w.bandMm > 0 && w.rows.some((r) => r.work !== 'weld pad' || r.face === 'inside'))
  if (rows.length === 0) return []
  const said =
    roof.length > 0
      ? `${roof.map((r) => r.id).join(', ')} would go through the roof.`
      : loose.length > 0
        ? `${rows.length} cuts, holes and pads have their place from a datum; on ${loose.map((w) => w.side).join(', ')} the first flat was not measured and may lie ${mm(Math.max(...loose.map((w) => w.bandMm)))} to either side: measure before scribing.`
        : `${rows.length} cuts, holes and pads have their place from a datum that was measured.`
  return [
    found({
      code: 'shop/holes',
      subject: sheets.box,
      verdict: roof.length > 0 ? 'fails' : loose.length > 0 ? 'tight' : 'holds',
      basis: 'house',
      said,
      provenance: loose.length > 0 ? 'assumed' : 'computed',
      caution: 'Nothing is live in the wall: prove it before the first cut.',
    }),
  ]
}

const span = (h: Hours): string => `${h.low.toFixed(0)} to ${h.high.toFixed(0)} h`

function judgeHours({ sheets }: JudgeRequest): { readonly finding: Finding; readonly working: Working } {
  const { hours, box } = sheets
  const id = `${box}/hours`
  const rests: Source = source('tables labour and shop-hours', 'memory')
  const own = Object.values(hours.factors).some((f) => f !== 1)
  const steps: Step[] = hours.lines.map((l) =>
    step(
      `${l.trade}, ${l.what}`,
      'quantity · hours each · condition · own factor',
      [
        put('quantity', l.quantity, l.unit),
        put('hours each', l.hoursEach, 'h'),
        put('low', l.hours.low, 'h'),
        put('high', l.hours.high, 'h'),
      ],
      l.hours.middle,
      'h',
      { ...rests, place: l.rests },
    ),
  )
  return {
    working: {
      id,
      title: `Hours of ${box}`,
      steps: [
        ...steps,
        step(
          'total',
          'Σ',
          [put('low', hours.total.low, 'h'), put('high', hours.total.high, 'h')],
          hours.total.middle,
          'h',
          rests,
        ),
      ],
      notes: [
        'Travel to the site is not counted.',
        'Units of two books differ by a factor of two; the shop’s own history beats any table.',
      ],
    },
    finding: found({
      code: 'shop/hours',
      subject: box,
      verdict: 'holds',
      basis: 'house',
      said: `${span(hours.total)}, middle ${hours.total.middle.toFixed(0)} h: ${Object.entries(hours.byTrade)
        .map(([trade, h]) => `${trade} ${span(h)}`)
        .join(', ')}.`,
      demand: put('hours', hours.total.middle, 'h'),
      provenance: weakest(rests.provenance),
      assumed: own ? [] : ['shop.hours'],
      workings: [id],
    }),
  }
}

function judgeHolds({ sheets }: JudgeRequest): Finding {
  const holds = sheets.steps.filter((s) => s.hold !== null)
  return found({
    code: 'shop/holds',
    subject: sheets.box,
    verdict: 'holds',
    basis: 'house',
    said: `${sheets.steps.length} steps with ${holds.length} hold points: ${holds.map((s) => `${s.id} ${s.hold!.signs}`).join('; ')}.`,
    provenance: 'common practice',
    decides: 'the inspector',
    caution: 'Nothing goes on past a hold point that is not signed.',
  })
}

/** What the bill hangs weighs what lifting counted for the same things. */
function judgeMass({ sheets, build, lifted }: JudgeRequest): readonly Finding[] {
  if (lifted === null) return []
  const items = build.fit.items.toSorted((a, b) => byText(a.id, b.id))
  const off = items.filter((i) => {
    const counted = lifted.find((l) => l.id === i.id)
    return (
      counted === undefined ||
      Math.abs(counted.massKg.low - i.massKg.low) > 1e-9 ||
      Math.abs(counted.massKg.high - i.massKg.high) > 1e-9
    )
  })
  const low = items.reduce((sum, i) => sum + i.massKg.low, 0)
  const high = items.reduce((sum, i) => sum + i.massKg.high, 0)
  return [
    found({
      code: 'shop/mass-agrees',
      subject: sheets.box,
      verdict: off.length === 0 ? 'holds' : 'fails',
      basis: 'house',
      said:
        off.length === 0
          ? `What hangs in the box, ${low.toFixed(0)} to ${high.toFixed(0)} kg, is what lifting counted.`
          : `Lifting did not count the same mass for ${off.map((i) => i.id).join(', ')}.`,
      provenance: 'computed',
    }),
  ]
}
