import { CHANGE_CAUTIONS, type ChangeLine, type ChangeList } from '@plugstead/engine/plan'
import type { Inline, Sheet } from '../content.ts'
import { col, money, plain, right } from '../words.ts'

/** One sheet a box that stands: what is done to it, at what price, and what is kept. */
export function changesSheets(lists: readonly ChangeList[]): readonly Sheet[] {
  return lists.map((list) => ({
    part: 'changes',
    head: `What must be changed: ${list.box}`,
    sub: 'the box as it stands, held against what its new place asks',
    scale: 'not to scale',
    key: false,
    blocks: [
      ...CHANGE_CAUTIONS.map((text) => ({ k: 'strip' as const, text })),
      {
        k: 'facts',
        rows: [
          ['material of the changes', floored(list.money, list.moneyIsFloor, list.currency)],
          ['material of the same box new', floored(list.freshMoney, list.freshIsFloor, list.currency)],
          ['not in either', 'steel, labour and haul'],
          [
            'when every line is done',
            list.stillFails.length === 0
              ? 'nothing fails that is judged here'
              : [['fails', 'fails'], ` ${list.stillFails.join(', ')}`],
          ],
          ['unknown until looked at', list.staysUnknown.length === 0 ? 'nothing' : list.staysUnknown.join(', ')],
        ],
      },
      { k: 'head', text: 'To be done', note: 'must: what is named fails again when this line alone is left out' },
      {
        k: 'table',
        small: true,
        columns: [
          col('action', 20),
          right('no.', 8),
          col('what', -0.9),
          col('as built', -0.9),
          col('needed', -1),
          col('why', -1.3),
          right('material', 21),
        ],
        rows: list.lines.filter((line) => line.action !== 'keep').map((line) => rowOf(line, list.currency)),
      },
      { k: 'head', text: 'Kept as built' },
      {
        k: 'table',
        small: true,
        columns: [right('no.', 8), col('what', -1), col('as built', -1), col('why', -1)],
        rows: list.lines
          .filter((line) => line.action === 'keep')
          .map((line): Inline[] => [String(line.quantity), plain(named(line)), plain(line.asBuilt), line.why]),
      },
    ],
  }))
}

const floored = (value: number, isFloor: boolean, currency: string): string =>
  `${isFloor ? 'at least ' : ''}${money(value, currency)}`

const named = ({ component, tag }: ChangeLine): string => (component.includes(tag) ? component : `${component}: ${tag}`)

function rowOf(line: ChangeLine, currency: string): Inline[] {
  const others = line.without.filter((code) => !line.codes.includes(code))
  const must = line.must ? `must${others.length === 0 ? '' : `: ${others.join(', ')}`}` : ''
  const why: Inline = [
    plain(line.why),
    ...(line.codes.length === 0 ? [] : [['br', ''] as const, ['quiet', line.codes.join(', ')] as const]),
    ...(must === '' ? [] : [['br', ''] as const, ['b', must] as const]),
  ]
  return [
    [['b', line.action]],
    String(line.quantity),
    plain(named(line)),
    plain(line.asBuilt),
    plain(line.needed),
    why,
    priceOf(line, currency),
  ]
}

function priceOf({ material, priceUnknown }: ChangeLine, currency: string): string {
  if (material === null) return priceUnknown ? 'price not known' : '–'
  const isFloor = priceUnknown || material.missing.length > 0
  return isFloor ? `at least ${money(material.totalMoney, currency)}; rest not known` : money(material.totalMoney, currency)
}
