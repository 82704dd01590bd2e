import { yearsHeld, yearsNotMade } from '@plugstead/engine/air'
import type { Years } from '../made-years.ts'
import { wrapped } from './wrap.ts'

/** In how many made years each box holds; or that it was not asked, and how to ask. */
export function yearsText(of: Years): string {
  if (of.is !== 'run')
    return wrapped(
      of.is === 'stopped'
        ? 'Made years: stopped before the last of them; nothing is said of them.'
        : 'Made years: not asked. In how many of thirty made years the air holds is said with --years 30.',
    )
  return of.boxes
    .map((one) => {
      const { finding } = 'lacks' in one ? yearsNotMade(one.box, one.lacks) : yearsHeld(one)
      return wrapped(`Made years, ${one.box}: ${finding.verdict}. ${finding.said}`, { hang: 2 })
    })
    .join('\n')
}
