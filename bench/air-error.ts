/**
 * `npm run bench:air-error`: error per millisecond of the hourly run beside backward Euler, all in the C twin. A bare and a foamed box through an invented
 * dry year, against 240 steps an hour; the first day is left out. Backward Euler is the same loop with both stages at the end of the step and no step taken
 * again: it works out each step twice, so its own time is about two thirds of what is shown.
 */
import { finer } from '../packages/engine/src/air/year/finer.fixture.ts'
import { surroundingsOf, yearOf } from '../packages/engine/src/air/year/index.ts'
import { sampleBox } from '../packages/engine/src/air/year/sample-boxes.ts'
import { sampleHours } from '../packages/engine/src/air/year/sample-hours.ts'
import type { BoxModel } from '../packages/engine/src/air/year/types.ts'
import { type HowInC, yearInC } from './year-in-c.ts'

const none = new Float64Array(288)
const dry = (box: BoxModel): BoxModel => ({
  ...box,
  ...{ waterKgS: none, floor: { ...box.floor, dryKgPerM2: 0 }, doorOpenS: new Float64Array(24) },
})
const plain = sampleHours(8760)
const hours = { ...plain, columns: { ...plain.columns, vapourPa: new Float64Array(8760).fill(30) } }
const RUNS: readonly (readonly [string, number, HowInC])[] = [
  ['as used, 4 steps an hour', 1, {}],
  ['no step again in parts, 4', 1, { whole: true }],
  ['no step again in parts, 8', 2, { whole: true }],
  ['no step again in parts, 16', 4, { whole: true }],
  ['backward Euler, 4', 1, { euler: true }],
  ['backward Euler, 12', 3, { euler: true }],
  ['backward Euler, 60', 15, { euler: true }],
]
for (const [name, box] of [
  ['bare', dry(sampleBox(0))],
  ['foamed', dry(sampleBox(0.05))],
] as const) {
  const four = surroundingsOf(box, hours, { stepsPerHour: 4 })
  const told = yearOf(box, finer(four, 60), { firstRunHours: 0 }).series.airC
  console.log(`\n${name.padEnd(30)}      ms   rms K   most K   rms K × ms`)
  for (const [what, parts, how] of RUNS) {
    const run = yearInC(box, finer(four, parts), 5, { ...how, firstRunHours: 0 })
    if (run === null) {
      console.log('C not run, no gcc')
      break
    }
    let [sum, most] = [0, 0]
    for (let h = 24; h < 8760; h++) {
      const off = Math.abs(run.airC[h]! - told[h]!)
      sum += off * off
      most = Math.max(most, off)
    }
    const rms = Math.sqrt(sum / (8760 - 24))
    const cells = [
      run.fastestMs.toFixed(0).padStart(5),
      rms.toFixed(4).padStart(7),
      most.toFixed(3).padStart(8),
      (rms * run.fastestMs).toFixed(2).padStart(8),
    ]
    console.log(`${what.padEnd(30)}   ${cells.join(' ')}`)
  }
}
