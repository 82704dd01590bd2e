import type { BoxDesign, Offer } from '../../job/index.ts'
import { Fault, type Finding, isoOrNull, plusDays, put, source, type Working, worst } from '../../kernel/index.ts'
import type { Answer } from '../answer.ts'
import type { Inputs } from '../inputs.ts'
import { type BoxNeeds, type NeedsResult, subjectOf } from '../needs/index.ts'
import { modesOf } from '../path.ts'
import { type BondFacts, bondPosition } from './bonds.ts'
import { found, line } from './finding.ts'
import { besideFindings, chosenFindings } from './offer-findings.ts'
import { monthsOf, rankOffers, type Share } from './offers.ts'
import type { BondPosition, BoxSupply, Interim, OfferRow, SupplyResult } from './result.ts'
import { setFindings } from './set-findings.ts'
import { type Held, heldLoad } from './sizes.ts'

/**
 * What can feed it: all offers side by side and ranked, the offer of the design judged, the interim for the gap, the bill, and the
 * neutral–earth bond in every position of the switch. Boxes fed from another box have no supply of their own.
 * @throws Fault `supply/system-unknown`
 */
export function answerSupply(inputs: Inputs, needs: NeedsResult): Answer<SupplyResult> {
  const findings: Finding[] = []
  const workings: Working[] = []
  const boxes: BoxSupply[] = []
  for (const box of inputs.design.boxes) {
    if (box.fedFrom !== null) continue
    const own = needs.boxes.find((n) => n.box === box.box && n.phase === box.phase)
    if (own === undefined) continue
    const answered = boxSupply(inputs, box, own, needs)
    findings.push(...answered.findings)
    workings.push(...answered.workings)
    boxes.push(answered.result)
  }
  return { findings, workings, result: { boxes } }
}

function boxSupply(inputs: Inputs, box: BoxDesign, needs: BoxNeeds, all: NeedsResult): Answer<BoxSupply> {
  const { job, rules, design, prices } = inputs
  const system = rules.systems.find((s) => s.id === box.system)
  if (system === undefined) throw new Fault('supply/system-unknown', box.system)
  const subject = subjectOf(design, box)
  const others = othersOn(inputs, box, all)
  const rows = rankOffers({ job, rules, prices, system, needs, box, others })
  const row = rowOfDesign(rows, box)
  const offer = job.offers.find((o) => o.id === box.offer)
  const interim = interimOf(inputs, box, rows, row)
  const bonds = bondsOf(inputs, box)
  const held = heldLoad(job, needs, box.staging, system)
  const findings: Finding[] = []
  const workings: Working[] = []
  const take = (part: { readonly findings: readonly Finding[]; readonly workings: readonly Working[] }) => {
    findings.push(...part.findings)
    workings.push(...part.workings)
  }
  if (offer === undefined || row === null) {
    findings.push(
      found({
        code: 'supply/not-offered',
        subject,
        verdict: 'fails',
        basis: 'physics',
        provenance: 'told',
        said: `The design rests on ${box.offer}, which nobody offers.`,
      }),
    )
  } else {
    take(chosenFindings({ inputs, subject, box, needs, rows, row, offer, interim }))
    if (row.generator !== null) take(setFindings(subject, offer, row.generator, together(held, others[offer.id]), 'stay'))
  }
  const gap = job.offers.find((o) => o.id === box.interim)
  const gapRow = rows.find((r) => r.offer === box.interim)
  if (gap !== undefined && gapRow !== undefined && gap.id !== box.offer) {
    findings.push(interimFinding(subject, gap, gapRow, interim))
    if (gapRow.generator !== null) take(setFindings(subject, gap, gapRow.generator, together(held, others[gap.id]), 'gap'))
  }
  findings.push(...besideFindings({ inputs, subject, box, needs, rows, interim }))
  for (const bond of bonds) take(bondFinding(subject, bond))
  return {
    findings,
    workings,
    result: {
      box: box.box,
      phase: box.phase,
      offers: rows,
      chosen: box.offer,
      chosenRow: row,
      best: rows.find((r) => r.available)?.offer ?? null,
      interim,
      bonds,
    },
  }
}

const together = (held: Held, other: Share | undefined): Held =>
  other === undefined
    ? held
    : {
        currentA: held.currentA + other.currentA,
        kVA: held.kVA + other.kVA,
        kW: held.kW + other.kW,
        basis: `${held.basis}, other boxes included`,
      }

/** What the other boxes of the same phase take from each offer of the design: two boxes on one transformer share it. */
function othersOn(inputs: Inputs, box: BoxDesign, needs: NeedsResult): Readonly<Record<string, Share>> {
  const out: Record<string, Share> = {}
  let earlier = true
  for (const other of inputs.design.boxes) {
    if (other === box) earlier = false
    if (other.phase !== box.phase || other.box === box.box || other.fedFrom !== null) continue
    const own = needs.boxes.find((n) => n.box === other.box && n.phase === other.phase)
    const system = inputs.rules.systems.find((s) => s.id === other.system)
    if (own === undefined || system === undefined) continue
    const held = heldLoad(inputs.job, own, other.staging, system)
    for (const id of new Set([other.offer, ...(other.interim === null ? [] : [other.interim])])) {
      const had = out[id] ?? { currentA: 0, kVA: 0, kW: 0, paidBy: earlier ? other.box : null }
      out[id] = { ...had, currentA: had.currentA + held.currentA, kVA: had.kVA + held.kVA, kW: had.kW + held.kW }
    }
  }
  return out
}

function rowOfDesign(rows: readonly OfferRow[], box: BoxDesign): OfferRow | null {
  const own = rows.filter((row) => row.offer === box.offer)
  const sized = own.filter((row) => row.kind !== 'utility' || row.sizeA === box.serviceA || box.transformer !== null)
  const matched = sized.filter((row) => row.ownTransformerKVA === (box.transformer?.kVA ?? null))
  return matched[0] ?? sized[0] ?? own[0] ?? null
}

function interimOf(inputs: Inputs, box: BoxDesign, rows: readonly OfferRow[], row: OfferRow | null): Interim | null {
  const days = row?.lateDays ?? null
  if (days === null || days <= 0) return null
  const neededBy = isoOrNull(inputs.job.needs.neededBy)
  const gap = box.interim === box.offer ? undefined : rows.find((r) => r.offer === box.interim)
  const months = monthsOf(days)
  const money = gap?.monthlyMoney
    ? {
        low: months * gap.monthlyMoney.low + (gap.oneOffMoney ?? 0),
        high: months * gap.monthlyMoney.high + (gap.oneOffMoney ?? 0),
      }
    : null
  return {
    fromDate: neededBy,
    toDate: row?.readyDate ?? (neededBy === null ? null : plusDays(neededBy, days)),
    days,
    offer: gap?.offer ?? null,
    money,
    why: gap === undefined ? 'nothing in the design feeds the gap' : gap.what,
  }
}

function interimFinding(subject: string, gap: Offer, row: OfferRow, interim: Interim | null): Finding {
  const days = interim?.days ?? 0
  const inTime = row.lateDays === null ? 'unknown' : row.lateDays > 0 ? 'fails' : 'holds'
  const money = interim?.money ? `, ${Math.round(interim.money.low)} to ${Math.round(interim.money.high)} for it` : ''
  const size = row.sizeA !== null && row.needA > row.sizeA ? 'fails' : 'holds'
  const said = `${gap.id} feeds the box for the gap of ${days} days${money}${row.lateDays === null ? '; nobody said how soon it can be there' : row.lateDays > 0 ? `; it comes ${row.lateDays} days late itself` : ''}${row.lacks.length > 0 ? `; it lacks ${row.lacks.join('; ')}` : ''}.`
  return found({
    code: 'supply/interim',
    subject,
    verdict: worst([inTime, size, gap.available ? 'holds' : 'fails']),
    basis: 'physics',
    provenance: 'told',
    said,
  })
}

/** Positions of the switch that the design has: its offer, its interim. */
function bondsOf(inputs: Inputs, box: BoxDesign): readonly BondPosition[] {
  const { job } = inputs
  const modes = modesOf(box, job)
  const setOffer = job.offers.find((o) => (o.id === box.offer || o.id === box.interim) && o.kind === 'generator')
  return modes.map(({ mode, offer: id }) => {
    const fed = job.offers.find((o) => o.id === id)
    const facts: BondFacts = {
      earthing: box.earthing,
      panelBonded: box.panel.bond === 'neutral bonded here',
      transfer: box.transfer,
      hasSet: setOffer !== undefined,
      hasNetwork: modes.some((m) => m.mode !== 'own set'),
      setBond: setOffer === undefined ? 'none' : box.setBond,
      factoryBond: setOffer === undefined ? false : (setOffer.generator?.neutralBondFactory ?? null),
      ownTransformer: box.transformer !== null && fed?.kind !== 'generator',
    }
    return bondPosition(mode, facts)
  })
}

function bondFinding(
  subject: string,
  bond: BondPosition,
): { readonly findings: readonly Finding[]; readonly workings: readonly Working[] } {
  const id = `${subject}/bond ${bond.position}`
  const rests = source('NEC 250.30, 250.32; CE Code Sections 10 and 28; IEC 60364-4-41', 'memory')
  const count = bond.position === 'own set' ? bond.bonds.length : bond.bonds.filter((b) => b.ours).length
  return {
    findings: [
      found({
        code: 'supply/neutral-bond',
        subject,
        verdict: bond.verdict,
        basis: 'code',
        provenance: 'memory',
        confirm: true,
        said: bond.said,
        demand: put('bonds', count, ''),
        limit: put('wanted', bond.wanted, ''),
        workings: [id],
        decides: 'the inspector',
        ...(bond.verdict === 'fails'
          ? {
              caution:
                'Two bonds let the neutral current flow in the earth wires and the skin of the box; none leaves a fault standing.',
            }
          : {}),
      }),
    ],
    workings: [
      {
        id,
        title: `Neutral–earth bond of ${subject}, fed by the ${bond.position}`,
        steps: [
          line(
            'bonds',
            bond.bonds.map((b) => `${b.where}${b.ours ? '' : ' (not ours)'}`).join(' + ') || 'none',
            [],
            count,
            '',
            'the design',
          ),
        ],
        judgement: {
          demand: put('bonds', count, ''),
          relation: '=',
          limit: put('wanted', bond.wanted, ''),
          tight: 'none',
          rests,
        },
      },
    ],
  }
}
