import type { BoxSurvey, PointMm } from '../job/index.ts'
import type { Member } from './result.ts'
import { bodyFigure, numberIn, rowOf } from './shelf.ts'
import type { Sizes } from './sizes.ts'

/** Heights and depths that the members share, all from the printed tables. */
export interface Frame {
  /** Corner fitting along, across, up: a post is taken as thick as its fitting, which is on the safe side for what may be cut. */
  readonly fittingMm: PointMm
  readonly railTopMm: number
  readonly topRailLowMm: number
  readonly topRailHighMm: number
  readonly bottomRailMm: { readonly lowMm: number; readonly highMm: number; readonly wideMm: number }
  readonly crossmemberMm: { readonly lowMm: number; readonly highMm: number; readonly wideMm: number }
  readonly floorTopMm: number
  readonly plywoodMm: number
  readonly blindInnerMm: number
  readonly pocketsMm: { readonly lowMm: number }
}

const fitting = (item: string): number => numberIn(rowOf('corner-fittings', item).value)

/** `158-162 x 48 x 30 x 4.5` → [160, 48, 30, 4.5]. */
const sizesIn = (text: string): readonly number[] =>
  (text.match(/\d+(\.\d+)?(-\d+(\.\d+)?)?(?= x|$)|(?<=x )\d+(\.\d+)?/g) ?? []).map((part) => {
    const ends = part.split('-').map(Number)
    return ends.reduce((a, b) => a + b, 0) / ends.length
  })

const section = (member: string): string => String(rowOf('frame-members', member).section)

/** The heights at which things stand in a box of these sizes. */
export function frameOf(sizes: Sizes): Frame {
  const [, , H] = sizes.outsideMm
  const [blockL, blockW, blockH] = sizesIn(String(rowOf('corner-fittings', 'block length x width x height').value))
  const [rail = 60] = sizesIn(section('top side rail'))
  const [bottom = 160, bottomWide = 48] = sizesIn(section('bottom side rail'))
  const [cross = 122, crossWide = 45] = sizesIn(section('crossmember, small'))
  const roofDepth =
    numberIn(rowOf('corrugation', 'roof, die-stamped').depth) + numberIn(rowOf('corrugation', 'roof, die-stamped').thickness)
  const roofUnder = H - fitting('top fitting above roof, minimum') - roofDepth
  const baseAbove = fitting('base members above bottom-fitting face')
  const plywoodMm = numberIn(/plywood (\d+)/.exec(section('floor'))?.[1] ?? null)
  // The floor of the printed members, or lower where the inside height leaves no room for it.
  const floorTopMm = Math.max(plywoodMm, Math.min(baseAbove + cross + plywoodMm, roofUnder - sizes.insideMm[2]))
  const endDepth =
    numberIn(rowOf('corrugation', 'front (end) wall').depth) + numberIn(rowOf('corrugation', 'front (end) wall').thickness)
  const base = Math.min(baseAbove, floorTopMm - plywoodMm)
  return {
    fittingMm: [blockL as number, blockW as number, blockH as number],
    railTopMm: roofUnder,
    topRailLowMm: roofUnder - rail,
    topRailHighMm: roofUnder,
    bottomRailMm: { lowMm: base, highMm: base + bottom, wideMm: bottomWide },
    crossmemberMm: { lowMm: base, highMm: floorTopMm - plywoodMm, wideMm: crossWide },
    floorTopMm,
    plywoodMm,
    blindInnerMm: bodyFigure('blind end recess') + endDepth,
    pocketsMm: { lowMm: base },
  }
}

/** Where the posts stand along the box: at its ends, and at the 40 ft places of a longer standard one. */
export function postsAlong(
  sizes: Sizes,
  frame: Frame,
): readonly { readonly fromMm: number; readonly toMm: number; readonly fitting: boolean }[] {
  const L = sizes.outsideMm[0]
  const post = frame.fittingMm[0]
  const feet = sizes.standard?.feet ?? 0
  const ends = { fitting: feet !== 53 }
  const inner = feet > 40 ? (L - numberIn(rowOf('box-sizes', '40 ft 1AA').ext_l)) / 2 : null
  return [
    { fromMm: 0, toMm: post, ...ends },
    ...(inner === null
      ? []
      : [
          { fromMm: inner, toMm: inner + post, fitting: true },
          { fromMm: L - inner - post, toMm: L - inner, fitting: true },
        ]),
    { fromMm: L - post, toMm: L, ...ends },
  ]
}

export interface Pockets {
  readonly spacingMm: number
  readonly widthMm: number
  readonly heightMm: number
}

/** Every member as an upright box, in the axes of the container. */
export function membersOf(
  sizes: Sizes,
  frame: Frame,
  under: { readonly crossmemberPitchMm: number; readonly pockets: Pockets | null; readonly survey: BoxSurvey | null },
): readonly Member[] {
  return [
    ...postsAndFittings(sizes, frame),
    ...railsAndEnds(sizes, frame),
    ...pocketMembers(sizes, frame, under.pockets),
    ...crossmembers(sizes, frame, under.crossmemberPitchMm, under.pockets),
    ...bows(sizes, frame, under.survey),
  ]
}

const member = (kind: Member['kind'], name: string, section: string, fromMm: PointMm, toMm: PointMm): Member => ({
  id: `${kind} ${name}`,
  kind,
  section,
  fromMm,
  toMm,
  mayBeCut: false,
})

function postsAndFittings(sizes: Sizes, frame: Frame): readonly Member[] {
  const [L, W, H] = sizes.outsideMm
  const [, wide, block] = frame.fittingMm
  return postsAlong(sizes, frame).flatMap((post, i, all) => {
    const place = i === 0 ? 'blind end' : i === all.length - 1 ? 'door end' : `${i === 1 ? 'blind' : 'door'} side of the middle`
    const steel = post.fromMm < L / 2 ? section('front corner post') : section('rear corner post')
    return (['left', 'right'] as const).flatMap((hand) => {
      const y: readonly [number, number] = hand === 'left' ? [0, wide] : [W - wide, W]
      const box = (kind: Member['kind'], end: string, low: number, high: number): Member =>
        member(
          kind,
          `${place} ${hand}${end}`,
          kind === 'corner fitting' ? 'cast' : steel,
          [post.fromMm, y[0], low],
          [post.toMm, y[1], high],
        )
      return post.fitting
        ? [
            box('corner fitting', ' bottom', 0, block),
            box('corner post', '', block, H - block),
            box('corner fitting', ' top', H - block, H),
          ]
        : [box('corner post', '', 0, H)]
    })
  })
}

function railsAndEnds(sizes: Sizes, frame: Frame): readonly Member[] {
  const [L, W] = sizes.outsideMm
  const [post, wide] = frame.fittingMm
  const rail = frame.topRailHighMm - frame.topRailLowMm
  const bottom = frame.bottomRailMm
  const top = section('top side rail')
  const blind = bodyFigure('header depth blind end')
  const doorInner = frame.blindInnerMm + sizes.insideMm[0]
  const doorTop = Math.min(frame.floorTopMm + sizes.doorMm.heightMm, frame.topRailHighMm)
  const side = (hand: 'left' | 'right', w: number): readonly [number, number] => (hand === 'left' ? [0, w] : [W - w, W])
  return [
    ...(['left', 'right'] as const).flatMap((hand) => {
      const [a, b] = side(hand, rail)
      const [c, d] = side(hand, bottom.wideMm)
      return [
        member('top rail', hand, top, [post, a, frame.topRailLowMm], [L - post, b, frame.topRailHighMm]),
        member('bottom rail', hand, section('bottom side rail'), [post, c, bottom.lowMm], [L - post, d, bottom.highMm]),
      ]
    }),
    member('header', 'blind end', top, [0, wide, frame.topRailLowMm], [blind, W - wide, frame.topRailHighMm]),
    member('sill', 'blind end', section('bottom side rail'), [0, wide, bottom.lowMm], [blind, W - wide, bottom.highMm]),
    member('header', 'door end', 'pressed', [Math.min(doorInner, L), wide, doorTop], [L, W - wide, frame.topRailHighMm]),
    member('sill', 'door end', 'pressed', [Math.min(doorInner, L), wide, bottom.lowMm], [L, W - wide, frame.floorTopMm]),
  ]
}

function pocketMembers(sizes: Sizes, frame: Frame, pockets: Pockets | null): readonly Member[] {
  if (pockets === null) return []
  const [L, W] = sizes.outsideMm
  return ([-1, 1] as const).map((hand) => {
    const middle = L / 2 + (hand * pockets.spacingMm) / 2
    return member(
      'fork pocket',
      hand < 0 ? 'blind' : 'door',
      `${pockets.widthMm} x ${pockets.heightMm} clear`,
      [middle - pockets.widthMm / 2, 0, frame.pocketsMm.lowMm],
      [middle + pockets.widthMm / 2, W, frame.pocketsMm.lowMm + pockets.heightMm],
    )
  })
}

/** Crossmembers at their pitch, the row centred between the sills; none inside a fork pocket. */
function crossmembers(sizes: Sizes, frame: Frame, pitchMm: number, pockets: Pockets | null): readonly Member[] {
  const [L, W] = sizes.outsideMm
  const { lowMm, highMm, wideMm } = frame.crossmemberMm
  const blind = bodyFigure('header depth blind end')
  const doorInner = Math.min(frame.blindInnerMm + sizes.insideMm[0], L)
  const room = doorInner - blind - 2 * wideMm
  if (!(pitchMm > 0) || room <= 0) return []
  const count = Math.floor(room / pitchMm) + 1
  const first = blind + wideMm + (room - (count - 1) * pitchMm) / 2
  const steel = section('crossmember, small')
  const inPocket = (from: number, to: number) =>
    pockets !== null &&
    [-1, 1].some((hand) => {
      const middle = L / 2 + (hand * pockets.spacingMm) / 2
      return to > middle - pockets.widthMm / 2 && from < middle + pockets.widthMm / 2
    })
  return Array.from({ length: count }, (_, i) => first + i * pitchMm - wideMm / 2)
    .filter((from) => !inPocket(from, from + wideMm))
    .map((from, i) =>
      member(
        'crossmember',
        String(i + 1),
        steel,
        [from, frame.bottomRailMm.wideMm, lowMm],
        [from + wideMm, W - frame.bottomRailMm.wideMm, highMm],
      ),
    )
}

/** Only where they were seen: a die-stamped roof carries itself. */
function bows(sizes: Sizes, frame: Frame, survey: BoxSurvey | null): readonly Member[] {
  const bow = survey?.bows
  if (bow == null || !(bow.pitchMm > 0)) return []
  const from = frame.fittingMm[0]
  const room = sizes.outsideMm[0] - 2 * from
  const count = Math.max(0, Math.floor(room / bow.pitchMm))
  const first = from + (room - (count - 1) * bow.pitchMm) / 2
  const wide = 50
  return Array.from({ length: count }, (_, i) =>
    member(
      'bow',
      String(i + 1),
      `${bow.depthMm} deep, as surveyed`,
      [first + i * bow.pitchMm - wide / 2, 0, frame.railTopMm - bow.depthMm],
      [first + i * bow.pitchMm + wide / 2, sizes.outsideMm[1], frame.railTopMm],
    ),
  )
}
