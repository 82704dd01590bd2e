/** A point in the axes of a box, mm. */
export type Corner = readonly [xMm: number, yMm: number, zMm: number]

/** Flat faces with their normals, in the axes of glTF, metres: x along, y up, z towards the left long side. */
export interface Mesh {
  readonly positions: readonly number[]
  readonly normals: readonly number[]
  readonly indices: readonly number[]
}

export interface Part {
  /** Kind and id: `item panel`. */
  readonly name: string
  readonly group: 'box' | 'strut' | 'items' | 'raceways' | 'openings' | 'snow frame'
  readonly mesh: Mesh
}

interface Growing {
  readonly positions: number[]
  readonly normals: number[]
  readonly indices: number[]
}

export const growing = (): Growing => ({ positions: [], normals: [], indices: [] })

/** The box's z is up, glTF's y is; both are right-handed. Millimetres become metres. */
const turned = ([x, y, z]: Corner): readonly [number, number, number] => [x / 1000, z / 1000, -y / 1000]

/** A flat quadrangle, corners against the clock as seen from where its normal points. One without area is left out. */
export function addQuad(mesh: Growing, corners: readonly [Corner, Corner, Corner, Corner]): void {
  const [a, b, , d] = corners.map(turned) as [Vector, Vector, Vector, Vector]
  const normal = unit(cross(minus(b, a), minus(d, a)))
  if (normal === null) return
  const first = mesh.positions.length / 3
  for (const corner of corners) mesh.positions.push(...turned(corner))
  for (let i = 0; i < 4; i++) mesh.normals.push(...normal)
  mesh.indices.push(first, first + 1, first + 2, first, first + 2, first + 3)
}

type Vector = readonly [number, number, number]
const minus = (a: Vector, b: Vector): Vector => [a[0] - b[0], a[1] - b[1], a[2] - b[2]]
const cross = (a: Vector, b: Vector): Vector => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]]
function unit(v: Vector): Vector | null {
  const length = Math.hypot(...v)
  return length < LEAST_AREA_M2 ? null : [v[0] / length, v[1] / length, v[2] / length]
}
/** A sliver of a square micrometre is none. */
const LEAST_AREA_M2 = 1e-12

/** An upright box by two opposite corners. */
export function addBox(mesh: Growing, a: Corner, b: Corner): void {
  const [x0, y0, z0] = [Math.min(a[0], b[0]), Math.min(a[1], b[1]), Math.min(a[2], b[2])]
  const [x1, y1, z1] = [Math.max(a[0], b[0]), Math.max(a[1], b[1]), Math.max(a[2], b[2])]
  addQuad(mesh, [
    [x0, y0, z1],
    [x1, y0, z1],
    [x1, y1, z1],
    [x0, y1, z1],
  ])
  addQuad(mesh, [
    [x0, y1, z0],
    [x1, y1, z0],
    [x1, y0, z0],
    [x0, y0, z0],
  ])
  addQuad(mesh, [
    [x0, y0, z0],
    [x1, y0, z0],
    [x1, y0, z1],
    [x0, y0, z1],
  ])
  addQuad(mesh, [
    [x1, y1, z0],
    [x0, y1, z0],
    [x0, y1, z1],
    [x1, y1, z1],
  ])
  addQuad(mesh, [
    [x1, y0, z0],
    [x1, y1, z0],
    [x1, y1, z1],
    [x1, y0, z1],
  ])
  addQuad(mesh, [
    [x0, y1, z0],
    [x0, y0, z0],
    [x0, y0, z1],
    [x0, y1, z1],
  ])
}

export function boxMesh(a: Corner, b: Corner): Mesh {
  const mesh = growing()
  addBox(mesh, a, b)
  return mesh
}
