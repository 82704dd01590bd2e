/** A binary heap: the least by `before` comes out first. */
export interface Heap<T> {
  readonly push: (one: T) => void
  readonly pop: () => T | null
}

export function newHeap<T>(before: (a: T, b: T) => number): Heap<T> {
  const all: T[] = []
  const swap = (i: number, j: number) => {
    const kept = all[i] as T
    all[i] = all[j] as T
    all[j] = kept
  }
  return {
    push: (one) => {
      all.push(one)
      for (let i = all.length - 1; i > 0; ) {
        const up = (i - 1) >> 1
        if (before(all[i] as T, all[up] as T) >= 0) break
        swap(i, up)
        i = up
      }
    },
    pop: () => {
      const first = all[0]
      if (first === undefined) return null
      const last = all.pop() as T
      if (all.length > 0) {
        all[0] = last
        for (let i = 0; ; ) {
          let least = i
          for (const child of [2 * i + 1, 2 * i + 2])
            if (child < all.length && before(all[child] as T, all[least] as T) < 0) least = child
          if (least === i) break
          swap(i, least)
          i = least
        }
      }
      return first
    },
  }
}
