import { readFileSync, writeFileSync } from 'node:fs'
import { svg } from './src/svg.ts'
import { paperScene } from './src/model/paper.ts'
import { boxDrawings, patternDrawings } from './src/box/index.ts'
const d = JSON.parse(readFileSync(process.argv[2]!, 'utf8'))
const only = process.argv[3]
const build = d.design.builds[0]
const of = { body: d.bodies[0], build, skin: d.results.skin.boxes[0], spaces: d.spaces ?? [], haul: d.haul ?? null, marks: {}, pinned: [], labels: d.design.boxes[0].circuits.map((c: any) => ({ on: c.id, words: c.label })) }
const t = performance.now()
const all = [...boxDrawings(of as any), ...patternDrawings(of as any)]
let n = 0
for (const x of all) { if (only && !x.id.startsWith(only)) continue; const s = svg.render(paperScene(x, { widthMm: 185, heightMm: 205 })); n += s.length; writeFileSync(`/tmp/draw/out/${x.id}.svg`, s) }
console.log(all.length, n, performance.now() - t)
