import type { Block, Inline } from '../../content.ts'
import type { BoxShop } from '../../results.ts'
import { col, number, right } from '../../words.ts'
import { mm } from '../built.ts'

export function bendBlocks({ raceways, knockouts }: BoxShop): readonly Block[] {
  if (raceways.length === 0) return []
  const bends = raceways.flatMap((r) => r.bends.map((b) => ({ raceway: r.id, ...b })))
  return [
    {
      k: 'table',
      small: true,
      columns: [
        col('piece', -1),
        col('pipe', 20),
        col('from', -0.8),
        col('to', -0.8),
        right('cut, mm', 16),
        col('bend', 24),
        right('begins, mm', 18),
        right('arrow, mm', 17),
        right('middle, mm', 18),
        right('turned', 14),
      ],
      rows: raceways.flatMap((r) =>
        r.pieces.flatMap((p): readonly Inline[][] => {
          const head: Inline[] = [
            [['b', p.id]],
            `${r.kind} ${r.trade}`,
            p.from === 'box' && p.axisFromMm <= 0.5 ? r.from : p.from,
            p.to === 'box' && p.axisToMm >= r.axisMm - 0.5 ? r.to : p.to,
            `${number(Math.round(p.developedMm * 10) / 10)}${p.nipple ? ', nipple' : ''}`,
          ]
          const marks = p.marks.map((m): Inline[] => [
            `${m.kind} ${number(m.angleDeg)}°`,
            mm(m.startMm),
            m.arrowMm === null ? 'not known' : mm(m.arrowMm),
            mm(m.middleMm),
            m.turnDeg === null ? '–' : `${mm(m.turnDeg)}°`,
          ])
          if (marks.length === 0) return [[...head, 'straight', '', '', '', '']]
          return marks.map((m, i) => (i === 0 ? [...head, ...m] : ['', '', '', '', '', ...m]))
        }),
      ),
    },
    {
      k: 'para',
      small: true,
      text: 'Begins, arrow and middle: from the datum end of the piece. Arrow: where the bender’s arrow stands; not known where no table knows the bender. Turned: the plane against that of the bend before; a kick and its corner stand square to each other, the kick away from the wall. Bend one, measure it, and correct the next.',
    },
    { k: 'head', text: 'What the bends take', note: 'along the axis of the raceway' },
    {
      k: 'table',
      small: true,
      columns: [
        col('raceway', -1),
        col('bend', 24),
        col('made', 24),
        right('at, mm', 15),
        right('angle', 13),
        right('rise, mm', 15),
        right('multiplier', 17),
        right('shrink, mm', 17),
        right('gain, mm', 15),
        right('take-up, mm', 19),
      ],
      rows: bends.map((b): Inline[] => [
        [['b', b.raceway]],
        b.kind,
        b.made,
        mm(b.atMm),
        `${number(b.angleDeg)}°`,
        ...(b.kind === 'quarter' ? ['–', '–', '–'] : [number(b.riseMm), number(b.multiplier), number(b.shrinkMm)]),
        b.made === 'bent' ? number(b.gainMm) : '–',
        b.takeUpMm === null ? '–' : number(b.takeUpMm),
      ]),
    },
    ...kickNote(raceways),
    { k: 'head', text: 'Each raceway', note: 'pipe by arcs, and again by gains' },
    {
      k: 'table',
      small: true,
      columns: [
        col('raceway', -0.8),
        right('axis, mm', 18),
        right('pipe, mm', 18),
        right('again, mm', 18),
        col('straps at, mm', -1.2),
        col('pull boxes at, mm', -0.8),
        col('fittings', -1.4),
      ],
      rows: raceways.map((r): Inline[] => [
        [['b', r.id]],
        mm(r.axisMm),
        mm(r.developedMm),
        mm(r.checkMm),
        r.strapsMm.map(mm).join(', ') || 'none',
        r.pullsMm.map(mm).join(', ') || 'none',
        fittingWords(r.fittings),
      ]),
    },
    { k: 'head', text: 'Knock-outs', note: 'in each enclosure, for the connectors of the raceways that end there' },
    {
      k: 'table',
      small: true,
      columns: [
        col('enclosure', -1),
        col('raceway', 22),
        right('holes', 12),
        right('knock, mm', 18),
        right('from to, mm', 24),
        col('for', -2),
      ],
      rows: knockouts.map((r): Inline[] => [
        [['b', r.item]],
        `${r.kind} ${r.trade}`,
        number(r.count),
        r.hole === null ? 'measure' : number(r.hole.nominalMm),
        r.hole === null ? '–' : `${number(r.hole.leastMm)} to ${number(r.hole.mostMm)}`,
        r.raceways.join(', '),
      ]),
    },
  ]
}

function kickNote(raceways: BoxShop['raceways']): readonly Block[] {
  if (!raceways.some((r) => r.bends.some((b) => b.kind === 'kick'))) return []
  return [
    {
      k: 'para',
      small: true,
      text: 'Kick: one small bend in the leg before the corner, so that the leg behind it stands off the channel by the rise as far as the box and enters it square. Rise × multiplier is along the pipe from corner to corner, the kick’s to the quarter’s; from the back of the 90 it is half a diameter more. That last leg lies on no channel: no strap on it.',
    },
  ]
}

type Fittings = BoxShop['raceways'][number]['fittings']
const FITTINGS: Readonly<Record<keyof Fittings, string>> = {
  connectors: 'connector',
  offsetConnectors: 'offset connector',
  couplings: 'coupling',
  elbows: 'pull elbow',
  pullBoxes: 'pull box',
  nipples: 'nipple',
}

const fittingWords = (of: Fittings): string =>
  (Object.keys(FITTINGS) as (keyof Fittings)[])
    .filter((kind) => of[kind] > 0)
    .map((kind) => `${of[kind]} × ${FITTINGS[kind]}`)
    .join(', ')
