import validator from 'gltf-validator'
import { expect, test } from 'vitest'
import { yardBox } from '../../test/yard-box.ts'
import { glb } from './glb.ts'
import type { Mesh } from './mesh.ts'
import { boxParts } from './parts.ts'
import { sheetMesh } from './sheet.ts'

const parts = boxParts(yardBox)
const bytes = glb.render(parts, 'yard')

function jsonOf(file: Uint8Array): any {
  const view = new DataView(file.buffer)
  return JSON.parse(new TextDecoder().decode(file.subarray(20, 20 + view.getUint32(12, true))))
}

test('the validator of the format finds no error and no warning', async () => {
  const { issues, info } = await validator.validateBytes(bytes)
  expect([issues.numErrors, issues.numWarnings, issues.messages]).toEqual([0, 0, []])
  expect(info.version).toBe('2.0')
})

test('every thing of the build is a named part under its group', () => {
  const { nodes } = jsonOf(bytes)
  const group = (name: string): readonly string[] =>
    nodes.find((n: { name: string }) => n.name === name).children.map((i: number) => nodes[i].name)
  expect(group('items')).toEqual(yardBox.build.fit.items.map((i) => `item ${i.id}`))
  expect(group('strut').length).toBe(yardBox.build.fit.strut.length)
  expect(group('raceways')).toEqual(['raceway C-G1'])
  expect(group('openings')).toEqual(yardBox.build.skin.openings.map((o) => `opening ${o.id}`))
  expect(group('box')).toEqual(expect.arrayContaining(['sheet left', 'sheet roof', 'floor']))
})

test('metres, y up: the whole is as long, high and wide as the box', () => {
  const { accessors, meshes } = jsonOf(bytes)
  const members = meshes.filter((m: { name: string }) => /corner fitting/.test(m.name))
  const spans = members.map((m: any) => accessors[m.primitives[0].attributes.POSITION])
  const low = [0, 1, 2].map((k) => Math.min(...spans.map((a: any) => a.min[k])))
  const high = [0, 1, 2].map((k) => Math.max(...spans.map((a: any) => a.max[k])))
  const [L, W, H] = yardBox.body.outsideMm
  expect(high[0]! - low[0]!).toBeCloseTo(L / 1000, 5)
  expect(high[1]! - low[1]!).toBeCloseTo(H / 1000, 5)
  expect(high[2]! - low[2]!).toBeCloseTo(W / 1000, 5)
  expect(high[2]).toBeCloseTo(0, 5)
})

/** Of one face, projected on the side: half of all triangles' area in the plane of length and height. */
function projectedM2({ positions, indices }: Mesh, u: number, v: number): number {
  let sum = 0
  for (let i = 0; i < indices.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => [positions[3 * indices[i + k]! + u]!, positions[3 * indices[i + k]! + v]!])
    sum += Math.abs((b![0]! - a![0]!) * (c![1]! - a![1]!) - (c![0]! - a![0]!) * (b![1]! - a![1]!)) / 2
  }
  return sum / 2
}

test('the sheet is what the wall leaves of it: its area less its openings', () => {
  const mesh = sheetMesh(yardBox.body, 'right', yardBox.build.skin.openings)!
  const { sheet } = yardBox.body.sides.right
  const whole = ((sheet.toMm - sheet.fromMm) * (sheet.highMm - sheet.lowMm)) / 1e6
  const cut = yardBox.build.skin.openings
    .filter((o) => o.side === 'right')
    .reduce((sum, o) => sum + (o.widthMm * o.heightMm) / 1e6, 0)
  expect(projectedM2(mesh, 0, 1)).toBeCloseTo(whole - cut, 9)
})

test('a round hole in strips takes its circle to a hundredth', () => {
  const round = yardBox.build.skin.openings.filter((o) => o.id === 'supply')
  const without = projectedM2(sheetMesh(yardBox.body, 'left', [])!, 0, 1)
  const taken = without - projectedM2(sheetMesh(yardBox.body, 'left', round)!, 0, 1)
  expect(taken / ((Math.PI * 0.062 ** 2) / 4)).toBeCloseTo(1, 1)
})

test('a sheet is longer than its wall by what its ribs add: the developed ratio of the body', () => {
  const mesh = sheetMesh(yardBox.body, 'left', [])!
  let area = 0
  const at = (i: number): readonly number[] => mesh.positions.slice(3 * i, 3 * i + 3)
  for (let i = 0; i < mesh.indices.length; i += 3) {
    const [a, b, c] = [0, 1, 2].map((k) => at(mesh.indices[i + k]!)) as [readonly number[], readonly number[], readonly number[]]
    const [p, q] = [b.map((n, k) => n - a[k]!), c.map((n, k) => n - a[k]!)]
    area += Math.hypot(p[1]! * q[2]! - p[2]! * q[1]!, p[2]! * q[0]! - p[0]! * q[2]!, p[0]! * q[1]! - p[1]! * q[0]!) / 2
  }
  // Whole pitches only to within the sheet’s ends: a hundredth.
  expect(area / 2 / projectedM2(mesh, 0, 1)).toBeCloseTo(yardBox.body.sides.left.corrugation!.developedRatio, 2)
})

test('the same box gives the same bytes', () => {
  expect(Buffer.compare(glb.render(boxParts(yardBox), 'yard'), bytes)).toBe(0)
})
