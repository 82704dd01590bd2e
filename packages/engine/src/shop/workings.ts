import { put, type Source, source, step, type Working } from '../kernel/index.ts'
import { figure } from './figures.ts'
import type { BoxShop, RacewaySheet } from './result.ts'

const GEOMETRY = source('geometry of bends, docs/shop.md', 'computed')

export const bendsId = (box: string, raceway: string): string => `${box} ${raceway.replaceAll('/', ' ')}/pipe-length`
export const wiresId = (box: string): string => `${box}/wires`

/** How long a raceway's pipe is: its axis, less what fittings take, with what steps add and without what bends gain. `radius`: where R comes from. */
export function bendsWorking(box: string, r: RacewaySheet, radius: Source): Working {
  const bent = r.bends.filter((b) => b.made === 'bent')
  const sum = (of: (b: RacewaySheet['bends'][number]) => number): number => bent.reduce((all, b) => all + of(b), 0)
  const pipe = r.pieces.reduce((all, p) => all + p.axisToMm - p.axisFromMm, 0)
  const [shrink, gain] = [sum((b) => b.shrinkMm), sum((b) => b.gainMm)]
  return {
    id: bendsId(box, r.id),
    title: `Developed length of raceway ${r.id}, ${r.kind} ${r.trade}`,
    steps: [
      step('R', 'to the centre line', [], r.radiusMm, 'mm', radius),
      step('axis', 'Σ legs, corner to corner', [], r.axisMm, 'mm', GEOMETRY),
      step(
        'fittings',
        'axis along elbows and boxes',
        [put('axis', r.axisMm, 'mm'), put('pipe', pipe, 'mm')],
        r.axisMm - pipe,
        'mm',
        {
          ...GEOMETRY,
          provenance: figure('pull elbow to its shoulder').rests.provenance,
        },
      ),
      ...bent.map((b) =>
        step(
          'gain',
          b.kind === 'quarter' ? '2·R·tan(θ/2) − R·θ' : 'Σ (2·R·tan(θ/2) − R·θ) of its bends',
          [put('R', r.radiusMm, 'mm'), put('θ', b.angleDeg, '°'), put('at', Math.round(b.atMm), 'mm')],
          b.gainMm,
          'mm',
          GEOMETRY,
        ),
      ),
      ...bent
        .filter((b) => b.kind !== 'quarter')
        .map((b) =>
          step(
            'step',
            b.kind === 'offset' || b.kind === 'kick' ? 'rise·tan(θ/2)' : '2·rise·tan(θ/2)',
            [
              put('rise', b.riseMm, 'mm'),
              put('θ', b.angleDeg, '°'),
              put('marks apart, × rise', b.multiplier),
              put('at', Math.round(b.atMm), 'mm'),
            ],
            b.shrinkMm,
            'mm',
            GEOMETRY,
          ),
        ),
      step(
        'L',
        'axis − fittings + Σ steps − Σ gains',
        [
          put('axis', r.axisMm, 'mm'),
          put('fittings', r.axisMm - pipe, 'mm'),
          put('steps', shrink, 'mm'),
          put('gains', gain, 'mm'),
        ],
        pipe + shrink - gain,
        'mm',
        GEOMETRY,
      ),
    ],
    crossCheck: [
      step('L', 'Σ straights + Σ R·θ, walked piece by piece', [put('pieces', r.pieces.length)], r.developedMm, 'mm', GEOMETRY),
    ],
  }
}

/** Metres of wire by size and colour. */
export function wiresWorking({ box, wires, wireTotals }: BoxShop): Working {
  const [slack, loop] = [figure('wire slack'), figure('wire loop')]
  const metres = wireTotals.reduce((sum, t) => sum + t.lengthM, 0)
  return {
    id: wiresId(box),
    title: `Wire to cut for ${box}`,
    steps: [
      step('slack', 'share of the route', [], slack.value, '', slack.rests),
      step('loop', 'at each end, and twice in each box it passes', [], loop.value, 'm', loop.rests),
      ...wireTotals.map((t) =>
        step(
          `${t.size} ${t.insulation}, ${t.colour}`,
          'Σ (route·(1 + slack) + 2·loop·raceways)',
          [put('wires', t.count)],
          t.lengthM,
          'm',
          loop.rests,
        ),
      ),
      step('total', 'Σ', [put('wires', wires.length)], metres, 'm', loop.rests),
    ],
  }
}
