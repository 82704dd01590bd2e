import type { PlacedItem, RacewayRoute } from '@plugstead/engine/job'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { wordsMm } from '../model/lettering.ts'
import { millimetres, rect, round, shape, stroke, tag, verdictAt, words } from '../model/make.ts'
import { isometric } from '../model/view.ts'
import { LETTERING_MM, type Point } from '../scene.ts'
import type { DrawnBox, RunBends } from './drawn-box.ts'
import { alongAxis } from './raceways.ts'

/** Runs on one sheet, in so many columns. */
const COLUMNS = 3
const PER_SHEET = 9
/** A cell of the sheet, in the sheet's own millimetres: lengths are not to scale, so that short and long runs are both read. */
const CELL_MM: Point = [60, 60]
const INSIDE_MM: Point = [44, 26]

/** Every raceway by itself in isometric: its legs with their lengths, its bends, where wire is pulled; and the whole box first. */
export function runDrawings(of: DrawnBox): readonly Drawing[] {
  const { raceways } = of.build.fit
  if (raceways.length === 0) return []
  const sheets = Math.ceil(raceways.length / PER_SHEET)
  return [
    wholeDrawing(of),
    ...Array.from({ length: sheets }, (_, i) => {
      const own = raceways.slice(i * PER_SHEET, (i + 1) * PER_SHEET)
      return {
        id: `runs-${i + 1}`,
        title: `Raceway runs, ${i + 1} of ${sheets}`,
        said: `${own.map((r) => `${r.id}, ${r.kind} ${r.trade} from ${r.from} to ${r.to}`).join('; ')}. Isometric, not to scale; lengths in millimetres from corner to corner along the axis, dots are saddles, offsets and kicks, squares pull boxes, the ring is where it begins.`,
        toScale: false,
        items: own.flatMap((route, k) =>
          cell(route, of.bends?.find((one) => one.id === route.id) ?? null, [
            (k % COLUMNS) * CELL_MM[0],
            -Math.floor(k / COLUMNS) * CELL_MM[1],
          ]),
        ),
      }
    }),
  ]
}

function wholeDrawing({ body, build }: DrawnBox): Drawing {
  const [L, W, H] = body.outsideMm
  const edge = (a: readonly [number, number, number], b: readonly [number, number, number]): Drawn =>
    stroke('frame', [isometric(a), isometric(b)], 'rib')
  const ends = [0, L].flatMap((x) => [
    edge([x, 0, 0], [x, W, 0]),
    edge([x, 0, H], [x, W, H]),
    edge([x, 0, 0], [x, 0, H]),
    edge([x, W, 0], [x, W, H]),
  ])
  const longs = [0, W].flatMap((y) => [edge([0, y, 0], [L, y, 0]), edge([0, y, H], [L, y, H])])
  const reached = new Set(build.fit.raceways.flatMap((r) => [r.from, r.to]))
  return {
    id: 'raceways',
    title: 'Raceways in isometric',
    said: `All ${build.fit.raceways.length} raceways of ${build.box} in the box's edges, seen from outside the left long side, door end near, from above. Lengths along each axis are to scale.`,
    toScale: true,
    items: [
      ...ends,
      ...longs,
      ...build.fit.items.filter((item) => reached.has(item.id) || item.kind === 'wireway').flatMap(gearIso),
      ...build.fit.raceways.flatMap((route) => [
        stroke('raceway', route.pointsMm.map(isometric), 'symbol'),
        ...route.pullsMm.map((pull) => round('raceway', isometric(alongAxis(route, pull)), 30, 'symbol', 'blank')),
      ]),
      words(isometric([L, W / 2, 0]), 'door end', { byMm: [3, 2] }),
      words(isometric([0, W / 2, H]), 'blind end', { byMm: [-3, -2], anchor: 'end' }),
    ],
  }
}

/** What a raceway begins or ends at, and every piece of a wireway: its outer edges, and letters where it is large enough to find by them. */
function gearIso(item: PlacedItem): readonly Drawn[] {
  const [[x, y, z], [a, b, c]] = [item.atMm, item.sizeMm]
  const at = (i: number, j: number, k: number): Point => isometric([x + i * a, y + j * b, z + k * c])
  const rim = [at(0, 0, 0), at(1, 0, 0), at(1, 1, 0), at(1, 1, 1), at(0, 1, 1), at(0, 0, 1)]
  const near = at(1, 0, 1)
  const edges = [at(0, 0, 1), at(1, 1, 1), at(1, 0, 0)].map((p) => stroke('item', [near, p], 'hair'))
  const named = Math.max(a, b, c) >= NAMED_MM
  const xs = rim.map((p) => p[0])
  const ys = rim.map((p) => p[1])
  return [
    shape('item', rim, 'rib'),
    ...edges,
    ...(named
      ? [tag([Math.min(...xs), Math.min(...ys)], [Math.max(...xs), Math.max(...ys)], item.id, { inside: 'things' })]
      : []),
  ]
}
const NAMED_MM = 400

/** What is bent of a run: as the shop bends it, else as it is laid. */
interface Told {
  readonly kind: RunBends['bends'][number]['kind']
  readonly atMm: number
}
const toldOf = (route: RacewayRoute, sheet: RunBends | null): readonly Told[] => sheet?.bends ?? route.bends

/** Legs as drawn before they are fitted to the cell: the longest four times the shortest there can be, so that each bears its figure. */
const LEAST_LEG = 1
const LONGEST_LEG = 3

interface Bent {
  readonly points: readonly Point[]
  /** A distance along the true axis as a place on the drawn one. */
  readonly at: (distanceMm: number) => Point
  readonly legsMm: readonly number[]
}

/** The run with its legs in their true directions and its lengths drawn together. */
function drawnTogether(route: RacewayRoute): Bent {
  const legsMm = route.pointsMm.slice(1).map((to, i) => {
    const from = route.pointsMm[i]!
    return Math.hypot(to[0] - from[0], to[1] - from[1], to[2] - from[2])
  })
  const longest = Math.max(...legsMm, 1e-9)
  const points: Point[] = [[0, 0]]
  for (const [i, lengthMm] of legsMm.entries()) {
    const [a, b] = [isometric(route.pointsMm[i]!), isometric(route.pointsMm[i + 1]!)]
    const drawn = lengthMm === 0 ? 0 : (LEAST_LEG + (LONGEST_LEG * lengthMm) / longest) / lengthMm
    const [x, y] = points[i]!
    points.push([x + (b[0] - a[0]) * drawn, y + (b[1] - a[1]) * drawn])
  }
  const at = (distanceMm: number): Point => {
    let before = 0
    for (const [i, lengthMm] of legsMm.entries()) {
      if (distanceMm <= before + lengthMm && lengthMm > 0) {
        const t = (distanceMm - before) / lengthMm
        const [a, b] = [points[i]!, points[i + 1]!]
        return [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1])]
      }
      before += lengthMm
    }
    return points[points.length - 1]!
  }
  return { points, at, legsMm }
}

/** One run, as large as its cell lets it be. */
function cell(route: RacewayRoute, sheet: RunBends | null, [left, top]: Point): readonly Drawn[] {
  const bent = drawnTogether(route)
  const [xs, ys] = [bent.points.map((p) => p[0]), bent.points.map((p) => p[1])]
  const [x0, x1, y0, y1] = [Math.min(...xs), Math.max(...xs), Math.min(...ys), Math.max(...ys)]
  const k = Math.min(INSIDE_MM[0] / Math.max(x1 - x0, 1), INSIDE_MM[1] / Math.max(y1 - y0, 1), MOST_MM)
  const corner: Point = [left + (CELL_MM[0] - k * (x1 - x0)) / 2, top - 11 - (INSIDE_MM[1] + k * (y1 - y0)) / 2]
  const at = ([x, y]: Point): Point => [corner[0] + k * (x - x0), corner[1] + k * (y - y0)]
  const points = bent.points.map(at)
  const legs = bent.legsMm.map((lengthMm, i): Drawn => {
    const [a, b] = [points[i]!, points[i + 1]!]
    const level = Math.abs(b[1] - a[1]) < Math.abs(b[0] - a[0])
    // Above a leg that runs across, on the side away from its fall; beside one that stands; the last one at its end.
    const falls = (b[1] - a[1]) * (b[0] - a[0]) < 0
    const back = b[0] < a[0]
    const said = millimetres(lengthMm)
    if (i > 0 && i === bent.legsMm.length - 1 && level)
      return words(b, said, { halo: true, byMm: [back ? -0.8 : 0.8, 2], anchor: back ? 'end' : 'start' })
    const byMm: Point = level ? [falls ? 0.5 : -0.5, -0.9] : [0.9, 0.9]
    return words([(a[0] + b[0]) / 2, (a[1] + b[1]) / 2], said, { halo: true, byMm, anchor: level && !falls ? 'end' : 'start' })
  })
  return [
    rect('frame', [left, top - CELL_MM[1]], [left + CELL_MM[0], top], 'hair'),
    stroke('raceway', points, 'cut'),
    ...toldOf(route, sheet)
      .filter((b) => b.kind !== 'quarter')
      .map((b) => round('raceway', at(bent.at(b.atMm)), 0.9, 'ampere 1', 'solid')),
    ...route.pullsMm.map((p) => {
      const [x, y] = at(bent.at(p))
      return rect('raceway', [x - 1.1, y - 1.1], [x + 1.1, y + 1.1], 'symbol', 'blank')
    }),
    round('raceway', points[0]!, 0.9, 'symbol', 'blank'),
    ...legs,
    words([left, top], `${route.id}  ${route.kind} ${route.trade}`, { strong: true, byMm: [1.5, 4] }),
    words([left, top], `${route.from} to ${route.to}`, { byMm: [1.5, 7.6] }),
    ...footOf(route, sheet, [left, top - CELL_MM[1]]),
  ]
}
/** Of the least leg: a straight run does not fill its cell. */
const MOST_MM = 12

const FOOT_LINES = 5
const LINE_MM = 3.5

/** Below the run: its bends in a word, then each stick with its length and where the bender's arrow stands on it. */
function footOf(route: RacewayRoute, sheet: RunBends | null, at: Point): readonly Drawn[] {
  const sticks = sheet === null ? [] : sheet.pieces.flatMap((piece, i) => wrappedMarks(i + 1, piece))
  const lack = sheet?.short ?? null
  const short =
    lack === null
      ? []
      : [`${millimetres(lack.needMm - lack.freeMm)} of straight pipe missing between`, `  ${lack.between.join(' and ')}`]
  const all = [bendWords(route, sheet), ...short, ...sticks]
  const shown = all.length > FOOT_LINES ? [...all.slice(0, FOOT_LINES - 1), 'more sticks: on the shop’s list'] : all
  const up = (i: number): number => -1.6 - (shown.length - 1 - i) * LINE_MM
  return [
    ...shown.map((said, i) => words(at, said, { byMm: [1.5, up(i)] })),
    ...(lack === null ? [] : [verdictAt([at[0] + CELL_MM[0], at[1]], 'fails', [-2.2, up(0) - 0.9])]),
  ]
}

/** “stick 1, 823 long: 90° at 286”, as many lines as it takes. */
function wrappedMarks(number: number, { developedMm, marks }: RunBends['pieces'][number]): readonly string[] {
  const said = marks.map(
    (m) =>
      `${m.kind === 'kick' ? 'kick ' : ''}${millimetres(m.angleDeg)}° ${m.arrowMm === null ? 'middle' : 'at'} ${millimetres(m.arrowMm ?? m.middleMm)}`,
  )
  const lines: string[] = [`stick ${number}, ${millimetres(developedMm)} long${said.length > 0 ? ':' : ''}`]
  for (const [i, mark] of said.entries()) {
    const part = ` ${mark}${i < said.length - 1 ? ',' : ''}`
    if (wordsMm(`${lines[lines.length - 1]}${part}`, LETTERING_MM) > CELL_MM[0] - 3) lines.push(` ${part}`)
    else lines[lines.length - 1] += part
  }
  return lines
}

/** “3 × 90°, 1 kick, 2 saddles, 1 pull box”. */
function bendWords(route: RacewayRoute, sheet: RunBends | null): string {
  const told = toldOf(route, sheet)
  const count = (kind: Told['kind']): string => {
    const n = told.filter((b) => b.kind === kind).length
    return n === 0 ? '' : kind === 'quarter' ? `${n} × 90°` : `${n} ${kind}${n === 1 ? '' : 's'}`
  }
  const pulls = route.pullsMm.length === 0 ? '' : `${route.pullsMm.length} pull box${route.pullsMm.length === 1 ? '' : 'es'}`
  const kinds = ['quarter', 'kick', 'offset', 'saddle', 'long saddle'] as const
  const all = [...kinds.map(count), pulls].filter((one) => one !== '')
  return all.length === 0 ? 'straight' : all.join(', ')
}
