import type { Side } from '@plugstead/engine/job'
import type { Drawing, Drawn } from '../model/drawing.ts'
import { placed, rect, stroke, tag, words } from '../model/make.ts'
import { sideView, type View } from '../model/view.ts'
import type { Point } from '../scene.ts'
import { clashWords } from './clash.ts'
import type { DrawnBox } from './drawn-box.ts'
import { boxOf } from './gear.ts'
import { foldedOpen, type Net, ROOF_BESIDE_MM } from './net.ts'
import { frameBehind } from './snow-frame.ts'
import { sideOutline } from './steel.ts'
import { faceItems, titleOf } from './wall.ts'

/**
 * The box fallen open, seen from inside: floor in the middle, the right long side above it, the left below, blind end left, door end
 * right, the roof beyond the door end or, of a long box, above the right long side. Each side is its own inside view, turned about the
 * fold it fell over.
 */
export function sixSides(of: DrawnBox, beside = of.body.outsideMm[0] <= ROOF_BESIDE_MM): Drawing {
  const { body, build } = of
  const [L, W, H] = body.outsideMm
  const net = foldedOpen(body.outsideMm, beside)
  const sides = (Object.keys(net) as Side[]).flatMap((side) =>
    placed(faceItems(of, side, 'inside', lookAt(of, side), true), net[side]),
  )
  return {
    id: 'six-sides',
    title: 'The six sides unfolded',
    said: `${build.box} fallen open, seen from inside: floor in the middle, right long side above, left long side below, blind end left, door end right, roof ${beside ? 'beyond the door end' : 'above the right long side'}. ${build.fit.items.length} things, ${build.skin.openings.length} openings.`,
    toScale: true,
    items: [
      ...sides,
      ...(of.haul?.snowFrame == null ? [] : placed(frameBehind(of.haul.snowFrame, lookAt(of, 'roof')), net.roof)),
      ...placed(keptClear(of), net.floor),
      ...edges(of, net),
      ...names(net, L, W, H, beside),
      ...clashWords(build.fit.clashes, [-H, -H], 9),
    ],
  }
}

/** Each side from inside; the floor from above, the roof from below. */
const lookAt = ({ body }: DrawnBox, side: Side): View => sideView(side, 'inside', body.outsideMm)

/** Edges of the sides: a fold where two of them meet, else a cut. */
function edges({ body }: DrawnBox, net: Net): readonly Drawn[] {
  const met = new Map<string, { readonly a: Point; readonly b: Point; count: number }>()
  for (const side of Object.keys(net) as Side[]) {
    const { low, high } = sideOutline(body, side, sideView(side, 'inside', body.outsideMm))
    const corners: readonly Point[] = [low, [high[0], low[1]], high, [low[0], high[1]]]
    for (const [i, corner] of corners.entries()) {
      const ends = [net[side](corner), net[side](corners[(i + 1) % 4]!)].toSorted((p, q) => p[0] - q[0] || p[1] - q[1])
      const [a, b] = ends as [Point, Point]
      const key = [...a, ...b].map((n) => n.toFixed(2)).join(' ')
      const known = met.get(key)
      if (known === undefined) met.set(key, { a, b, count: 1 })
      else known.count += 1
    }
  }
  return [...met.values()].map(({ a, b, count }) => stroke(count > 1 ? 'fold' : 'frame', [a, b], count > 1 ? 'fold' : 'cut'))
}

/** Room kept free before what is worked on live, on the floor. */
const keptClear = ({ spaces, body }: DrawnBox): readonly Drawn[] =>
  spaces
    .filter((space) => space.atMm[1] >= 0 && space.atMm[1] + space.sizeMm[1] <= body.outsideMm[1])
    .flatMap((space) => {
      const { low, high } = boxOf(space, sideView('floor', 'inside', body.outsideMm))
      return [rect('space', low, high, 'behind', 'slant wide'), tag(low, high, `${space.item}, kept clear`, { inside: 'hatch' })]
    })

function names(net: Net, L: number, W: number, H: number, beside: boolean): readonly Drawn[] {
  const name = (side: Side, at: Point, byMm: Point): Drawn =>
    words(at, titleOf(side).toLowerCase(), { strong: true, halo: true, byMm, anchor: 'start' })
  const corner = (side: Side, point: Point): Point => net[side](point)
  return [
    name('right', corner('right', [0, H]), [0.5, -1.2]),
    name('left', [0, -H], [0.5, 3.4]),
    name('blind end', [-H, W], [0.5, -1.2]),
    name('door end', [L, W], [2, -1.2]),
    name('floor', [0, 0], [1.4, -1]),
    beside ? name('roof', corner('roof', [0, W]), [2, -1.2]) : name('roof', corner('roof', [L, 0]), [0.5, -1.2]),
  ]
}
