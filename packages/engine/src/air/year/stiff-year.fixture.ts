import { spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { SIDES } from '../../job/index.ts'
import { layoutOf } from './layout.ts'
import type { Surroundings } from './surroundings.ts'
import type { BoxModel } from './types.ts'

/** A box's hours by CVODE, a solver of stiff equations that others keep (SUNDIALS; Debian package `libsundials-dev`), with the equations written in C. */
export interface StiffHours {
  readonly airC: Float64Array
  readonly gearC: Float64Array
  readonly vapourPa: Float64Array
  readonly floorTopFrac: Float64Array
  readonly faceC: Float64Array
  readonly filmKgPerM2: Float64Array
  readonly ratesCount: number
}

const SOURCE = fileURLToPath(new URL('../../../test/stiff-year.c', import.meta.url))
const LIBRARIES = ['-lsundials_cvode', '-lsundials_nvecserial', '-lsundials_sunlinsoldense', '-lsundials_sunmatrixdense', '-lm']

/** The program, compiled here; null where there is no compiler or no solver. */
export function stiffProgram(): { readonly run: StiffRun; readonly done: () => void } | null {
  const folder = mkdtempSync(join(tmpdir(), 'stiff-'))
  const program = join(folder, 'year')
  const done = () => rmSync(folder, { recursive: true, force: true })
  const there = spawnSync('gcc', ['-x', 'c', '-fsyntax-only', '-'], { input: '#include <cvode/cvode.h>\n' })
  if (there.status !== 0) {
    done()
    return null
  }
  const made = spawnSync('gcc', ['-O2', '-o', program, SOURCE, ...LIBRARIES], { encoding: 'utf8' })
  if (made.status !== 0) {
    done()
    throw new Error(`gcc: ${made.stderr}`)
  }
  return { run: (...of) => stiffHours(program, ...of), done }
}

type Start = { readonly airC: number; readonly vapourPa: number; readonly woodFrac: number }
export type StiffRun = (model: BoxModel, sur: Surroundings, start: Start, relative: number) => StiffHours

function stiffHours(program: string, model: BoxModel, sur: Surroundings, start: Start, relative: number): StiffHours {
  const lay = layoutOf(model)
  const { floor } = model
  const numbers: number[] = [lay.surfacesCount, lay.nodesCount, model.openings.length, sur.hoursCount, sur.stepsPerHour]
  const ratio = (0.621945 * start.vapourPa) / (sur.pressurePa[0]! - start.vapourPa)
  numbers.push(lay.floorAt, lay.gearAt, start.airC, ratio, start.woodFrac, relative)
  numbers.push(model.volumeM3, model.leakM3SAt1Pa, model.leakExponent, model.gear.toAirWPerK, floor.dryKgPerM2, floor.topM)
  numbers.push(floor.thicknessM, floor.vapourResistanceRatio, floor.paintedRatio, model.doorAreaM2, model.doorHeightM)
  numbers.push(sur.boxWindRatio, model.insideHeightM)
  for (let s = 0; s < lay.surfacesCount; s++)
    numbers.push(
      ...[lay.outer[s]!, lay.inner[s]!, lay.side[s]!, lay.sees[s]!, lay.areaM2[s]!, lay.outAreaM2[s]!, lay.inAreaM2[s]!],
      ...[lay.absorptance[s]!, lay.emittance[s]!, lay.windFilm[s]!, lay.outWarm[s]!, lay.outCold[s]!, lay.inWarm[s]!],
      ...[lay.inCold[s]!, lay.starM2[s]!, lay.holdsKgPerM2[s]!, 0],
    )
  for (let i = 0; i < lay.nodesCount; i++) numbers.push(lay.heatJPerK[i]!, lay.nextWPerK[i]!)
  for (const one of model.openings)
    numbers.push(SIDES.indexOf(one.side), one.heightM, one.areaM2 * one.dischargeRatio, one.winterFrac)
  const walls = [0, 1, 2, 3].map((d) => lay.areaM2[lay.faceOf[d]!]!)
  const wallM2 = walls.reduce((sum, one) => sum + one, 0)
  numbers.push(...walls.map((one) => one / wallM2))
  const winter = Array.from({ length: 12 }, (_, m) => (model.winterMonths.includes(m) ? 1 : 0))
  const lists = [numbers, model.gearHeatW, model.airHeatW, model.waterKgS, model.doorOpenS, winter, sur.month, sur.hour, sur.airC]
  lists.push(sur.waterRatio, sur.pressurePa, sur.downWPerM2, sur.wallWPerM2, sur.groundC, sur.sunWPerM2, sur.windMPerS)
  lists.push(sur.windPa, sur.windward)
  const input = Buffer.concat(lists.map((list) => Buffer.from(Float64Array.from(list).buffer)))
  const out = spawnSync(program, [], { input, maxBuffer: 1 << 28 })
  if (out.status !== 0) throw new Error(`the stiff solver stopped: ${out.stderr}`)
  const wide = 17
  const rows = new Float64Array(out.stdout.buffer.slice(out.stdout.byteOffset, out.stdout.byteOffset + out.stdout.byteLength))
  const column = (at: number) => Float64Array.from({ length: sur.hoursCount }, (_, h) => rows[h * wide + at]!)
  const six = (at: number) =>
    Float64Array.from({ length: sur.hoursCount * 6 }, (_, j) => rows[Math.floor(j / 6) * wide + at + (j % 6)]!)
  return {
    airC: column(0),
    gearC: column(1),
    vapourPa: column(2),
    floorTopFrac: column(3),
    faceC: six(4),
    filmKgPerM2: six(10),
    ratesCount: rows.at(-1)!,
  }
}
