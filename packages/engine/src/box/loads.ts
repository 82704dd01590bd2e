import { Fault, put, source, step, type Worked } from '../kernel/index.ts'
import type { BoxBody } from './result.ts'
import { bodyFigure, numberIn, rowOf, rowSource } from './shelf.ts'

const inRange = (code: string, given: object): void => {
  if (!Object.values(given).every((value) => typeof value !== 'number' || (value > 0 && value < Infinity)))
    throw new Fault(code, given)
}

const statics = source('arithmetic', 'computed')

/**
 * Line load of a heavy thing along the box, and the least length it must bear on: q = m/L, L_least = m/q_most.
 * Across the box it stands on bearers over at least three crossmembers (common practice); the figure says nothing of a single wheel.
 * @throws Fault `box/load-range`
 */
export function floorLineLoad(given: {
  readonly massKg: number
  /** Bearing length along the box. */
  readonly lengthM: number
  readonly mostTonnePerM: number
}): Worked<{ readonly lineTonnePerM: number; readonly leastLengthM: number; readonly holds: boolean }> {
  inRange('box/load-range', given)
  const lineTonnePerM = given.massKg / 1000 / given.lengthM
  const leastLengthM = given.massKg / 1000 / given.mostTonnePerM
  const m = put('m', given.massKg, 'kg')
  return {
    value: { lineTonnePerM, leastLengthM, holds: lineTonnePerM <= given.mostTonnePerM },
    steps: [
      step('q', 'm/L', [m, put('L', given.lengthM, 'm')], lineTonnePerM, 't/m', statics),
      step('L least', 'm/q most', [m, put('q most', given.mostTonnePerM, 't/m')], leastLengthM, 'm', statics),
    ],
  }
}

/**
 * Proof load of a wall: F = f·P·g on its inside, P = R − T; as a pressure over its inner face.
 * A proof test of an uncut wall: it says nothing once the wall is cut.
 * @throws Fault `box/load-range`
 * @source ISO 1496-1, 0.6 Pg on a side wall, 0.4 Pg on an end wall (table iso-tests)
 */
export function wallProof(given: {
  readonly ratingKg: number
  readonly tareKg: number
  readonly shareFrac: number
  readonly lengthM: number
  readonly heightM: number
}): Worked<{ readonly payloadKg: number; readonly forceN: number; readonly pressurePa: number }> {
  inRange('box/load-range', given)
  const g = bodyFigure('standard gravity')
  const payloadKg = given.ratingKg - given.tareKg
  if (!(payloadKg > 0)) throw new Fault('box/load-range', given)
  const forceN = given.shareFrac * payloadKg * g
  const pressurePa = forceN / (given.lengthM * given.heightM)
  const test = source('ISO 1496-1 wall tests (table iso-tests)', 'read')
  return {
    value: { payloadKg, forceN, pressurePa },
    steps: [
      step('P', 'R − T', [put('R', given.ratingKg, 'kg'), put('T', given.tareKg, 'kg')], payloadKg, 'kg', statics),
      step('F', 'f·P·g', [put('f', given.shareFrac), put('P', payloadKg, 'kg'), put('g', g, 'm/s2')], forceN, 'N', test),
      step(
        'p',
        'F/(l·h)',
        [put('F', forceN, 'N'), put('l', given.lengthM, 'm'), put('h', given.heightM, 'm')],
        pressurePa,
        'Pa',
        statics,
      ),
    ],
  }
}

/**
 * The roof test as a pressure on its patch: p = m·g/(a·b). A man-load test on a small patch, never a load the whole roof may carry.
 * @throws Fault `box/load-range`
 * @source ISO 1496-1 roof test, 300 kg on 600 × 300 mm (table iso-tests). Provenance: memory
 */
export function roofProof(given: { readonly massKg: number; readonly aMm: number; readonly bMm: number }): Worked<number> {
  inRange('box/load-range', given)
  const g = bodyFigure('standard gravity')
  const pressurePa = (given.massKg * g) / ((given.aMm / 1000) * (given.bMm / 1000))
  const values = [put('m', given.massKg, 'kg'), put('g', g, 'm/s2'), put('a', given.aMm, 'mm'), put('b', given.bMm, 'mm')]
  const test = rowSource('iso-tests', 'roof')
  return { value: pressurePa, steps: [step('p', 'm·g/(a·b)', values, pressurePa, 'Pa', test)] }
}

const firstNumber = (text: unknown): number => numberIn(/[\d.]+/.exec(String(text))?.[0] ?? null)

/**
 * Proof loads of the uncut box, as facts. Walls: null where its rating is not known. A tare that nobody weighed is taken at its low end,
 * which gives the larger payload.
 */
export function proofLoads(body: BoxBody): {
  readonly sideWall: Worked<{ readonly forceN: number; readonly pressurePa: number }> | null
  readonly endWall: Worked<{ readonly forceN: number; readonly pressurePa: number }> | null
  readonly roofPatch: Worked<number>
} {
  const wall = (row: string, lengthMm: number) =>
    body.ratingKg === null || body.ratingKg <= body.tareKg.low
      ? null
      : wallProof({
          ratingKg: body.ratingKg,
          tareKg: body.tareKg.low,
          shareFrac: firstNumber(rowOf('iso-tests', row).load),
          lengthM: lengthMm / 1000,
          heightM: body.insideMm[2] / 1000,
        })
  const [massKg, aMm, bMm] = (String(rowOf('iso-tests', 'roof').load).match(/\d+/g) ?? []).map(Number)
  return {
    sideWall: wall('side wall', body.insideMm[0]),
    endWall: wall('end wall', body.insideMm[1]),
    roofPatch: roofProof({ massKg: massKg as number, aMm: aMm as number, bMm: bMm as number }),
  }
}

/**
 * What is left of the clear width when things hang on one wall and somebody works before them: used = Σ depths + working depth.
 * Negative: it does not fit, by so much.
 * @throws Fault `box/load-range`
 */
export function widthMargin(given: {
  readonly innerWidthMm: number
  /** Strut, panel: what stands off the inner flats, one behind the other. */
  readonly depthsMm: readonly number[]
  readonly workingDepthMm: number
}): Worked<{ readonly usedMm: number; readonly freeMm: number }> {
  inRange('box/load-range', { innerWidthMm: given.innerWidthMm })
  if (![...given.depthsMm, given.workingDepthMm].every((mm) => mm >= 0 && mm < Infinity)) throw new Fault('box/load-range', given)
  const usedMm = given.depthsMm.reduce((a, b) => a + b, given.workingDepthMm)
  const freeMm = given.innerWidthMm - usedMm
  const depths = given.depthsMm.map((mm, i) => put(`a${i + 1}`, mm, 'mm'))
  return {
    value: { usedMm, freeMm },
    steps: [
      step('used', 'Σa + w', [...depths, put('w', given.workingDepthMm, 'mm')], usedMm, 'mm', statics),
      step('free', 'b − used', [put('b', given.innerWidthMm, 'mm'), put('used', usedMm, 'mm')], freeMm, 'mm', statics),
    ],
  }
}

/** Steel that a post needs for its proof load: A = F/f_y. @throws Fault `box/load-range` @source stacking test of ISO 1496-1 */
export function postArea(given: { readonly forceN: number; readonly yieldPa: number }): Worked<number> {
  inRange('box/load-range', given)
  const areaMm2 = (given.forceN / given.yieldPa) * 1e6
  const values = [put('F', given.forceN, 'N'), put('f_y', given.yieldPa, 'Pa')]
  return { value: areaMm2, steps: [step('A', 'F/f_y', values, areaMm2, 'mm2', statics)] }
}

/** Stacking proof load on one post: m = n·R·k/posts. @throws Fault `box/load-range` @source ISO 1496-1, stacking test */
export function stackingPerPost(given: {
  readonly boxesAbove: number
  readonly grossKg: number
  readonly factorRatio: number
  readonly posts: number
}): Worked<number> {
  inRange('box/load-range', given)
  const perPostKg = (given.boxesAbove * given.grossKg * given.factorRatio) / given.posts
  const values = [
    put('n', given.boxesAbove),
    put('R', given.grossKg, 'kg'),
    put('k', given.factorRatio),
    put('posts', given.posts),
  ]
  return { value: perPostKg, steps: [step('m', 'n·R·k/posts', values, perPostKg, 'kg', statics)] }
}

/** Largest load on one bottom fitting: what stands on its post and a quarter of the box itself. @throws Fault `box/load-range` */
export function bottomFittingLoad(given: { readonly stackKg: number; readonly grossKg: number }): Worked<number> {
  inRange('box/load-range', given)
  const massKg = given.stackKg + given.grossKg / 4
  const values = [put('S', given.stackKg, 'kg'), put('R', given.grossKg, 'kg')]
  return { value: massKg, steps: [step('m', 'S + R/4', values, massKg, 'kg', statics)] }
}

/** Mass of the corrugated sheet of both long sides: m = 2·l·h·m″. @throws Fault `box/load-range` */
export function sideWallsMass(given: {
  readonly lengthM: number
  readonly heightM: number
  readonly sheetKgPerM2: number
}): Worked<number> {
  inRange('box/load-range', given)
  const massKg = 2 * given.lengthM * given.heightM * given.sheetKgPerM2
  const values = [put('l', given.lengthM, 'm'), put('h', given.heightM, 'm'), put('m″', given.sheetKgPerM2, 'kg/m2')]
  return { value: massKg, steps: [step('m', '2·l·h·m″', values, massKg, 'kg', statics)] }
}
