import { runKernel } from '../packages/engine/src/air/year/engine.ts'
import { FIRST_RUN_HOURS, surroundingsOf, yearOf } from '../packages/engine/src/air/year/index.ts'
import { layoutOf } from '../packages/engine/src/air/year/layout.ts'
import { plainLoop } from '../packages/engine/src/air/year/loop.ts'
import { foamLayer, sampleBox } from '../packages/engine/src/air/year/sample-boxes.ts'
import { sampleHours } from '../packages/engine/src/air/year/sample-hours.ts'
import type { BoxModel } from '../packages/engine/src/air/year/types.ts'
import type { Bench } from './run.ts'
import { checkSum, yearInC } from './year-in-c.ts'

const hours = sampleHours(8760)
const around = (stepsPerHour: number) => surroundingsOf(sampleBox(0), hours, { stepsPerHour })
const four = around(4)

/** By the text of the loop as it is written, where there is no WebAssembly. */
const plainYear = (box: BoxModel) =>
  runKernel(box, layoutOf(box), four, { firstRunHours: FIRST_RUN_HOURS, startC: null, startVapourPa: null }, plainLoop)

/** What the same loop in C takes in this run, in words; says so when it gave another check sum. */
function beside(box: BoxModel): string {
  const exact = yearInC(box, four, 1, { exact: true })
  const fast = yearInC(box, four, 15)
  if (exact === null || fast === null) return 'C not run, no gcc'
  const ours = checkSum(yearOf(box, four))
  if (exact.sum !== ours) return `C gives another check sum: ${exact.sum}, not ${ours}`
  const plain = checkSum(plainYear(box))
  if (plain !== ours) return `the text gives another check sum: ${plain}, not ${ours}`
  return `the same loop in C beside it ${fast.medianMs.toFixed(1)} ms, fastest ${fast.fastestMs.toFixed(1)}`
}

const year = (name: string, box: BoxModel, limitS?: number): Bench => ({
  name: `a year of a box, ${name}`,
  ...(limitS === undefined ? {} : { limitS }),
  run: () => checkSum(yearOf(box, four)),
})
const foamed = (nodesCount: number): BoxModel => ({
  ...sampleBox(0.05),
  faces: sampleBox(0.05).faces.map((face) => ({
    ...face,
    layers: face.layers.map((layer) => (layer.what === 'foam' ? { ...foamLayer(0.05), nodesCount } : layer)),
  })),
})
/** Faces cut into parts of equal build: so many surfaces more. */
const parted = (times: number): BoxModel => {
  const box = sampleBox(0)
  const cut = box.faces.map((face) => ({ ...face, areaM2: face.areaM2 / (1 + times) }))
  return { ...box, faces: cut, parts: cut.flatMap((face) => Array.from({ length: times }, () => face)) }
}

export const benches: readonly Bench[] = [
  year(`bare (${beside(sampleBox(0))})`, sampleBox(0), 0.1),
  year(`foamed (${beside(sampleBox(0.05))})`, sampleBox(0.05), 0.1),
  ...(['bare', 'foamed'] as const).map(
    (name, i): Bench => ({
      name: `the same as it is written, ${name}`,
      run: () => checkSum(plainYear(sampleBox(i * 0.05))),
    }),
  ),
  year('foam in 1 slice', foamed(1)),
  year('foam in 6 slices', foamed(6)),
  year('foam in 12 slices', foamed(12)),
  year('12 faces', parted(1)),
  year('24 faces', parted(3)),
  { name: 'surroundings of a year', limitS: 0.04, run: () => around(4).sunWPerM2[99] },
]
