import { CHANGE_CAUTIONS, type ChangeLine, type ChangeList } from '@plugstead/engine/plan'
import { moneyText } from './number.ts'
import { labelled, wrapped } from './wrap.ts'

const COLUMN = 9

/** The change list of one box that stands: what is done and at what price, then what is kept. */
export function changesText(list: ChangeList): string {
  const done = list.lines.filter((line) => line.action !== 'keep')
  const kept = list.lines.filter((line) => line.action === 'keep')
  const still =
    list.stillFails.length === 0
      ? 'With every line done nothing fails that is judged here.'
      : `With every line done these still fail: ${list.stillFails.join(', ')}.`
  const unknown = list.staysUnknown.length === 0 ? '' : ` Unknown until looked at: ${list.staysUnknown.join(', ')}.`
  return [
    [
      `What must be changed on ${list.box}, which stands`,
      wrapped(
        `Material ${floor(list.moneyIsFloor)}${moneyText(list.money, list.currency)}; the same box built new ${floor(list.freshIsFloor)}${moneyText(list.freshMoney, list.currency)}. Steel, labour and haul are in neither.`,
        { indent: 2 },
      ),
      wrapped(`${still}${unknown}`, { indent: 2 }),
      ...CHANGE_CAUTIONS.map((said) => labelled('caution', said, COLUMN, 2)),
    ].join('\n'),
    ...done.map((line) => lineText(line, list.currency)),
    ...(kept.length === 0
      ? []
      : [
          [
            '  Kept as built',
            ...kept.map((line) => wrapped(`${line.tag}: ${line.component} (${line.asBuilt})`, { indent: 4, hang: 6 })),
          ].join('\n'),
        ]),
  ].join('\n\n')
}

const floor = (isFloor: boolean): string => (isFloor ? 'at least ' : '')

function lineText(line: ChangeLine, currency: string): string {
  const count = line.quantity === 1 ? '' : `${line.quantity} × `
  const why = line.codes.length === 0 ? line.why : `${line.why} (${line.codes.join(', ')})`
  const money = priceText(line, currency)
  const rows: readonly (readonly [string, string])[] = [
    ['as built', line.asBuilt],
    ['needed', line.needed],
    ['why', why],
    ...(money === null ? [] : [['material', money] as const]),
    ...(line.must ? [['must', `without it fails ${line.without.join(', ')}`] as const] : []),
  ]
  return [
    wrapped(`${line.action}: ${count}${line.component}${line.component.includes(line.tag) ? '' : `, ${line.tag}`}`, {
      indent: 2,
      hang: 4,
    }),
    ...rows.map(([label, text]) => labelled(label, text, COLUMN, 4)),
  ].join('\n')
}

/** Null where nothing is bought. */
function priceText({ material, priceUnknown }: ChangeLine, currency: string): string | null {
  const missing = material?.missing.map((m) => m.id) ?? []
  if (material === null) return priceUnknown ? 'price not known' : null
  const money = moneyText(material.totalMoney, currency)
  if (missing.length === 0) return priceUnknown ? `at least ${money}, more is not known` : money
  return `at least ${money}; price not known: ${[...new Set(missing)].join(', ')}`
}
