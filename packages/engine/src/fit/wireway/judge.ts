import { type BoxDesign, type FitDesign, type PlacedItem, wirewayPieces } from '../../job/index.ts'
import { judgeUpper, put, source, step, type Working } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { type Judged, judged, shown, together } from '../judged.ts'
import { fullestSection } from './fill.ts'

export interface WirewayAsked {
  readonly box: string
  readonly fit: FitDesign
  readonly design: Pick<BoxDesign, 'circuits'>
  readonly rules: Pick<RuleSet, 'wireway' | 'wireAreaMm2'>
}

/** Every wireway of a box: what its fullest section takes, how far apart it hangs, and whether its cover opens. */
export function judgeWireway(asked: WirewayAsked): Judged {
  const pieces = wirewayPieces(asked.fit.items)
  return together(
    pieces.length === 0 ? [] : [fill(asked, pieces), ...pieces.flatMap((p) => [support(asked, p), cover(asked, p)])],
  )
}

function fill({ box, fit, design, rules }: WirewayAsked, pieces: readonly PlacedItem[]): Judged {
  const least = Math.min(...pieces.map((p) => p.sizeMm[2] * Math.min(p.sizeMm[0], p.sizeMm[1])))
  const fullest = fullestSection(fit, design.circuits, rules)
  const areaMm2 = fullest?.areaMm2 ?? 0
  const { value, rests } = rules.wireway.fillFrac
  const limitMm2 = value * least
  const subject = `${box} wireway`
  const working: Working = {
    id: `${subject}/fill`,
    title: 'Fullest section of the wireway',
    steps: [
      step(
        'ΣA',
        'outside areas of all wires of the circuits that lie there',
        [put('circuits', fullest?.section.circuits.length ?? 0)],
        areaMm2,
        'mm²',
        source('areas by the rule set’s table', 'computed'),
      ),
      step('A', 'share·height·depth', [put('share', value), put('h·d', least, 'mm²')], limitMm2, 'mm²', rests),
    ],
    judgement: {
      demand: put('ΣA', areaMm2, 'mm²'),
      relation: '≤',
      limit: put('A', limitMm2, 'mm²'),
      tight: 'none',
      rests,
    },
  }
  return judged(
    {
      code: 'fit/wireway-fill',
      subject,
      verdict: judgeUpper(areaMm2, limitMm2, 0),
      basis: 'code',
      said: `${pieces[0]!.what}: where most lie in it, ${fullest?.section.circuits.length ?? 0} circuits take ${shown((100 * areaMm2) / least)} % of its section; ${shown(100 * value)} % may be taken.`,
      demand: put('ΣA', areaMm2, 'mm²'),
      limit: put('A', limitMm2, 'mm²'),
      provenance: rests.provenance,
      confirm: true,
    },
    working,
  )
}

const axisOf = (p: PlacedItem): 0 | 1 => (p.side === 'blind end' ? 1 : 0)

/** Distance between the uprights that it passes, and what stands beyond the last at either end; a corner is held by the next piece. */
function support({ box, fit, rules }: WirewayAsked, piece: PlacedItem): Judged {
  const axis = axisOf(piece)
  const [from, to] = [piece.atMm[axis], piece.atMm[axis] + piece.sizeMm[axis]]
  const at = fit.strut
    .filter((s) => s.use === 'upright' && s.side === piece.side && s.fromMm[axis] >= from && s.fromMm[axis] <= to)
    .map((s) => s.fromMm[axis])
    .toSorted((a, b) => a - b)
  const stops = [from, ...at, to]
  const gapM = Math.max(...stops.slice(1).map((s, i) => s - stops[i]!)) / 1000
  const { value, rests } = rules.wireway.supportEveryM
  return judged({
    code: 'fit/wireway-support',
    subject: `${box} ${piece.id}`,
    verdict: at.length === 0 ? 'fails' : judgeUpper(gapM, value, 0),
    basis: 'code',
    said: `${piece.id} hangs on ${at.length} uprights, at most ${shown(gapM)} m apart; ${shown(value)} m are allowed.`,
    demand: put('apart', gapM, 'm'),
    limit: put('allowed', value, 'm'),
    provenance: rests.provenance,
  })
}

/** Its cover swings down or comes off before it: as much room as it is high. House rule. */
function cover({ box, fit }: WirewayAsked, piece: PlacedItem): Judged {
  const out = piece.side === 'right' ? -1 : 1
  const across = piece.side === 'blind end' ? 0 : 1
  const roomMm = piece.sizeMm[2]
  const front = out === 1 ? piece.atMm[across] + piece.sizeMm[across] : piece.atMm[across]
  const [near, far] = [Math.min(front, front + out * roomMm), Math.max(front, front + out * roomMm)]
  const inside = (i: PlacedItem, axis: 0 | 1 | 2, low: number, high: number) =>
    i.atMm[axis] < high - EDGE_MM && i.atMm[axis] + i.sizeMm[axis] > low + EDGE_MM
  const along = axisOf(piece)
  const before = fit.items.find(
    (i) =>
      i.kind !== 'wireway' &&
      i.face === 'inside' &&
      inside(i, across, near, far) &&
      inside(i, along, piece.atMm[along], piece.atMm[along] + piece.sizeMm[along]) &&
      inside(i, 2, piece.atMm[2], piece.atMm[2] + piece.sizeMm[2]),
  )
  return judged({
    code: 'fit/wireway-cover',
    subject: `${box} ${piece.id}`,
    verdict: before === undefined ? 'holds' : 'fails',
    basis: 'house',
    said:
      before === undefined
        ? `Nothing hangs within ${shown(roomMm)} mm before ${piece.id}: its cover opens along its whole length.`
        : `${before.id} hangs before ${piece.id}: its cover asks for ${shown(roomMm)} mm to open.`,
    provenance: 'common practice',
  })
}

const EDGE_MM = 1e-3
