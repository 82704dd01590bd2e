import load, { type Highs } from 'highs'
import type { CutTask } from './model.ts'

/** Its types say that it is a CommonJS module; what is imported is the function itself. */
export const loadHighs = load as unknown as typeof load.default

/** Every way to cut a bar of a kind that takes no further piece; stops beyond `most`. Its own walk, nothing shared with the engine. */
export function allPatterns(
  { stocks, items }: CutTask,
  most = 100_000,
): readonly { readonly stock: number; readonly counts: readonly number[] }[] {
  return stocks.flatMap(({ capacity, capacity2 }, stock) => {
    const found: { stock: number; counts: number[] }[] = []
    const counts = items.map(() => 0)
    const visit = (i: number, rest: number, rest2: number): void => {
      if (i === items.length) {
        const room = items.some((item, k) => counts[k]! < item.demand && item.size <= rest && item.size2 <= rest2)
        if (!room && counts.some((n) => n > 0)) found.push({ stock, counts: [...counts] })
        return
      }
      const { size, size2, demand } = items[i]!
      for (let n = 0; n <= demand && n * size <= rest && n * size2 <= rest2 && found.length <= most; n += 1) {
        counts[i] = n
        visit(i + 1, rest - n * size, rest2 - n * size2)
      }
      counts[i] = 0
    }
    visit(0, capacity, capacity2)
    return found
  })
}

/** The integer program over all patterns, for HiGHS: least cost, every piece covered, no kind of stock overdrawn. Null: infeasible. */
export function judged(highs: Highs, task: CutTask, patterns = allPatterns(task)): number | null {
  const name = (at: number): string => `x${at}`
  const terms = (of: (at: number) => number): string =>
    patterns.flatMap((_, at) => (of(at) === 0 ? [] : [`${of(at)} ${name(at)}`])).join(' + ')
  const rows = task.items.map((item, i) => `p${i}: ${terms((at) => patterns[at]!.counts[i]!) || '0 x0'} >= ${item.demand}`)
  const limits = task.stocks.flatMap((stock, j) => {
    const used = terms((at) => (patterns[at]!.stock === j ? 1 : 0))
    return stock.limit === Number.POSITIVE_INFINITY || used === '' ? [] : [`s${j}: ${used} <= ${stock.limit}`]
  })
  if (patterns.length === 0) return null
  const program = [
    'Minimize',
    `cost: ${terms((at) => task.stocks[patterns[at]!.stock]!.cost)}`,
    'Subject To',
    ...rows,
    ...limits,
    'General',
    patterns.map((_, at) => name(at)).join(' '),
    'End',
  ].join('\n')
  const answer = highs.solve(program, { mip_rel_gap: 0, mip_abs_gap: 0 })
  return answer.Status === 'Optimal' ? Math.round(answer.ObjectiveValue) : null
}
