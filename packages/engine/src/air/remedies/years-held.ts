import { source } from '../../kernel/index.ts'
import { line, type Noted, noted } from '../answer/finding.ts'
import type { YearsHeld } from './design-years.ts'

/** Share of made years in which nothing should fail: 27 of 30. House rule. */
const GOAL_FRAC = 0.9

const MADE = source('made years, each taken through at both ends of what nobody measured', 'computed')
const HOUSE = source('house goal: 27 of 30 made years', 'common practice')

/** Years in which the design holds, of those that were run; below the goal it is tight, for a made year that fails is a chance, not a fact. */
export function yearsHeld({ box, yearsCount, design }: YearsHeld): Noted {
  const { heldYearsCount: held, failed } = design
  const goal = Math.ceil(GOAL_FRAC * yearsCount)
  const kinds = [...new Set(failed.flatMap((f) => f.kinds))]
  return noted({
    code: 'air/thirty-years',
    subject: box,
    verdict: held >= goal ? 'holds' : 'tight',
    basis: 'house',
    said: `Nothing of the air fails in ${held} of ${yearsCount} made years; the goal is ${goal}.${kinds.length === 0 ? '' : ` What fails in the others: ${kinds.join(', ')}.`}`,
    title: `Years in which ${box} holds`,
    steps: [
      line('held', 'years in which nothing fails at either end', [], held, '', MADE),
      line(
        'goal',
        'share · years, up to a whole year',
        [
          ['share', GOAL_FRAC, ''],
          ['years', yearsCount, ''],
        ],
        goal,
        '',
        HOUSE,
      ),
    ],
    assumed: [],
    decides: 'the shop, with whoever runs the box',
  })
}

/** Asked, and no year could be made: never taken for one that holds. */
export function yearsNotMade(box: string, lacks: readonly string[]): Noted {
  return noted({
    code: 'air/thirty-years',
    subject: box,
    verdict: 'unknown',
    basis: 'house',
    said: `In how many made years it holds is not known, for no year can be made: ${lacks.join(' ')}`,
    title: `Years in which ${box} holds`,
    steps: [line('held', 'years in which nothing fails at either end', [], 'not known', '', MADE)],
    assumed: [],
    decides: 'the shop, with whoever runs the box',
  })
}
