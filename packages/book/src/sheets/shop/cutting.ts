import type { Block, Inline } from '../../content.ts'
import type { BoxShop } from '../../results.ts'
import { col, number, plain, right } from '../../words.ts'
import { pieceWords } from '../build-words.ts'
import { type BuiltBox, drawingBlocks, mm } from '../built.ts'

export function cutBlocks({ cuts, bill }: BoxShop, box: BuiltBox): readonly Block[] {
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
