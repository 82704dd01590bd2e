import { type Random, seeded } from '../../kernel/index.ts'
import type { CutTask } from './model.ts'

/** Lists as a shop has them: strut from 3048 and 6096 mm, a blade of 2.5 mm, some on the rack, some with prices. In half millimetres. */
export function shopList(
  seed: number,
  options: { readonly lengths: number; readonly pieces: number; readonly shortestMm: number },
): CutTask {
  const random = seeded(seed)
  const step = random.pick([1, 5, 10, 50])
  const lengths = new Set<number>()
  const wanted = 2 + random.below(options.lengths - 1)
  for (let n = 0; n < wanted; n += 1) lengths.add(Math.ceil(random.between(options.shortestMm, 3048) / step) * step)
  const sizes = [...lengths].filter((mm) => mm <= 3048).sort((a, b) => b - a)
  let left = options.pieces
  const items = (sizes.length === 0 ? [1000] : sizes).map((mm, at, all) => {
    const demand = Math.max(
      1,
      Math.min(1 + random.below(Math.ceil((2 * options.pieces) / all.length)), left - (all.length - at - 1)),
    )
    left -= demand
    return { size: 2 * mm + 5, size2: 0, demand }
  })
  const pieces = items.reduce((sum, item) => sum + item.demand, 0)
  return { stocks: stocksOf(random, pieces), items }
}

function stocksOf(random: Random, pieces: number): CutTask['stocks'] {
  const bar = (mm: number, money: number, limit: number) => ({
    capacity: 2 * mm + 5,
    capacity2: 0,
    cost: money * (pieces + 1) + 1,
    limit,
  })
  const free = Number.POSITIVE_INFINITY
  const kind = random.below(3)
  if (kind === 0) return [{ ...bar(6096, 0, free), cost: 1 }]
  if (kind === 1) return [{ ...bar(3048, 0, free), cost: 1 }]
  return [
    bar(6096, 380 + random.below(80), random.below(2) === 0 ? free : 2 + random.below(8)),
    bar(3048, 200 + random.below(60), free),
    bar(1500 + random.below(1500), random.below(2) * 50, 1 + random.below(4)),
  ]
}

/** A bar's worth of pieces at a time, cut at random: so many bars are needed, and no fewer. */
export function planted(seed: number, bars: number, capacity: number, mostPerBar: number): CutTask {
  const random = seeded(seed)
  const demand = new Map<number, number>()
  for (let bar = 0; bar < bars; bar += 1) {
    let left = capacity
    for (let more = 1 + random.below(mostPerBar - 1); more > 0 && left > 1; more -= 1) {
      const size = 1 + random.below(Math.max(1, Math.floor((1.5 * left) / (more + 1))))
      if (size >= left) continue
      demand.set(size, (demand.get(size) ?? 0) + 1)
      left -= size
    }
    demand.set(left, (demand.get(left) ?? 0) + 1)
  }
  const items = [...demand].sort((a, b) => b[0] - a[0]).map(([size, count]) => ({ size, size2: 0, demand: count }))
  return { stocks: [{ capacity, capacity2: 0, cost: 1, limit: Number.POSITIVE_INFINITY }], items }
}
