import { spawnSync } from 'node:child_process'
import { existsSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type { Opening } from '@plugstead/engine/job'
import dxfParser from 'dxf-parser'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import { yardBox } from '../test/yard-box.ts'
import { patternDrawings } from './box/index.ts'
import { dxf } from './dxf.ts'
import { flatLines } from './model/flat.ts'

interface Read {
  readonly header: Readonly<Record<string, unknown>>
  readonly tables: { readonly layer: { readonly layers: Readonly<Record<string, unknown>> } }
  readonly entities: readonly any[]
}
/** Its declarations speak of another module than the one it exports. */
const Reader = dxfParser as unknown as new () => { readonly parseSync: (text: string) => Read | null }
const readBack = (file: string): Read => new Reader().parseSync(file)!

const patterns = patternDrawings(yardBox)
const text = (id: string): string => dxf.render(patterns.find((p) => p.id === id)!)
const openingsOn = (side: string): readonly Opening[] => yardBox.build.skin.openings.filter((o) => o.side === side)

/** By geometry: a circle, or a rectangle less what its rounded corners lack. */
function openingAreaMm2({ shape, widthMm: w, heightMm: h, cornerRadiusMm }: Opening): number {
  const r = Math.min(cornerRadiusMm, w / 2, h / 2)
  return shape === 'round' ? (Math.PI * w ** 2) / 4 : w * h - (4 - Math.PI) * r ** 2
}

interface Vertex {
  readonly x: number
  readonly y: number
  readonly bulge?: number
}

/** Shoelace of the corners, and a segment of a circle for each bulge: r²·(θ − sin θ)/2. */
function closedAreaMm2(vertices: readonly Vertex[]): number {
  return Math.abs(
    vertices.reduce((sum, a, i) => {
      const b = vertices[(i + 1) % vertices.length]!
      const sweep = 4 * Math.atan(a.bulge ?? 0)
      const chord = Math.hypot(b.x - a.x, b.y - a.y)
      const radius = sweep === 0 ? 0 : chord / (2 * Math.sin(sweep / 2))
      return sum + (a.x * b.y - b.x * a.y) / 2 + (radius ** 2 * (sweep - Math.sin(sweep))) / 2
    }, 0),
  )
}

describe('cut files, read back by another reader', () => {
  for (const side of ['left', 'right'])
    test(`${side}: each opening is one closed line of the design’s own area`, () => {
      const read = readBack(text(`pattern-wall-${side}`))
      const cuts = read.entities.filter((e) => e.layer === 'cut' || e.layer === 'drill')
      const areas = cuts.map((e) => {
        if (e.type === 'CIRCLE') return Math.PI * e.radius ** 2
        expect([e.type, e.shape]).toEqual(['LWPOLYLINE', true])
        return closedAreaMm2(e.vertices)
      })
      const wanted = openingsOn(side).map(openingAreaMm2)
      expect(areas.length).toBe(wanted.length)
      for (const [i, area] of areas.toSorted((a, b) => a - b).entries())
        expect(Math.abs(area / wanted.toSorted((a, b) => a - b)[i]! - 1)).toBeLessThan(1e-6)
    })

  test('release 2000, millimetres, a layer for each operation', () => {
    const read = readBack(text('pattern-wall-left'))
    expect([read.header.$ACADVER, read.header.$INSUNITS]).toEqual(['AC1015', 4])
    expect(Object.keys(read.tables.layer.layers).toSorted()).toEqual(['0', 'cut', 'drill', 'mark', 'text'])
    const hood = readBack(text('pattern-hood-door-1'))
    expect(hood.entities.filter((e) => e.layer === 'fold').length).toBe(2)
  })

  test('a hood folds where its sheet does: 40 on the wall, 150 out, a lip of 20', () => {
    const read = readBack(text('pattern-hood-vent-low'))
    const ys = read.entities.filter((e) => e.layer === 'fold').map((e) => e.vertices[0].y)
    const outline = read.entities.find((e) => e.layer === 'cut')
    const high = Math.max(...outline.vertices.map((v: Vertex) => v.y))
    expect(ys.toSorted((a, b) => a - b)).toEqual([20, 170])
    expect(high).toBe(210)
  })

  test('no line lies on another', () => {
    const [wall] = patterns
    expect(flatLines({ ...wall!, items: [...wall!.items, ...wall!.items] }).length).toBe(flatLines(wall!).length)
    for (const p of patterns) {
      const entities = readBack(dxf.render(p)).entities.filter((e) => e.type !== 'TEXT')
      const keys = entities.map((e) => JSON.stringify(e.vertices ?? [e.center, e.radius]))
      expect(new Set(keys).size, p.id).toBe(keys.length)
    }
  })

  test('the same drawing gives the same bytes, in plain ASCII', () => {
    for (const p of patterns) {
      expect(dxf.render(p)).toBe(dxf.render(p))
      expect([...dxf.render(p)].every((c) => c.codePointAt(0)! < 128)).toBe(true)
    }
  })

  test('seen from outside: on the right side what is near the blind end lies to the right', () => {
    const read = readBack(text('pattern-wall-right'))
    const boxes = read.entities.filter((e) => e.layer === 'cut').map((e) => Math.min(...e.vertices.map((v: Vertex) => v.x)))
    const [L] = yardBox.body.outsideMm
    // Door: middle 5130 from the blind end, half of 900 on either side; vent: 628 and 150.
    expect(boxes.toSorted((a, b) => a - b)).toEqual([L - 5130 - 450, L - 628 - 150])
  })
})

/** Debian's python3-ezdxf lies with the system's own Python. */
const python = ['/usr/bin/python3', 'python3'].find(
  (program) => (program === 'python3' || existsSync(program)) && spawnSync(program, ['-c', 'import ezdxf']).status === 0,
)
let folder = ''
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'plugstead-dxf-'))
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const AUDIT = `
import ezdxf, json, sys
out = []
for path in sys.argv[1:]:
    doc = ezdxf.readfile(path)
    audit = doc.audit()
    out.append({'version': doc.dxfversion, 'units': doc.header['$INSUNITS'],
      'errors': [e.message for e in audit.errors], 'fixes': [e.message for e in audit.fixes],
      'closed': [bool(e.closed) for e in doc.modelspace().query('LWPOLYLINE[layer=="cut"]')],
      'holes': [e.dxf.radius for e in doc.modelspace().query('CIRCLE')]})
print(json.dumps(out))
`
test.skipIf(python === undefined)('ezdxf (Debian python3-ezdxf) reads every file, and its audit finds nothing to mend', () => {
  const paths = patterns.map((p) => {
    const path = join(folder, `${p.id}.dxf`)
    writeFileSync(path, dxf.render(p))
    return path
  })
  const run = spawnSync(python!, ['-c', AUDIT, ...paths], { encoding: 'utf8' })
  expect(run.stderr).toBe('')
  const read = JSON.parse(run.stdout) as readonly {
    version: string
    units: number
    errors: string[]
    fixes: string[]
    closed: boolean[]
  }[]
  expect(read.length).toBe(patterns.length)
  for (const one of read) {
    expect([one.version, one.units, one.errors, one.fixes]).toEqual(['AC1015', 4, [], []])
    expect(one.closed.every((yes) => yes)).toBe(true)
  }
})
