import type { Block, Inline } from '../../content.ts'
import type { BoxShop } from '../../results.ts'
import { col, number, plain, right } from '../../words.ts'
import { mm, SIDE_WORDS } from '../built.ts'

export function holeBlocks({ side, datum, bandMm, rows }: BoxShop['holes'][number]): readonly Block[] {
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
