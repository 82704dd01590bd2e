import { type Item, LETTERING_MM, line, type Point, text } from '../scene.ts'
import { wordsMm } from './lettering.ts'

/** Half the length of a slanted tick. */
const TICK_MM = 0.9
/** From the place measured to the extension line, and beyond the dimension line. */
const CLEAR_MM = 0.8
const BEYOND_MM = 1.1

const tick = ([x, y]: Point): Item =>
  line(
    [
      [x - TICK_MM, y + TICK_MM],
      [x + TICK_MM, y - TICK_MM],
    ],
    'opening',
  )

function extension(way: 'across' | 'up', [x, y]: Point, at: number): Item {
  const [from, to] = way === 'across' ? [y, at] : [x, at]
  const sign = to >= from ? 1 : -1
  const [a, b] = [from + sign * Math.min(CLEAR_MM, Math.abs(to - from)), to + sign * BEYOND_MM]
  return way === 'across'
    ? line(
        [
          [x, a],
          [x, b],
        ],
        'dimension',
      )
    : line(
        [
          [a, y],
          [b, y],
        ],
        'dimension',
      )
}

/** Thin line, slanted ticks, value above it; where the value is wider than the length, it stands beside. All places on paper. */
export function dimensionItems(way: 'across' | 'up', from: Point, to: Point, at: number, said: string): readonly Item[] {
  const [a, b]: readonly [Point, Point] =
    way === 'across'
      ? [
          [Math.min(from[0], to[0]), at],
          [Math.max(from[0], to[0]), at],
        ]
      : [
          [at, Math.max(from[1], to[1])],
          [at, Math.min(from[1], to[1])],
        ]
  const length = Math.hypot(b[0] - a[0], b[1] - a[1])
  const turnDeg = way === 'across' ? 0 : -90
  const fits = wordsMm(said, LETTERING_MM) < length - 0.6
  const middle: Point = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2]
  const place: Point = way === 'across' ? [fits ? middle[0] : b[0] + 1.2, at - 0.7] : [at - 0.7, fits ? middle[1] : b[1] - 1.2]
  return [
    extension(way, from, at),
    extension(way, to, at),
    line([a, b], 'dimension'),
    tick(a),
    tick(b),
    text(place, said, { anchor: fits ? 'middle' : 'start', turnDeg, halo: true }),
  ]
}

const RUNG_MM = 2.9

/** Distances from one datum: each value stands at the end of its own line, across its way; lines kink where values would meet. */
export function ladderItems(
  way: 'across' | 'up',
  rungs: readonly { readonly at: Point; readonly words: string }[],
  at: number,
  outward: 1 | -1,
): readonly Item[] {
  const along = way === 'across' ? 0 : 1
  const sorted = rungs.toSorted((a, b) => a.at[along] - b.at[along])
  const wished = sorted.map((rung) => rung.at[along])
  const stands = spread(wished, RUNG_MM)
  const knee = at - outward * 2.2
  return sorted.flatMap((rung, i) => {
    const [place, stand] = [rung.at[along], stands[i]!]
    const from = rung.at[1 - along]! + outward * CLEAR_MM
    const points: readonly Point[] =
      way === 'across'
        ? [
            [place, from],
            [place, knee],
            [stand, at],
          ]
        : [
            [from, place],
            [knee, place],
            [at, stand],
          ]
    const letters =
      way === 'across'
        ? text([stand + LETTERING_MM * 0.3, at + outward * 0.6], rung.words, {
            turnDeg: -90,
            anchor: outward === 1 ? 'end' : 'start',
          })
        : text([at + outward * 0.6, stand + LETTERING_MM * 0.3], rung.words, { anchor: outward === 1 ? 'start' : 'end' })
    return [line(points, 'dimension'), letters]
  })
}

/** Places at least `gap` apart in the same order, each group of neighbours centred on where its members wished to stand. */
function spread(wished: readonly number[], gap: number): readonly number[] {
  const groups: { wish: number; count: number; members: number[] }[] = []
  for (const [i, place] of wished.entries()) {
    groups.push({ wish: place, count: 1, members: [i] })
    for (;;) {
      const [a, b] = groups.slice(-2)
      if (a === undefined || b === undefined) break
      if (a.wish + ((a.count - 1) / 2) * gap + gap <= b.wish - ((b.count - 1) / 2) * gap + 1e-9) break
      groups.splice(-2, 2, {
        wish: (a.wish * a.count + b.wish * b.count) / (a.count + b.count),
        count: a.count + b.count,
        members: [...a.members, ...b.members],
      })
    }
  }
  return groups.flatMap((g) => g.members.map((_, k) => g.wish + (k - (g.count - 1) / 2) * gap))
}
