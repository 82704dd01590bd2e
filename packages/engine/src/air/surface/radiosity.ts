import { atan, Fault, log } from '../../kernel/index.ts'
import { ZERO_C_K } from '../../weather/index.ts'
import { STEFAN_W_PER_M2K4 } from './star.ts'

/**
 * Share of what leaves a rectangle a × b that meets its equal opposite at distance c.
 * @throws Fault `air/view-range`
 * @source view factor of aligned parallel rectangles, Howell's catalogue C-11; Incropera & DeWitt table 13.2. Provenance: memory
 */
export function opposedViewFrac(aM: number, bM: number, distanceM: number): number {
  if (!(aM > 0 && bM > 0 && distanceM > 0)) throw new Fault('air/view-range', { aM, bM, distanceM })
  const x = aM / distanceM
  const y = bM / distanceM
  const [rx, ry] = [Math.sqrt(1 + x * x), Math.sqrt(1 + y * y)]
  const sum =
    log((rx * ry) / Math.sqrt(1 + x * x + y * y)) + x * ry * atan(x / ry) + y * rx * atan(y / rx) - x * atan(x) - y * atan(y)
  return (2 * sum) / (Math.PI * x * y)
}

/**
 * Share of what leaves a rectangle that meets another standing on one of its edges at a right angle; the edge is common.
 * @throws Fault `air/view-range`
 * @source view factor of perpendicular rectangles with a common edge, Howell's catalogue C-14; Incropera & DeWitt table 13.2. Provenance: memory
 */
export function adjacentViewFrac(edgeM: number, fromM: number, toM: number): number {
  if (!(edgeM > 0 && fromM > 0 && toM > 0)) throw new Fault('air/view-range', { edgeM, fromM, toM })
  const w = fromM / edgeM
  const h = toM / edgeM
  const [w2, h2] = [w * w, h * h]
  const both = Math.sqrt(h2 + w2)
  const all = 1 + w2 + h2
  const logs =
    log(((1 + w2) * (1 + h2)) / all) +
    w2 * log((w2 * all) / ((1 + w2) * (w2 + h2))) +
    h2 * log((h2 * all) / ((1 + h2) * (w2 + h2)))
  return (w * atan(1 / w) + h * atan(1 / h) - both * atan(1 / both) + logs / 4) / (Math.PI * w)
}

export interface BoxInside {
  readonly lengthM: number
  readonly widthM: number
  readonly heightM: number
}

const FACES = 6
/** Which of length (0), width (1), height (2) a face stands across. In the order of `SIDES`: two sides, two ends, roof, floor. */
const ACROSS = [1, 1, 0, 0, 2, 2] as const

/** Areas of the six faces, m², in the order of `SIDES`. */
export function boxAreasM2(of: BoxInside): readonly number[] {
  const size = [of.lengthM, of.widthM, of.heightM]
  return ACROSS.map((across) => size.reduce((area, side, i) => (i === across ? area : area * side), 1))
}

/** View factors of the six faces, `from * 6 + to`, in the order of `SIDES`. @throws Fault `air/view-range` */
export function boxViews(of: BoxInside): Float64Array {
  const size = [of.lengthM, of.widthM, of.heightM]
  const views = new Float64Array(FACES * FACES)
  for (let i = 0; i < FACES; i++)
    for (let j = 0; j < FACES; j++) {
      if (i === j) continue
      const [a, b] = [ACROSS[i]!, ACROSS[j]!]
      const others = [0, 1, 2].filter((axis) => axis !== a)
      views[i * FACES + j] =
        a === b
          ? opposedViewFrac(size[others[0]!]!, size[others[1]!]!, size[a]!)
          : adjacentViewFrac(size[3 - a - b]!, size[b]!, size[a]!)
    }
  return views
}

/**
 * Exact grey exchange of the six faces, m² of black plate between each pair, `i * 6 + j`: heat from i to j is σ·this·(Tᵢ⁴ − Tⱼ⁴). Symmetric.
 * Solved once for a box: (I − ρF)·G = εF, exchange = ε·A·G.
 * @throws Fault `air/view-range`
 * @source radiosity of a grey enclosure; Gebhart 1961. Provenance: memory
 */
export function boxExchangeM2(of: BoxInside, emittancesFrac: readonly number[]): Float64Array {
  if (emittancesFrac.length !== FACES || !emittancesFrac.every((e) => e > 0 && e <= 1))
    throw new Fault('air/view-range', emittancesFrac)
  const views = boxViews(of)
  const areas = boxAreasM2(of)
  const wide = 2 * FACES
  const m = Array.from({ length: FACES }, (_, i) =>
    Array.from({ length: wide }, (_, j) =>
      j < FACES
        ? (i === j ? 1 : 0) - views[i * FACES + j]! * (1 - emittancesFrac[j]!)
        : views[i * FACES + j - FACES]! * emittancesFrac[j - FACES]!,
    ),
  )
  // The diagonal outweighs its row: no pivoting is needed.
  for (let k = 0; k < FACES; k++)
    for (let i = 0; i < FACES; i++) {
      if (i === k) continue
      const f = m[i]![k]! / m[k]![k]!
      for (let j = k; j < wide; j++) m[i]![j]! -= f * m[k]![j]!
    }
  const exchange = new Float64Array(FACES * FACES)
  for (let i = 0; i < FACES; i++)
    for (let j = 0; j < FACES; j++) exchange[i * FACES + j] = (emittancesFrac[i]! * areas[i]! * m[i]![FACES + j]!) / m[i]![i]!
  return exchange
}

/** Heat that leaves each face into the others, W, by `boxExchangeM2`. @throws Fault `air/view-range` */
export function exactHeatW(exchangeM2: Float64Array, facesC: readonly number[]): readonly number[] {
  if (exchangeM2.length !== FACES * FACES || facesC.length !== FACES) throw new Fault('air/view-range', facesC)
  const glow = facesC.map((c) => STEFAN_W_PER_M2K4 * (c + ZERO_C_K) ** 4)
  return glow.map((own, i) => glow.reduce((sum, other, j) => sum + exchangeM2[i * FACES + j]! * (own - other), 0))
}
