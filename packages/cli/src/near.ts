/** The word of `known` that `word` was probably meant to be; null when none is near. */
export function nearest(word: string, known: readonly string[]): string | null {
  let best: string | null = null
  let bestSteps = Math.max(1, Math.floor(word.length / 3)) + 1
  for (const other of known) {
    const steps = stepsBetween(word.toLowerCase(), other.toLowerCase(), bestSteps)
    if (steps < bestSteps) [best, bestSteps] = [other, steps]
  }
  return best
}

/** Letters put in, left out, changed or swapped with their neighbour; stops counting at `enough`. */
function stepsBetween(a: string, b: string, enough: number): number {
  if (Math.abs(a.length - b.length) >= enough) return enough
  let older: number[] = []
  let last = Array.from({ length: b.length + 1 }, (_, at) => at)
  for (let i = 1; i <= a.length; i += 1) {
    const now = [i]
    for (let j = 1; j <= b.length; j += 1) {
      const same = a[i - 1] === b[j - 1]
      let steps = Math.min((last[j] ?? 0) + 1, (now[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1))
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) steps = Math.min(steps, (older[j - 2] ?? 0) + 1)
      now.push(steps)
    }
    ;[older, last] = [last, now]
  }
  return last[b.length] ?? enough
}
