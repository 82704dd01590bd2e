import type { Block, Inline } from '../../content.ts'
import type { BoxShop } from '../../results.ts'
import { col, plain, quantity, right } from '../../words.ts'
import { pieceWords } from '../build-words.ts'

export function paperBlocks({ torque, serials, labels }: BoxShop): readonly Block[] {
  return [...torqueBlocks(torque), ...serialBlocks(serials), ...labelBlocks(labels)]
}

/** Screws of one kind and torque in one row, whatever circuit they are of. */
function torqueBlocks(torque: BoxShop['torque']): readonly Block[] {
  const groups = new Map<string, { readonly what: string; readonly where: string; readonly of: string }[]>()
  const counts = new Map<string, number>()
  for (const t of torque) {
    const [, what = t.what, of = ''] = /^(.*) of (\S+)$/.exec(t.what) ?? []
    const key = JSON.stringify([what, t.torqueNm, t.rests])
    groups.set(key, [...(groups.get(key) ?? []), { what, where: t.where, of }])
    counts.set(key, (counts.get(key) ?? 0) + t.count)
  }
  if (groups.size === 0) return []
  return [
    { k: 'head', text: 'Torque', note: 'with a wrench that is in date; a mark across each screw when done' },
    {
      k: 'table',
      small: true,
      columns: [
        right('no.', 10),
        col('what', -0.9),
        col('where', -1.5),
        right('torque', 22),
        col('rests on', -0.8),
        col('done, initials', 24),
      ],
      rows: [...groups].map(([key, own]): Inline[] => {
        const [, torqueNm, rests] = JSON.parse(key) as [string, number | null, string]
        return [
          String(counts.get(key)),
          own[0]!.what,
          placeWords(own),
          torqueNm === null ? 'not known' : quantity(torqueNm, 'Nm'),
          plain(rests),
          '',
        ]
      }),
    },
  ]
}

/** `panel: C1, C2` where all are in one place, else the places. */
function placeWords(own: readonly { readonly where: string; readonly of: string }[]): string {
  const places = [...new Set(own.map((o) => o.where))]
  const of = own.flatMap((o) => (o.of === '' ? [] : [o.of]))
  return places.length === 1 && of.length > 0 ? `${places[0]}: ${of.join(', ')}` : pieceWords(places)
}

function serialBlocks(serials: BoxShop['serials']): readonly Block[] {
  if (serials.length === 0) return []
  return [
    { k: 'head', text: 'Serial numbers', note: 'from the plates, when it hangs' },
    {
      k: 'table',
      small: true,
      columns: [col('tag', -0.8), col('what', -1.3), col('rating', -0.8), col('maker and type', 44), col('serial number', 44)],
      rows: serials.map((s): Inline[] => [[['b', s.id]], plain(s.what), plain(s.rating), '', '']),
    },
  ]
}

function labelBlocks(labels: BoxShop['labels']): readonly Block[] {
  if (labels.length === 0) return []
  return [
    { k: 'head', text: 'Labels to make' },
    { k: 'para', text: `${labels.map((l) => `${l.count} × ${l.what}`).join(', ')}.` },
  ]
}
