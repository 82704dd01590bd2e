import { readFileSync, writeFileSync } from 'node:fs'
import validator from 'gltf-validator'
import { glb } from './src/solid/glb.ts'
import { boxParts } from './src/solid/parts.ts'
const d = JSON.parse(readFileSync(process.argv[2]!, 'utf8'))
const t = performance.now()
const parts = boxParts({ body: d.bodies[0], build: d.design.builds[0] })
const bytes = glb.render(parts, 'x')
console.log(parts.length, bytes.length, performance.now() - t)
writeFileSync('/tmp/draw/out/box.glb', bytes)
const r = await validator.validateBytes(bytes)
console.log(r.issues.numErrors, r.issues.numWarnings, r.issues.numInfos, r.issues.messages.slice(0, 5), r.info)
