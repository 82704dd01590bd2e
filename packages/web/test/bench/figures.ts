export interface Figure {
  readonly what: string
  readonly goal: number
  readonly unit: 'ms' | 'kB'
  readonly measured: readonly number[]
  /** How the rounds become one number. */
  readonly of: 'median' | 'p95' | 'largest'
}

/** A goal is missed, not just touched, when it is passed by more than a third: so much one machine differs from another. */
export const MISSED = 4 / 3

export function figureOf({ measured, of }: Pick<Figure, 'measured' | 'of'>): number {
  const order = measured.toSorted((a, b) => a - b)
  const at = (frac: number): number =>
    order[Math.min(order.length - 1, Math.max(0, Math.ceil(frac * order.length) - 1))] ?? Number.NaN
  if (of === 'largest') return at(1)
  if (of === 'p95') return at(0.95)
  const middle = order.length >> 1
  return order.length % 2 === 1 ? at(0.5) : ((order[middle - 1] ?? Number.NaN) + (order[middle] ?? Number.NaN)) / 2
}

/** Nothing measured is missed as well. */
export const isMissed = (figure: Figure): boolean => !(figureOf(figure) <= figure.goal * MISSED)

export function table(figures: readonly Figure[]): string {
  const shown = (value: number, unit: Figure['unit']): string => `${value >= 100 ? value.toFixed(0) : value.toFixed(1)} ${unit}`
  const rows = figures.map((f) => [
    f.what,
    shown(figureOf(f), f.unit),
    shown(f.goal, f.unit),
    `${(figureOf(f) / f.goal).toFixed(2)} ×`,
    `${f.of} of ${f.measured.length}`,
    isMissed(f) ? 'missed' : figureOf(f) > f.goal ? 'over' : '',
  ])
  const all = [['', 'measured', 'goal', 'ratio', '', ''], ...rows]
  const wide = all[0]!.map((_, i) => Math.max(...all.map((row) => row[i]!.length)))
  const line = (row: readonly string[]): string =>
    row
      .map((cell, i) => (i === 0 || i > 3 ? cell.padEnd(wide[i]!) : cell.padStart(wide[i]!)))
      .join('  ')
      .trimEnd()
  return all.map(line).join('\n')
}
