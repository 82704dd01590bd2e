import { readFileSync, writeFileSync } from 'node:fs'
import { readJob } from '@plugstead/engine/job'
import { boxBody } from '@plugstead/engine/box'
import { workingSpaces } from '@plugstead/engine/fit'
import { answerHaul } from '@plugstead/engine/haul'
import { partById } from '@plugstead/engine/parts'
import { rulesFor, builtInOverlays } from '@plugstead/engine/rules'
const name = process.argv[2]!
const r = readJob(readFileSync(name), { file: name })
if (!r.ok) throw new Error(JSON.stringify(r.problems))
const job = r.value
const old = JSON.parse(readFileSync(process.argv[3]!, 'utf8'))
const rules = rulesFor(job.rules.set, { overlays: job.rules.overlays.map((n) => (builtInOverlays as any)[n]) })
const bodies = old.bodies
const haul = answerHaul({ job, design: old.design, bodies: Object.fromEntries(bodies.map((b: any) => [b.box, b])), rules }).result.boxes[0]
const spaces = workingSpaces({ items: old.design.builds[0].fit.items, body: bodies[0], rules, voltsToEarthV: 120, workedOnLive: (i) => partById(i.part)?.workedOnLive === true && i.side !== 'roof' && i.side !== 'floor' })
writeFileSync(process.argv[3]!, JSON.stringify({ ...old, haul, spaces }, null, 1))
