import { readFileSync, writeFileSync } from 'node:fs'
import { dxf } from './src/dxf.ts'
import { patternDrawings } from './src/box/index.ts'
const d = JSON.parse(readFileSync(process.argv[2]!, 'utf8'))
const of = { body: d.bodies[0], build: d.design.builds[0], skin: d.results.skin.boxes[0], spaces: d.spaces ?? [], haul: d.haul ?? null, marks: {}, pinned: [], labels: [] }
for (const p of patternDrawings(of as any)) writeFileSync(`/tmp/draw/out/${p.id}.dxf`, dxf.render(p))
