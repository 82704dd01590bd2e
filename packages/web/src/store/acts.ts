import type { DocumentEdit } from '@plugstead/engine/job'

/** What changed in the text of a document: one stretch gave way to another. */
export interface Patch {
  readonly at: number
  readonly gone: string
  readonly come: string
}

/** One act on a job, kept for ever. An undo is an act too: nothing in the list is ever taken out. */
export interface Act {
  readonly job: string
  /** From 1, without a gap. */
  readonly n: number
  /** In words a person reads beside *Undo*. */
  readonly words: string
  readonly patch: Patch
  /** What was asked for, by place in the document: held against what another tab asked for. */
  readonly edits: readonly DocumentEdit[]
  /** Number of the act that this one undoes. */
  readonly undoes?: number
}

export function patchBetween(before: string, after: string): Patch {
  let at = 0
  const most = Math.min(before.length, after.length)
  while (at < most && before[at] === after[at]) at++
  let end = 0
  while (end < most - at && before[before.length - 1 - end] === after[after.length - 1 - end]) end++
  return { at, gone: before.slice(at, before.length - end), come: after.slice(at, after.length - end) }
}

/** @throws RangeError when the text is not the one the patch was made on */
export function patched(text: string, { at, gone, come }: Patch): string {
  if (text.slice(at, at + gone.length) !== gone) throw new RangeError(`patch does not fit at ${at}`)
  return text.slice(0, at) + come + text.slice(at + gone.length)
}

export const inverse = ({ at, gone, come }: Patch): Patch => ({ at, gone: come, come: gone })

export const textAfter = (base: string, acts: readonly Act[]): string =>
  acts.reduce((text, act) => patched(text, act.patch), base)

/** The act that *Undo* would undo; null when all are undone. */
export function undoable(acts: readonly Act[]): Act | null {
  const undone = new Set(acts.flatMap((act) => (act.undoes === undefined ? [] : [act.undoes])))
  return acts.findLast((act) => act.undoes === undefined && !undone.has(act.n)) ?? null
}

/** Do two acts ask for the same place, or for a place within it? */
export function meet(a: readonly DocumentEdit[], b: readonly DocumentEdit[]): boolean {
  return a.some((one) => b.some((two) => within(one.path, two.path) || within(two.path, one.path)))
}

const within = (outer: DocumentEdit['path'], inner: DocumentEdit['path']): boolean =>
  outer.length <= inner.length && outer.every((step, i) => step === inner[i])
