import type { Assessment } from '@plugstead/engine/assess'
import type { Design } from '@plugstead/engine/job'
import { formatNumber, type Verdict, worst } from '@plugstead/engine/kernel'
import { count } from './assessment.ts'
import { moneyText } from './number.ts'
import { labelled } from './wrap.ts'

const COLUMN = 9

/** What hangs, is cut, is lifted and is bought, a few lines for each box that is built. Empty where none is. */
export function buildText(design: Design, assessment: Assessment): string {
  const boxes = design.builds.map((b) => b.box)
  return boxes.map((box) => boxText(box, boxes, assessment)).join('\n\n')
}

function boxText(box: string, boxes: readonly string[], { results, findings }: Assessment): string {
  // “yard annex roof” is about the annex, though it begins with “yard”: the longest name wins.
  const boxOf = (subject: string): string | undefined =>
    boxes.filter((id) => `${subject} `.startsWith(`${id} `)).toSorted((a, b) => b.length - a.length)[0]
  const of = <T extends { readonly box: string }>(boxes: readonly T[]): T | undefined => boxes.find((b) => b.box === box)
  const rows: readonly (readonly [string, string | null])[] = [
    ['hangs', hangs(of(results.fit.boxes))],
    ['cut', cut(of(results.skin.boxes))],
    [
      'lifted',
      lifted(
        of(results.haul.boxes),
        findings.filter((f) => f.question === 'haul' && (boxOf(f.subject) ?? box) === box).map((f) => f.verdict),
      ),
    ],
    ['sawn', sawn(of(results.shop.boxes))],
    ['bought', bought(of(results.shop.boxes))],
    ['hours', hours(of(results.shop.boxes))],
  ]
  return [`Built: ${box}`, ...rows.flatMap(([label, text]) => (text === null ? [] : [labelled(label, text, COLUMN, 2)]))].join(
    '\n',
  )
}

const range = (ends: { readonly low: number; readonly high: number }, unit: string): string => {
  const [low, high] = [formatNumber(ends.low), formatNumber(ends.high)]
  return low === high ? `${low} ${unit}` : `${low} to ${high} ${unit}`
}

function hangs(fit: Assessment['results']['fit']['boxes'][number] | undefined): string | null {
  if (fit === undefined) return null
  const strut = fit.strut.map((s) => `${count(s.piecesCount, 'piece')} of ${s.section}, ${formatNumber(s.lengthM)} m`)
  return `${count(fit.items.length, 'thing')}, ${range(fit.hungKg, 'kg')}${strut.length === 0 ? '' : `, on ${strut.join(' and ')}`}.`
}

function cut(skin: Assessment['results']['skin']['boxes'][number] | undefined): string | null {
  if (skin === undefined) return null
  if (skin.openings.length === 0) return `Nothing. Approval plate: ${skin.plate}.`
  const classes = [...new Set(skin.openings.map((o) => o.class))].map(
    (name) => `${skin.openings.filter((o) => o.class === name).length} × ${name}`,
  )
  return `${count(skin.openings.length, 'opening')}: ${classes.join(', ')}. The whole is as tight as ${skin.tightness.worst}: ${skin.tightness.rating}. Approval plate: ${skin.plate}.`
}

/** Never more than “within the limits computed”, and that only where nothing fails and all is known. */
function lifted(haul: Assessment['results']['haul']['boxes'][number] | undefined, verdicts: readonly Verdict[]): string | null {
  if (haul === undefined) return null
  const centre = haul.centres.at(-1)
  const mass =
    centre === undefined
      ? 'Mass not known'
      : `${range(centre.massKg, 'kg')} ${centre.state}, its middle up to ${formatNumber(centre.offXMm)} mm off along and ${formatNumber(centre.offYMm)} mm across`
  const words = {
    fails: 'Something of lifting, hauling or standing is not within the limits computed',
    unknown: 'Not all of it could be computed',
  } as const
  const verdict = worst(verdicts)
  const said = verdict === 'fails' || verdict === 'unknown' ? words[verdict] : 'Within the limits computed'
  return `${mass}; lifted by ${haul.design.lift}, set down by ${haul.design.unload}. ${said}; not yet decided by the appointed lifting person.`
}

function sawn(shop: Assessment['results']['shop']['boxes'][number] | undefined): string | null {
  if (shop === undefined || shop.cuts.length === 0) return null
  const all = shop.cuts.every((c) => c.plan.proven)
  const bars = shop.cuts.map((c) => `${c.plan.count} of ${c.section}${all || c.plan.proven ? '' : ' (not proven)'}`)
  return `Bars, ${all ? 'no plan does better' : 'proven where nothing else is said'}: ${bars.join('; ')}.`
}

function bought(shop: Assessment['results']['shop']['boxes'][number] | undefined): string | null {
  if (shop === undefined) return null
  const { bill } = shop
  const open = bill.lines.filter((l) => l.money === null).length
  return `${count(bill.lines.length, 'line')}, ${open === 0 ? '' : 'at least '}${moneyText(bill.totalMoney, bill.currency)}${open === 0 ? '' : `; ${open} without a price`}.`
}

function hours(shop: Assessment['results']['shop']['boxes'][number] | undefined): string | null {
  if (shop === undefined) return null
  const by = (Object.keys(shop.hours.byTrade) as (keyof typeof shop.hours.byTrade)[]).map(
    (trade) => `${trade} ${range(shop.hours.byTrade[trade], 'h')}`,
  )
  return `${range(shop.hours.total, 'h')}: ${by.join(', ')}.`
}
