import { outsideMm } from '@plugstead/engine/fit'
import { SIDES } from '@plugstead/engine/job'
import { Fault } from '@plugstead/engine/kernel'
import type { DrawnBox } from '../box/drawn-box.ts'
import { channelMm } from '../box/gear.ts'
import { tubeMm } from '../box/openings.ts'
import { addBox, boxMesh, type Corner, growing, type Mesh, type Part } from './mesh.ts'
import { sheetMesh } from './sheet.ts'

/** A box with what is built into it, part by part; each bears the name it has on paper. */
export function boxParts({ body, build, haul }: Pick<DrawnBox, 'body' | 'build' | 'haul'>): readonly Part[] {
  const { openings } = build.skin
  const parts: readonly Part[] = [
    ...body.members.map((m): Part => ({ name: m.id, group: 'box', mesh: boxMesh(m.fromMm, m.toMm) })),
    ...SIDES.flatMap((side): readonly Part[] => {
      const mesh = sheetMesh(body, side, openings)
      return mesh === null ? [] : [{ name: `sheet ${side}`, group: 'box', mesh }]
    }),
    { name: 'floor', group: 'box', mesh: floorMesh(body) },
    ...build.fit.strut.map((piece): Part => ({ name: `strut ${piece.id}`, group: 'strut', mesh: strutMesh(piece) })),
    ...build.fit.items.map(
      (item): Part => ({ name: `item ${item.id}`, group: 'items', mesh: boxMesh(item.atMm, plus(item.atMm, item.sizeMm)) }),
    ),
    ...build.fit.raceways.map((r): Part => ({ name: `raceway ${r.id}`, group: 'raceways', mesh: racewayMesh(r) })),
    ...openings.map((o): Part => ({ name: `opening ${o.id}`, group: 'openings', mesh: openingMesh(o) })),
    ...frameParts(haul?.snowFrame ?? null),
  ]
  const twice = parts.map((p) => p.name).filter((name, i, all) => all.indexOf(name) !== i)
  if (twice.length > 0) throw new Fault('drawings/part-twice', twice)
  return parts.filter((part) => part.mesh.indices.length > 0)
}

const frameParts = (plan: NonNullable<DrawnBox['haul']>['snowFrame']): readonly Part[] =>
  plan === null
    ? []
    : [...plan.seats, ...plan.bearers, plan.deck].map(
        (one): Part => ({ name: `snow frame ${one.id}`, group: 'snow frame', mesh: boxMesh(one.fromMm, one.toMm) }),
      )

const plus = (a: Corner, b: Corner): Corner => [a[0] + b[0], a[1] + b[1], a[2] + b[2]]

function floorMesh(body: DrawnBox['body']): Mesh {
  const { sheet } = body.sides.floor
  const under = Math.max(0, ...body.members.filter((m) => m.kind === 'crossmember').map((m) => m.toMm[2]))
  return boxMesh([sheet.fromMm, sheet.lowMm, under], [sheet.toMm, sheet.highMm, body.floor.topMm])
}

/** Along its axis, as wide and deep as its section, its back on the axis, standing off the side that carries it. */
function strutMesh(piece: DrawnBox['build']['fit']['strut'][number]): Mesh {
  const { wideMm, deepMm } = channelMm(piece.section)
  const spread = [0, 1, 2].map((i) => Math.abs(piece.toMm[i]! - piece.fromMm[i]!))
  const along = spread.indexOf(Math.max(...spread))
  const away: Readonly<Record<typeof piece.side, readonly [number, 1 | -1]>> = {
    left: [1, 1],
    right: [1, -1],
    'blind end': [0, 1],
    'door end': [0, -1],
    roof: [2, -1],
    floor: [2, 1],
  }
  const [axis, inward] = away[piece.side]
  const sign = piece.use === 'outside' ? -inward : inward
  const low: number[] = []
  const high: number[] = []
  for (const i of [0, 1, 2]) {
    const [a, b] = [Math.min(piece.fromMm[i]!, piece.toMm[i]!), Math.max(piece.fromMm[i]!, piece.toMm[i]!)]
    if (i === along) {
      low.push(a)
      high.push(b)
    } else if (i === axis) {
      low.push(Math.min(a, a + sign * deepMm))
      high.push(Math.max(a, a + sign * deepMm))
    } else {
      low.push(a - wideMm / 2)
      high.push(a + wideMm / 2)
    }
  }
  return boxMesh(low as unknown as Corner, high as unknown as Corner)
}

/** Each leg square, as thick as the pipe is outside. */
function racewayMesh(route: DrawnBox['build']['fit']['raceways'][number]): Mesh {
  const mesh = growing()
  const half = outsideMm(route.kind, route.trade) / 2
  for (const [i, from] of route.pointsMm.entries()) {
    const to = route.pointsMm[i + 1]
    if (to === undefined) continue
    const [a, b] = [from.map((v, k) => Math.min(v, to[k]!) - half), from.map((v, k) => Math.max(v, to[k]!) + half)]
    addBox(mesh, a as unknown as Corner, b as unknown as Corner)
  }
  return mesh
}

/** Its frame where it has one, else its rim. */
function openingMesh(o: DrawnBox['build']['skin']['openings'][number]): Mesh {
  const mesh = growing()
  const rim = Math.max(tubeMm(o), RIM_MM)
  const long = o.side === 'left' || o.side === 'right'
  const flat = o.side === 'roof' || o.side === 'floor'
  const axis = long || flat ? 0 : 1
  const up = flat ? 1 : 2
  const deepAxis = flat ? 2 : long ? 1 : 0
  const inward = o.side === 'left' || o.side === 'blind end' || o.side === 'floor' ? 1 : -1
  const bar = (u0: number, u1: number, v0: number, v1: number): void => {
    const [a, b]: [number[], number[]] = [
      [0, 0, 0],
      [0, 0, 0],
    ]
    a[axis] = o.atMm[axis]! + u0
    b[axis] = o.atMm[axis]! + u1
    a[up] = o.atMm[up]! + v0
    b[up] = o.atMm[up]! + v1
    a[deepAxis] = o.atMm[deepAxis]!
    b[deepAxis] = o.atMm[deepAxis]! + inward * rim
    addBox(mesh, a as unknown as Corner, b as unknown as Corner)
  }
  const [w, h] = [o.widthMm / 2, o.heightMm / 2]
  bar(-w - rim, -w, -h - rim, h + rim)
  bar(w, w + rim, -h - rim, h + rim)
  bar(-w, w, h, h + rim)
  bar(-w, w, -h - rim, -h)
  return mesh
}
const RIM_MM = 4
