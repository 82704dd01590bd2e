import type { BoxBody } from '../../box/index.ts'
import type { FitDesign, PlacedItem } from '../../job/index.ts'
import { judgeLower, put, source, step, type Working } from '../../kernel/index.ts'
import { type Judged, judged, together } from '../judged.ts'
import { TOLERANCE_MM } from '../layout/rules.ts'

const TOLERANCE = source('whatever is built lands 5 mm off', 'common practice')
const GEOMETRY = source('corners and sizes of the design', 'computed')

/** Clear distance of two upright boxes along the axis that parts them most; negative: how deep they stand in each other. */
export function apartMm(a: Pick<PlacedItem, 'atMm' | 'sizeMm'>, b: Pick<PlacedItem, 'atMm' | 'sizeMm'>): number {
  let most = -Infinity
  for (let i = 0; i < 3; i++) {
    const [a0, b0] = [a.atMm[i]!, b.atMm[i]!]
    most = Math.max(most, b0 - a0 - a.sizeMm[i]!, a0 - b0 - b.sizeMm[i]!)
  }
  return most
}

/** Pieces of one wireway meet at an elbow. */
const joined = (a: PlacedItem, b: PlacedItem): boolean => a.kind === 'wireway' && b.kind === 'wireway'

/** Every pair of things that hang: none may stand nearer than the build tolerance. */
export function judgeApart(box: string, fit: FitDesign): Judged {
  const pairs: { readonly a: PlacedItem; readonly b: PlacedItem; readonly mm: number }[] = []
  for (const [i, a] of fit.items.entries())
    for (const b of fit.items.slice(i + 1)) if (!joined(a, b)) pairs.push({ a, b, mm: apartMm(a, b) })
  const least = pairs.reduce<(typeof pairs)[number] | null>((m, p) => (m === null || p.mm < m.mm ? p : m), null)
  if (least === null) return { findings: [], workings: [] }
  const near = pairs.filter((p) => judgeLower(p.mm, TOLERANCE_MM, 0) === 'fails')
  return together((near.length === 0 ? [least] : near).map((p) => pairFinding(box, p.a, p.b, p.mm)))
}

function pairFinding(box: string, a: PlacedItem, b: PlacedItem, mm: number): Judged {
  const working: Working = {
    id: `${box} ${a.id}/apart from ${b.id}`,
    title: `Clear distance of ${a.id} and ${b.id}`,
    steps: [
      step(
        'a',
        'greatest, over the three axes, of the nearer corner of one less the farther corner of the other',
        [
          put(a.id, corner(a), 'mm'),
          put(`size of ${a.id}`, a.sizeMm.map(round).join(' × '), 'mm'),
          put(b.id, corner(b), 'mm'),
          put(`size of ${b.id}`, b.sizeMm.map(round).join(' × '), 'mm'),
        ],
        round(mm),
        'mm',
        GEOMETRY,
      ),
    ],
    judgement: {
      demand: put('a', round(mm), 'mm'),
      relation: '≥',
      limit: put('tolerance', TOLERANCE_MM, 'mm'),
      tight: 'none',
      rests: TOLERANCE,
    },
  }
  const verdict = judgeLower(mm, TOLERANCE_MM, 0)
  return judged(
    {
      code: 'fit/overlap',
      subject: `${box} ${a.id}`,
      verdict,
      basis: 'physics',
      said:
        mm < 0
          ? `${a.id} and ${b.id} stand ${round(-mm)} mm in each other.`
          : verdict === 'fails'
            ? `${a.id} and ${b.id} are ${round(mm)} mm apart; what is built lands ${TOLERANCE_MM} mm off.`
            : `No two things are nearer than ${a.id} and ${b.id}: ${round(mm)} mm.`,
      demand: put('apart', round(mm), 'mm'),
      limit: put('tolerance', TOLERANCE_MM, 'mm'),
      provenance: 'common practice',
    },
    working,
  )
}

const corner = (i: PlacedItem): string => i.atMm.map(round).join(', ')
const round = (n: number): number => Math.round(n * 10) / 10

/** Everything inside stands within the clear inside; what hangs outside stands off the steel and no longer or higher than the box. */
export function judgeInside(box: string, body: BoxBody, fit: FitDesign): Judged {
  const wrong = fit.items.flatMap((item) => {
    const over = AXES.flatMap((axis) => outOf(body, item, axis))
    const worst = over.toSorted((a, b) => b.byMm - a.byMm)[0]
    return worst === undefined ? [] : [{ item, ...worst }]
  })
  if (wrong.length === 0)
    return judged({
      code: 'fit/inside-box',
      subject: box,
      verdict: fit.items.length === 0 ? 'unknown' : 'holds',
      basis: 'physics',
      said:
        fit.items.length === 0
          ? `Nothing hangs in ${box}: there is nothing to judge.`
          : `All ${fit.items.length} things stand within the box of ${body.insideMm.map((mm) => (mm / 1000).toFixed(2)).join(' × ')} m inside.`,
      provenance: 'computed',
    })
  return together(
    wrong.map(({ item, axis, needMm, roomMm, byMm }) =>
      judged({
        code: 'fit/inside-box',
        subject: `${box} ${item.id}`,
        verdict: 'fails',
        basis: 'physics',
        said: `${item.id} takes ${round(needMm)} mm ${axis.word}, the ${item.face === 'inside' ? 'inside' : 'outside'} of ${box} has ${round(roomMm)} mm; it stands ${round(byMm)} mm out of it.`,
        demand: put('taken', round(needMm), 'mm'),
        limit: put('room', round(roomMm), 'mm'),
        provenance: 'computed',
      }),
    ),
  )
}

const AXES = [
  { at: 0, word: 'along the box' },
  { at: 1, word: 'across the box' },
  { at: 2, word: 'up' },
] as const

interface Out {
  readonly axis: (typeof AXES)[number]
  readonly needMm: number
  readonly roomMm: number
  readonly byMm: number
}

/** By how much a thing leaves the box along one axis; outside, only along its own wall and up. */
function outOf(body: BoxBody, item: PlacedItem, axis: (typeof AXES)[number]): readonly Out[] {
  const outside = item.face === 'outside'
  const across = item.side === 'blind end' || item.side === 'door end' ? 0 : item.side === 'roof' || item.side === 'floor' ? 2 : 1
  const [lowMm, roomMm] = outside ? [0, body.outsideMm[axis.at]] : [body.insideAtMm[axis.at], body.insideMm[axis.at]]
  const from = item.atMm[axis.at]
  const needMm = item.sizeMm[axis.at]
  if (outside && axis.at === across) {
    // Outside it must keep off the steel, towards whichever face it hangs on.
    const into =
      item.side === 'left' || item.side === 'blind end' || item.side === 'floor' ? from + needMm : body.outsideMm[axis.at] - from
    return into > EXACT ? [{ axis, needMm, roomMm: 0, byMm: into }] : []
  }
  const byMm = Math.max(lowMm - from, from + needMm - lowMm - roomMm)
  return byMm > EXACT ? [{ axis, needMm, roomMm, byMm }] : []
}

const EXACT = 1e-6
