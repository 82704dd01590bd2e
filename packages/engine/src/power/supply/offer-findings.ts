import { allOnByHand, type BoxDesign, distanceM, distanceUntold, type Offer } from '../../job/index.ts'
import { type Finding, isoOrNull, judgeUpper, put, source, type Verdict, type Working } from '../../kernel/index.ts'
import type { Inputs } from '../inputs.ts'
import { type BoxNeeds, basisWords, shown } from '../needs/index.ts'
import { found, line } from './finding.ts'
import { monthsOfPhase } from './offers.ts'
import type { Interim, OfferRow } from './result.ts'

export interface Found {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
}

interface Facts {
  readonly inputs: Inputs
  readonly subject: string
  readonly box: BoxDesign
  readonly needs: BoxNeeds
  readonly rows: readonly OfferRow[]
  readonly row: OfferRow
  readonly offer: Offer
  readonly interim: Interim | null
}

/** A house limit for a first figure of the feed; `reach` judges the plugs. @source table `drop-limits`, feeder 3 % */
const FEED_DROP_FRAC = 0.03
const TIGHT_FRAC = 0.1
/** Days in hand below which a date is tight: a working week. House rule. */
const TIGHT_DAYS = 7

/** Findings about the offer that the design rests on. */
export function chosenFindings(facts: Facts): Found {
  const { subject, row, offer, box, needs } = facts
  const ids = {
    size: `${subject}/supply-size`,
    dates: `${subject}/supply-dates`,
    bill: `${subject}/supply-bill`,
    drop: `${subject}/supply-run`,
  }
  const findings: Finding[] = []
  const workings: Working[] = []
  if (!offer.available) {
    findings.push(
      found({
        code: 'supply/not-available',
        subject,
        verdict: 'fails',
        basis: 'physics',
        provenance: 'told',
        said: `The design rests on ${offer.id} (${offer.what}), which is ${row.why}.`,
      }),
    )
  }
  const sizeVerdict: Verdict =
    row.sizeA === null ? (offer.kind === 'generator' ? 'holds' : 'unknown') : judgeUpper(row.needA, row.sizeA, TIGHT_FRAC)
  if (offer.kind !== 'generator') {
    findings.push(
      found({
        code: offer.kind === 'neighbour' ? 'supply/neighbour-cap' : 'supply/size',
        subject,
        verdict: sizeVerdict,
        basis: offer.kind === 'neighbour' ? 'house' : 'code',
        provenance: 'told',
        said:
          row.sizeA === null
            ? `${offer.id} does not say how much it can give.`
            : `${offer.id} gives ${row.sizeSaid}; the box asks for ${shown(row.needA)} A on its worst leg.`,
        demand: put('I', row.needA, 'A'),
        ...(row.sizeA === null ? {} : { limit: put('I max', row.sizeA, 'A') }),
        workings: [ids.size],
      }),
    )
    workings.push({
      id: ids.size,
      title: `${offer.id} against what ${subject} needs`,
      steps: [
        line(
          'I',
          offer.kind === 'utility' ? 'service needed, at the volts of the offer' : 'worst leg with what the design holds',
          [['I at the box', needs.demand.needA, 'A']],
          row.needA,
          'A',
        ),
      ],
      judgement: {
        demand: put('I', row.needA, 'A'),
        relation: '≤',
        limit: put('I max', row.sizeA ?? 'not said', 'A'),
        tight: '10 %',
        rests: source('the offer', 'told'),
      },
    })
  }
  if (row.transformer !== null) {
    const id = `${subject}/supply-transformer`
    const { transformer } = row
    findings.push(
      found({
        code: 'supply/transformer',
        subject,
        verdict: transformer.verdict,
        basis: 'maker',
        provenance: 'told',
        said: `${basisWords(needs.demand.basis)[0]?.toUpperCase()}${basisWords(needs.demand.basis).slice(1)}${allOnByHand(facts.inputs.job) ? ' (a hand switch may put it on)' : ''} ${shown(transformer.loadFrac * transformer.kVA)} kVA${(row.sharedKVA ?? 0) > 0 ? `, ${shown(row.sharedKVA ?? 0)} kVA of them other boxes’,` : ''} stand on ${transformer.own ? 'our own' : 'the utility’s'} ${shown(transformer.kVA)} kVA transformer, ${Math.round(transformer.loadFrac * 100)} %.`,
        demand: put('S', transformer.loadFrac * transformer.kVA, 'kVA'),
        limit: put('S_T', transformer.kVA, 'kVA'),
        workings: [id],
      }),
    )
    workings.push({
      id,
      title: `Transformer of ${offer.id}`,
      steps: [
        line(
          'S',
          '√((ΣP)² + (ΣQ)²), or the cap',
          [
            ['ΣP', needs.all.powerW, 'W'],
            ['ΣQ', needs.all.reactiveVar.high, 'var'],
          ],
          transformer.loadFrac * transformer.kVA,
          'kVA',
        ),
      ],
      judgement: {
        demand: put('S', transformer.loadFrac * transformer.kVA, 'kVA'),
        relation: '≤',
        limit: put('S_T', transformer.kVA, 'kVA'),
        tight: '10 %',
        rests: source('rating of the transformer', 'told'),
      },
    })
  }
  const dates = dateFindings(facts, ids.dates)
  findings.push(...dates.findings)
  workings.push(...dates.workings)
  if (offer.earthingForbidden && box.earthing !== 'TT') {
    findings.push(
      found({
        code: 'supply/earthing-forbidden',
        subject,
        verdict: 'fails',
        basis: 'code',
        provenance: 'told',
        said: `${offer.id} forbids its earth for this place, and the box is earthed ${box.earthing}: it needs an electrode of its own (TT) and residual protection on everything.`,
      }),
    )
  } else if (offer.earthingForbidden) {
    findings.push(
      found({
        code: 'supply/earthing-forbidden',
        subject,
        verdict: 'holds',
        basis: 'code',
        provenance: 'told',
        said: `${offer.id} forbids its earth for this place; the box is TT, on an electrode of its own.`,
      }),
    )
  }
  if (row.dropFrac !== null && offer.kind !== 'generator') {
    const verdict = judgeUpper(row.dropFrac.high, FEED_DROP_FRAC, TIGHT_FRAC)
    findings.push(
      found({
        code: 'supply/run-drop',
        subject,
        verdict: verdict === 'fails' ? 'tight' : verdict,
        basis: 'house',
        provenance: 'memory',
        said: `Over the ${shown(offer.distanceM)} m from ${offer.id} some ${shown(row.dropFrac.high * 100)} % is lost ${basisWords(needs.demand.basis)}, by the approximate formula; 3 % is usual for a feeder.`,
        demand: put('ΔU/U', row.dropFrac.high, ''),
        limit: put('limit', FEED_DROP_FRAC, ''),
        workings: [ids.drop],
      }),
    )
    workings.push({
      id: ids.drop,
      title: `Run from ${offer.id}`,
      steps: [line('ΔU/U', 'k·I·l·(r·cos φ + x·sin φ)/U', [['l', offer.distanceM, 'm']], row.dropFrac.high, '')],
      notes: [
        `Both ends of the power factor: ${shown(row.dropFrac.low * 100)} to ${shown(row.dropFrac.high * 100)} %. The network solution of reach decides.`,
      ],
    })
  }
  const money = billFinding(facts, ids.bill)
  findings.push(money.finding)
  workings.push(money.working)
  return { findings, workings }
}

function dateFindings(facts: Facts, id: string): Found {
  const { subject, row, offer, interim, inputs } = facts
  const { orderDate, neededBy } = inputs.job.needs
  const late = row.lateDays
  if (late === null) {
    const missing =
      offer.leadDays === null
        ? `${offer.id} names no lead time`
        : 'nobody said when the order goes out and when the box is needed'
    return {
      findings: [
        found({
          code: 'supply/ready',
          subject,
          verdict: 'unknown',
          basis: 'physics',
          provenance: 'told',
          said: `Whether the supply comes in time is not known: ${missing}.`,
          workings: [id],
        }),
      ],
      workings: [dateWorking(facts, id)],
    }
  }
  const when = row.readyDate === null ? `${shown(offer.leadDays ?? 0)} days after the order` : `on ${row.readyDate}`
  const need = isoOrNull(neededBy) ?? `the day it is needed${neededBy === null ? '' : ` (${neededBy})`}`
  const verdict: Verdict = late > 0 ? (interim?.offer == null ? 'fails' : 'tight') : late > -TIGHT_DAYS ? 'tight' : 'holds'
  const said =
    late > 0
      ? `${offer.id} is ready ${when}, ${late} days after ${need}: ${interim?.offer == null ? 'and nothing feeds the gap' : `${interim.offer} feeds the gap`}.`
      : `${offer.id} is ready ${when}, ${-late} days before ${need}${orderDate === null ? '' : `, ordered ${orderDate}`}.`
  const findings = [
    found({
      code: 'supply/ready',
      subject,
      verdict,
      basis: 'physics',
      provenance: 'told',
      said,
      demand: put('lead', offer.leadDays ?? 0, 'd'),
      limit: put('time', (offer.leadDays ?? 0) - late, 'd'),
      workings: [id],
      mends: late > 0 && interim?.offer == null ? interimMends(facts) : [],
    }),
  ]
  return { findings, workings: [dateWorking(facts, id)] }
}

/** Other offers that would be there in time. */
function interimMends(facts: Facts): Finding['mends'] {
  return facts.rows
    .filter(
      (row) =>
        row.offer !== facts.offer.id && row.available && row.verdict !== 'fails' && (row.lateDays === null || row.lateDays <= 0),
    )
    .filter((row, i, all) => all.findIndex((other) => other.offer === row.offer) === i)
    .map((row) => ({ path: 'supply.interim', value: row.offer, words: `${row.what} until the supply is ready` }))
}

function dateWorking(facts: Facts, id: string): Working {
  const { offer, row, inputs } = facts
  const { orderDate, neededBy } = inputs.job.needs
  return {
    id,
    title: `When ${offer.id} is ready`,
    steps: [
      line(
        'ready',
        'order + lead, a day begun counts whole',
        [
          ['order', orderDate ?? 'not said', ''],
          ['lead', offer.leadDays ?? 'not said', 'd'],
        ],
        row.readyDate ?? 'not known',
        '',
      ),
      line('late', 'ready − needed', [['needed', neededBy ?? 'not said', '']], row.lateDays ?? 'not known', 'd'),
    ],
  }
}

function billFinding(facts: Facts, id: string): { readonly finding: Finding; readonly working: Working } {
  const { subject, row, offer, inputs, box } = facts
  const { bill } = row
  const currency = inputs.job.tariff.currency
  const missing = bill === null ? ['everything'] : bill.lines.filter((l) => l.money === null).map((l) => l.what)
  const span = (low: number, high: number) =>
    Math.round(low) === Math.round(high) ? `${Math.round(high)}` : `${Math.round(low)} to ${Math.round(high)}`
  const known =
    bill === null || bill.totalMoney.high === 0 ? '' : `${span(bill.totalMoney.low, bill.totalMoney.high)} ${currency}`
  const stay =
    row.overStayMoney === null
      ? ''
      : `; over ${monthsOfPhase(inputs.job, box.phase)} months ${span(row.overStayMoney.low, row.overStayMoney.high)} ${currency} with the fee`
  return {
    finding: found({
      code: 'supply/bill',
      subject,
      verdict: missing.length > 0 ? 'unknown' : 'holds',
      basis: 'house',
      provenance: 'told',
      said:
        missing.length > 0
          ? `${known === '' ? `What a month of full days from ${offer.id} costs is not known` : `A month of full days from ${offer.id} costs at least ${known}`}; not stated: ${missing.join(', ')}.`
          : `A month of full days from ${offer.id} costs ${known}${stay}.`,
      workings: [id],
    }),
    working: {
      id,
      title: `A month of full days from ${offer.id}`,
      steps: [
        ...(bill?.lines ?? []).map((l) =>
          line(l.what, l.said, [], l.money === null ? 'not stated' : l.money.high, currency, 'tariff as told'),
        ),
        line('sum', 'of the lines', [], bill?.totalMoney.high ?? 'not known', currency),
      ],
      notes: [
        'High end; the low end counts duty as even. A starting current does not count: the meter takes means over its window.',
      ],
    },
  }
}

/** What stands beside: the ranking, offers that are refused, and those that come late. None of these fails a design that does not rest on it. */
export function besideFindings(facts: Omit<Facts, 'row' | 'offer'>): readonly Finding[] {
  const { subject, rows, inputs, box } = facts
  const best = rows[0]
  const findings: Finding[] = []
  if (best !== undefined) {
    const ranked = rows.filter((row, i, all) => all.findIndex((o) => o.offer === row.offer) === i).map((row) => row.offer)
    findings.push(
      found({
        code: 'supply/offers',
        subject,
        verdict: 'holds',
        basis: 'house',
        provenance: 'told',
        said: `${ranked.length} ${ranked.length === 1 ? 'offer' : 'offers'}, best first: ${ranked.join(', ')}; the design takes ${box.offer}.`,
      }),
    )
  }
  for (const offer of inputs.job.offers) {
    if (offer.noticeH === undefined || !offer.available) continue
    const feeds = offer.id === box.offer || offer.id === box.interim
    const way = feeds && box.interim !== null && box.interim !== box.offer
    findings.push(
      found({
        code: 'supply/notice',
        subject: offer.id,
        verdict: feeds && !way ? 'tight' : 'holds',
        basis: 'physics',
        provenance: 'told',
        said: `${offer.what} may be cut off at ${shown(offer.noticeH)} h notice: ${way ? 'the other source of the design is the way back' : feeds ? 'nothing in the design would take over' : 'keep another source ready wherever it feeds the box'}.`,
      }),
    )
  }
  findings.push(...severalServices(inputs, box))
  const seen = new Set<string>()
  for (const row of rows) {
    if (row.offer === box.offer || seen.has(row.offer)) continue
    seen.add(row.offer)
    const key = { subject: row.offer, basis: 'physics', provenance: 'told', verdict: 'holds' } as const
    if (!row.available)
      findings.push(found({ ...key, code: 'supply/offer-refused', said: `${row.what} is ${row.why}: not counted on.` }))
    else if (row.lateDays !== null && row.lateDays > 0) {
      findings.push(
        found({
          ...key,
          code: 'supply/offer-late',
          said: `${row.what} would come ${row.lateDays} days late${row.readyDate === null ? '' : `, on ${row.readyDate}`}${row.feeMoney === null ? '' : `, for ${Math.round(row.feeMoney)} ${inputs.job.tariff.currency}`}.`,
        }),
      )
    } else if (row.verdict === 'fails' && row.lacks.length > 0)
      findings.push(found({ ...key, code: 'supply/offer-lacks', said: `${row.what} lacks ${row.lacks.join('; ')}.` }))
  }
  return findings
}

/**
 * A service for each of several boxes, or one with feeders between them: what the other way would cost as a plan weighed it, or why it was
 * not weighed. Said once, at the first box and in the first phase that has several.
 */
function severalServices({ job, design, feeders }: Facts['inputs'], box: BoxDesign): readonly Finding[] {
  const aloneIn = (phase: string) => design.boxes.filter((b) => b.phase === phase && b.fedFrom === null)
  const phases = [...new Set(design.boxes.map((b) => b.phase))]
  const alone = aloneIn(box.phase)
  const at = phases.find((p) => aloneIn(p).length > 1) ?? phases[0]
  if (alone[0]?.box !== box.box || at !== box.phase) return []
  if (alone.length < 2 && feeders === undefined) return []
  const names = alone.length < 2 ? (feeders?.boxes ?? []) : alone.map((b) => b.box)
  const untold = alone.slice(1).find((b) => distanceM(job, alone[0]?.box ?? '', b.box) === null)
  const said =
    alone.length < 2
      ? `One service and one meter for ${names.join(' and ')}.`
      : `${alone.length} boxes each have a service and a meter of their own.`
  const why =
    feeders?.why ??
    (untold === undefined ? 'a plan weighs it, not the judgement of one design' : distanceUntold(alone[0]?.box ?? '', untold.box))
  const open = feeders?.weighed == null && untold !== undefined
  return [
    found({
      code: 'supply/several-services',
      subject: names.join(' and '),
      verdict: open ? 'unknown' : 'holds',
      basis: 'house',
      provenance: 'computed',
      said: `${said} ${feeders?.weighed ?? `The other way was not weighed: ${why}${open ? '; write it under “distances” of one of them' : ''}.`}`,
    }),
  ]
}
