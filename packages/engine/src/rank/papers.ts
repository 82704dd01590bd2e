import type { Model } from '../parts/index.ts'
import type { LimitVerdict } from './limits.ts'

/** A code asks other shock protection of what stands for a while. */
export const INSTALLED = ['temporary', 'permanent'] as const

/** Kinds of module that carry current: a label on the whole asks after their marks. */
const LIVE: ReadonlySet<string> = new Set(['board', 'plate'])

/** What a body that labels, or a building office, asks first, as far as the sheets of its modules say it. Nothing here is a permission. */
export function labelOf({ rules, uses }: Model): readonly LimitVerdict[] {
  const live = uses.map((u) => u.module).filter((m) => LIVE.has(m.kind))
  const missing = live.filter((m) => m.marks === null).map((m) => `marks of ${m.id}`)
  const without = live.filter((m) => m.marks !== null && !m.marks.some((one) => one.rules === rules)).map((m) => m.id)
  return [
    {
      name: `${rules}, equipment: every part marked`,
      verdict: without.length > 0 ? 'fails' : missing.length > 0 ? 'unknown' : 'holds',
      codes: without.length > 0 ? without.map((id) => `no mark under ${rules} on ${id}`) : missing,
      ...{ missing, decides: 'the body that labels, on the finished box' },
    },
    {
      ...{ name: `${rules}, building`, verdict: 'unknown', decides: 'the building authority' },
      codes: ['papers'],
      missing: ['structural drawings under a seal', 'approval as a building made in a works'],
    },
  ]
}
