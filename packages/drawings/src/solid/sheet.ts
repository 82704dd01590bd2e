import type { BoxBody } from '@plugstead/engine/box'
import type { Opening, Side } from '@plugstead/engine/job'
import { addQuad, type Corner, growing, type Mesh } from './mesh.ts'

/** A round hole is cut as so many strips. */
const STRIPS = 16

interface Hole {
  /** Clear between these heights at a place along the side; null beside the hole. */
  readonly at: (alongMm: number) => readonly [number, number] | null
  readonly breaksMm: readonly number[]
}

/** The sheet of a side, corrugated as it is, with its openings cut out; both faces. Null for a side without a sheet. */
export function sheetMesh(body: BoxBody, side: Side, openings: readonly Opening[]): Mesh | null {
  const { corrugation: c, flats, sheet } = body.sides[side]
  if (c === null || flats.length === 0) return null
  const axis = c.along === 'x' ? 0 : 1
  const up = side === 'roof' ? 1 : 2
  const holes = openings.filter((o) => o.side === side).map((o) => holeOf(o, axis, up))
  const profile = profileOf(flats, sheet.fromMm, sheet.toMm, c.depthMm)
  const places = [...new Set([...profile.map(([along]) => along), ...holes.flatMap((h) => h.breaksMm)])]
    .filter((along) => along >= sheet.fromMm && along <= sheet.toMm)
    .toSorted((a, b) => a - b)
  const mesh = growing()
  for (const [i, from] of places.entries()) {
    const to = places[i + 1]
    if (to === undefined || to - from < 1e-6) continue
    const [deepFrom, deepTo] = [deepAt(profile, from), deepAt(profile, to)]
    for (const [low, high] of left([sheet.lowMm, sheet.highMm], holes, (from + to) / 2)) {
      const corners = [
        pointAt(body, side, from, low, deepFrom),
        pointAt(body, side, to, low, deepTo),
        pointAt(body, side, to, high, deepTo),
        pointAt(body, side, from, high, deepFrom),
      ] as [Corner, Corner, Corner, Corner]
      addQuad(mesh, corners)
      addQuad(mesh, corners.toReversed() as [Corner, Corner, Corner, Corner])
    }
  }
  return mesh
}

function holeOf(o: Opening, axis: 0 | 1, up: 1 | 2): Hole {
  const [along, mid] = [o.atMm[axis], o.atMm[up]]
  const [w, h] = [o.widthMm / 2, o.heightMm / 2]
  if (o.shape === 'rectangle')
    return {
      breaksMm: [along - w, along + w],
      at: (place) => (Math.abs(place - along) < w ? [mid - h, mid + h] : null),
    }
  return {
    breaksMm: Array.from({ length: STRIPS + 1 }, (_, i) => along - w * Math.cos((Math.PI * i) / STRIPS)),
    at: (place) => {
      const off = Math.abs(place - along)
      const chord = off < w ? Math.sqrt(w * w - off * off) : 0
      return chord > 0 ? [mid - chord, mid + chord] : null
    },
  }
}

/** Depth into the box along a side: 0 on outer flats, the rib's depth on inner ones. */
function profileOf(
  flats: BoxBody['sides'][Side]['flats'],
  from: number,
  to: number,
  deep: number,
): readonly (readonly [number, number])[] {
  return [
    [from, 0],
    ...flats.flatMap((f): readonly (readonly [number, number])[] => {
      const d = f.kind === 'inner' ? deep : 0
      return [
        [f.fromMm, d],
        [f.toMm, d],
      ]
    }),
    [to, 0],
  ]
}

function deepAt(profile: readonly (readonly [number, number])[], along: number): number {
  for (const [i, [x1, d1]] of profile.entries()) {
    const [x0, d0] = profile[Math.max(0, i - 1)]!
    if (along <= x1) return x1 - x0 < 1e-9 ? d1 : d0 + ((d1 - d0) * (along - x0)) / (x1 - x0)
  }
  return profile[profile.length - 1]![1]
}

/** What of a strip is left between the holes that lie in it. */
function left(
  [low, high]: readonly [number, number],
  holes: readonly Hole[],
  along: number,
): readonly (readonly [number, number])[] {
  const cuts = holes.map((h) => h.at(along)).filter((cut) => cut !== null)
  let parts: readonly (readonly [number, number])[] = [[low, high]]
  for (const [a, b] of cuts)
    parts = parts.flatMap(([p, q]) =>
      b <= p || a >= q
        ? [[p, q] as const]
        : (
            [
              [p, a],
              [b, q],
            ] as const
          ).filter(([from, to]) => to - from > 1e-6),
    )
  return parts
}

function pointAt({ outsideMm: [L, W, H] }: BoxBody, side: Side, along: number, up: number, deep: number): Corner {
  switch (side) {
    case 'left':
      return [along, deep, up]
    case 'right':
      return [along, W - deep, up]
    case 'blind end':
      return [deep, along, up]
    case 'door end':
      return [L - deep, along, up]
    case 'roof':
      return [along, up, H - deep]
    case 'floor':
      return [along, up, deep]
  }
}
