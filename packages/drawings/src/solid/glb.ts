import type { Mesh, Part } from './mesh.ts'

/** Greys and one red oxide, as on the sheets: steel, channel, gear, pipes, cuts. Linear, 0 to 1. */
const LOOK: Readonly<Record<Part['group'], readonly [number, number, number]>> = {
  box: [0.55, 0.59, 0.61],
  strut: [0.3, 0.34, 0.37],
  items: [0.85, 0.87, 0.87],
  raceways: [0.25, 0.03, 0.006],
  openings: [0.01, 0.015, 0.02],
  'snow frame': [0.42, 0.46, 0.48],
}
const GROUPS = Object.keys(LOOK) as readonly Part['group'][]

/** Parts as binary glTF 2.0, metres, y up: a node for each part under a node for its group. Same parts, same bytes. */
export const glb = { mimeType: 'model/gltf-binary', render }

const FLOAT = 5126
const UINT = 5125
const VERTICES = 34962
const ELEMENTS = 34963

function render(parts: readonly Part[], title: string): Uint8Array {
  const groupsHere = GROUPS.filter((group) => parts.some((part) => part.group === group))
  const chunks: Uint8Array[] = []
  const views: object[] = []
  const accessors: object[] = []
  let at = 0
  const put = (bytes: Uint8Array, target: number): number => {
    chunks.push(bytes)
    views.push({ buffer: 0, byteOffset: at, byteLength: bytes.length, target })
    at += bytes.length
    return views.length - 1
  }
  const floats = (values: readonly number[]): Uint8Array => new Uint8Array(Float32Array.from(values).buffer)
  const primitive = (mesh: Mesh, material: number): object => {
    const [low, high] = span(mesh.positions)
    const count = mesh.positions.length / 3
    accessors.push(
      { bufferView: put(floats(mesh.positions), VERTICES), componentType: FLOAT, count, type: 'VEC3', min: low, max: high },
      { bufferView: put(floats(mesh.normals), VERTICES), componentType: FLOAT, count, type: 'VEC3' },
      {
        bufferView: put(new Uint8Array(Uint32Array.from(mesh.indices).buffer), ELEMENTS),
        componentType: UINT,
        count: mesh.indices.length,
        type: 'SCALAR',
      },
    )
    const first = accessors.length - 3
    return { attributes: { POSITION: first, NORMAL: first + 1 }, indices: first + 2, material }
  }
  const meshes = parts.map(({ name, group, mesh }) => ({ name, primitives: [primitive(mesh, groupsHere.indexOf(group))] }))
  const groups = groupsHere.map((group, i) => ({
    group,
    i,
    children: parts.flatMap((p, k) => (p.group === group ? [k + groupsHere.length + 1] : [])),
  }))
  const kept = groups.filter((g) => g.children.length > 0)
  const document = {
    asset: { version: '2.0', generator: 'plugstead' },
    scene: 0,
    scenes: [{ name: title, nodes: [0] }],
    nodes: [
      { name: title, children: kept.map((g) => g.i + 1) },
      ...groups.map(({ group, children }) => (children.length > 0 ? { name: group, children } : { name: group })),
      ...parts.map(({ name }, i) => ({ name, mesh: i })),
    ],
    meshes,
    materials: groupsHere.map((group) => ({
      name: group,
      pbrMetallicRoughness: { baseColorFactor: [...LOOK[group], 1], metallicFactor: 0, roughnessFactor: 0.8 },
    })),
    accessors,
    bufferViews: views,
    buffers: [{ byteLength: at }],
  }
  return packed(new TextEncoder().encode(JSON.stringify(document)), chunks, at)
}

function span(positions: readonly number[]): readonly [readonly number[], readonly number[]] {
  const low = [Infinity, Infinity, Infinity]
  const high = [-Infinity, -Infinity, -Infinity]
  for (const [i, exact] of positions.entries()) {
    // As the file keeps it: the bounds are judged against single precision.
    const value = Math.fround(exact)
    low[i % 3] = Math.min(low[i % 3]!, value)
    high[i % 3] = Math.max(high[i % 3]!, value)
  }
  return [low, high]
}

/** Header and two chunks, each filled up to four bytes: text with spaces, the buffer with zeros. */
function packed(text: Uint8Array, chunks: readonly Uint8Array[], bufferLength: number): Uint8Array {
  const pad = (length: number): number => (4 - (length % 4)) % 4
  const [textLength, binLength] = [text.length + pad(text.length), bufferLength + pad(bufferLength)]
  const out = new Uint8Array(12 + 8 + textLength + 8 + binLength)
  const view = new DataView(out.buffer)
  const words = (at: number, ...values: number[]): void => {
    for (const [i, value] of values.entries()) view.setUint32(at + 4 * i, value, true)
  }
  words(0, 0x46546c67, 2, out.length)
  words(12, textLength, 0x4e4f534a)
  out.set(text, 20)
  out.fill(0x20, 20 + text.length, 20 + textLength)
  words(20 + textLength, binLength, 0x004e4942)
  let at = 28 + textLength
  for (const chunk of chunks) {
    out.set(chunk, at)
    at += chunk.length
  }
  return out
}
