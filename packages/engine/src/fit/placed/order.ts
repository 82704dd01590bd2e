import { type BoxBody, PADS } from '../../box/index.ts'
import type { FitDesign, ItemKind, PlacedItem } from '../../job/index.ts'
import { put } from '../../kernel/index.ts'
import { type Judged, judged, shown, together } from '../judged.ts'
import { LIGHT_LEAST_MM, RECEPTACLE_HIGH_MM, RECEPTACLE_LOW_MM } from '../layout/rules.ts'
import { middleOf } from './words.ts'

/** @source the trade's order along the wall. Provenance: common practice */
const ORDER: readonly ItemKind[] = ['transfer', 'surge device', 'panel', 'contactors', 'controls']

/** Contactors and controls hang on either hand of the panel that feeds them: each is a step from it. */
const rankOf = (i: PlacedItem): number => Math.min(ORDER.indexOf(i.kind), ORDER.indexOf('panel'))

/** Enclosures on one wall stand in the order in which current passes them, read from either end; nothing hangs on the door end. */
export function judgeOrder(box: string, fit: FitDesign): Judged {
  const row = fit.items.filter((i) => i.face === 'inside' && ORDER.includes(i.kind))
  const end = fit.items.filter((i) => i.side === 'door end')
  const out: Judged[] = end.map((i) =>
    judged({
      code: 'fit/order',
      subject: `${box} ${i.id}`,
      verdict: 'fails',
      basis: 'house',
      said: `${i.id} hangs on the door end, which opens.`,
      provenance: 'common practice',
    }),
  )
  for (const side of ['left', 'right', 'blind end'] as const) {
    const along = side === 'blind end' ? 1 : 0
    const here = row.filter((i) => i.side === side).toSorted((a, b) => a.atMm[along] - b.atMm[along])
    if (here.length < 2) continue
    const ranks = here.map(rankOf)
    const up = ranks.every((r, k) => k === 0 || r >= ranks[k - 1]!)
    const down = ranks.every((r, k) => k === 0 || r <= ranks[k - 1]!)
    const shownRow = here.map((i) => i.id).join(', ')
    out.push(
      judged({
        code: 'fit/order',
        subject: `${box} ${side}`,
        verdict: up || down ? 'holds' : 'fails',
        basis: 'house',
        said:
          up || down
            ? `Along the ${side} wall stand ${shownRow}: in the order of the current.`
            : `Along the ${side} wall stand ${shownRow}: not in the order of the current.`,
        provenance: 'common practice',
      }),
    )
  }
  return together(out)
}

interface Band {
  readonly lowM: number
  readonly highM: number
  readonly of: 'middle' | 'underside'
}

/** Heights that the trade's table gives; above the floor. */
const HEIGHTS: Readonly<Partial<Record<ItemKind, Band>>> = {
  receptacle: { lowM: RECEPTACLE_LOW_MM / 1000, highM: RECEPTACLE_HIGH_MM / 1000, of: 'middle' },
  'light switch': { lowM: 1, highM: 1.2, of: 'middle' },
  light: { lowM: LIGHT_LEAST_MM / 1000, highM: Infinity, of: 'underside' },
}
const METER_LOW_M = 1.5
const METER_HIGH_M = 1.8

/** Meter centre above grade, at both ends of the pads' height. */
function meterHeight(box: string, fit: FitDesign): Judged {
  const meter = fit.items.find((i) => i.kind === 'meter')
  if (meter === undefined) return { findings: [], workings: [] }
  const middleMm = meter.atMm[2] + meter.sizeMm[2] / 2
  const lowM = (middleMm + PADS.lowestMm) / 1000
  const highM = (middleMm + PADS.highestMm) / 1000
  const fits = (m: number) => m >= METER_LOW_M - 1e-9 && m <= METER_HIGH_M + 1e-9
  const never = highM < METER_LOW_M - 1e-9 || lowM > METER_HIGH_M + 1e-9
  const verdict = never ? 'fails' : fits(lowM) && fits(highM) ? 'holds' : 'tight'
  return judged({
    code: 'fit/meter-height',
    subject: `${box} ${meter.id}`,
    verdict,
    basis: 'house',
    said: `The meter's middle is ${lowM.toFixed(2)} to ${highM.toFixed(2)} m above the ground on pads of ${PADS.lowestMm} to ${PADS.highestMm} mm; utilities ask for ${METER_LOW_M} to ${METER_HIGH_M} m.`,
    demand: put('height', `${lowM.toFixed(2)} to ${highM.toFixed(2)}`, 'm'),
    limit: put('height asked', `${METER_LOW_M} to ${METER_HIGH_M}`, 'm'),
    provenance: 'common practice',
    decides: 'the utility',
  })
}

export function judgeHeights(box: string, body: BoxBody, fit: FitDesign): Judged {
  const wrong = fit.items.flatMap((i) => heightWrong(body, i) ?? [])
  if (fit.items.length === 0) return { findings: [], workings: [] }
  const meter = meterHeight(box, fit)
  if (wrong.length === 0)
    return together([
      meter,
      judged({
        code: 'fit/height',
        subject: box,
        verdict: 'holds',
        basis: 'house',
        said: 'Receptacles, switch and lights hang at the heights of the trade.',
        provenance: 'common practice',
      }),
    ])
  return together([
    meter,
    ...wrong.map(({ item, isM, band }) =>
      judged({
        code: 'fit/height',
        subject: `${box} ${item.id}`,
        verdict: 'fails',
        basis: 'house',
        said: `The ${band.of} of ${item.id} is ${isM.toFixed(2)} m up; the trade hangs it ${band.highM === Infinity ? `at ${band.lowM} m or higher` : `between ${band.lowM} and ${band.highM} m`}.`,
        demand: put('height', Number(shown(isM)), 'm'),
        limit: put(isM < band.lowM ? 'lowest' : 'highest', isM < band.lowM ? band.lowM : band.highM, 'm'),
        provenance: 'common practice',
      }),
    ),
  ])
}

function heightWrong(
  body: BoxBody,
  item: PlacedItem,
): { readonly item: PlacedItem; readonly isM: number; readonly band: Band } | null {
  const band = HEIGHTS[item.kind]
  if (band === undefined || (item.kind === 'receptacle' && item.face === 'outside')) return null
  const isM = band.of === 'middle' ? middleOf(body, item).upM : (item.atMm[2] - body.floor.topMm) / 1000
  return isM < band.lowM - 1e-9 || isM > band.highM + 1e-9 ? { item, isM, band } : null
}
