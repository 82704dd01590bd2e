import { readFileSync } from 'node:fs'
import { dirname, join } from 'node:path'
import { shopFolder } from '../packages/cli/src/shop-folder.ts'
import {
  boxDrawings,
  boxParts,
  type DrawnBox,
  drawnBoxes,
  dxf,
  glb,
  patternDrawings,
  sheetScene,
  svg,
} from '../packages/drawings/src/index.ts'
import { readJob } from '../packages/engine/src/job/index.ts'
import { plan } from '../packages/engine/src/plan/index.ts'
import type { Bench } from './run.ts'

const EXAMPLE = 'examples/groomer-yard-us.yaml'
const read = readJob(readFileSync(join(dirname(import.meta.dirname), EXAMPLE)), { file: EXAMPLE })
if (!read.ok) throw new Error(`${EXAMPLE} cannot be read`)
const job = read.value
const { design, assessment } = plan(job, shopFolder())
const boxes = drawnBoxes({ job, design, assessment })
if (boxes.length === 0) throw new Error(`${EXAMPLE} has no box that is laid out`)

const BLOCK_MM = { widthMm: 185, heightMm: 205 }
const sheets = (of: DrawnBox): readonly string[] => boxDrawings(of).map((d) => svg.render(sheetScene(d, BLOCK_MM)))
const cutFiles = (of: DrawnBox): readonly string[] => patternDrawings(of).map(dxf.render)

export const benches: readonly Bench[] = [
  { name: 'draw, every sheet of the yard as SVG', run: () => boxes.map(sheets), limitS: 0.3 },
  { name: 'draw, every cut file of the yard as DXF', run: () => boxes.map(cutFiles), limitS: 0.1 },
  { name: 'draw, the yard’s box as GLB', run: () => boxes.map((of) => glb.render(boxParts(of), 'yard')), limitS: 0.2 },
]
