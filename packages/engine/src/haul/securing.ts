import type { HaulDesign } from '../job/index.ts'
import type { Step, Worked } from '../kernel/index.ts'
import { COUNTED, directLashingN, frictionLashings, tiesByLengthCount, tieWllKg } from './lashing.ts'
import type { SecuringPlan } from './result.ts'
import { lengthM, type Setting } from './setting.ts'
import { amount, figure, line, numberIn, rowsOf } from './shelf.ts'
import { corners } from './sling-plan.ts'

const gravity = (): number => amount('gravity')

type Lashing = HaulDesign['lashings'][number]

/** What holds the box on the truck, against what the rule set asks; the worst way for one lashing where it counts each. */
export function securingPlan(setting: Setting, lashings: readonly Lashing[]): Worked<SecuringPlan> {
  const asked = setting.rules.build.securing
  const { forwardG, rearG, sideG, method } = asked.value
  const weightN = setting.heavyKg * gravity()
  const needs = { forwardN: weightN * forwardG, rearN: weightN * rearG, sideN: weightN * sideG }
  const locked = lashings.filter((one) => one.over === 'lock').reduce((sum, one) => sum + one.count, 0) >= 4
  const counted = locked ? null : method === 'EN 12195-1' ? directOrFriction(setting, lashings) : aggregate(setting, lashings)
  const [w, g] = [line('W', 'm·g, heaviest', [['m', setting.heavyKg, 'kg']], weightN, 'N', figure('gravity').rests), asked.rests]
  return {
    value: {
      method: locked ? 'locks' : method,
      ...needs,
      countedN: counted?.countedN ?? null,
      neededN: counted?.neededN ?? null,
      byLengthCount: counted?.byLengthCount ?? null,
      points: corners(setting, 0).map((corner) => ({ what: locked ? 'lock' : 'lashing', atMm: corner.atMm })),
    },
    steps: [
      w,
      line('F forward', 'c·W', [['c', forwardG, '']], needs.forwardN, 'N', g),
      line('F rearward', 'c·W', [['c', rearG, '']], needs.rearN, 'N', g),
      line('F sideways', 'c·W', [['c', sideG, '']], needs.sideN, 'N', g),
      ...(counted?.steps ?? []),
    ],
  }
}

interface Counted {
  readonly countedN: number
  readonly neededN: number
  readonly byLengthCount: number | null
  readonly steps: readonly Step[]
}

function aggregate(setting: Setting, lashings: readonly Lashing[]): Counted {
  const loose = lashings.filter((one): one is Lashing & { readonly over: keyof typeof COUNTED } => one.over !== 'lock')
  const each = loose.map((one) => ({ ...one, wllKg: tieWllKg(one.kind) }))
  const countedKg = each.reduce((sum, one) => sum + one.count * (one.wllKg ?? Number.NaN) * COUNTED[one.over], 0)
  const neededKg = setting.heavyKg / 2
  const byLengthCount = tiesByLengthCount({ lengthM: lengthM(setting.body), massKg: setting.heavyKg, blocked: false })
  const { rests } = setting.rules.build.securing
  return {
    countedN: countedKg * gravity(),
    neededN: neededKg * gravity(),
    byLengthCount,
    steps: [
      ...each.map((one) =>
        line(
          `WLL ${one.kind}`,
          `n·WLL·${COUNTED[one.over]}, ${one.over}`,
          [
            ['n', one.count, ''],
            ['WLL', one.wllKg ?? 'not in the table', 'kg'],
          ],
          one.count * (one.wllKg ?? Number.NaN) * COUNTED[one.over],
          'kg',
          rests,
        ),
      ),
      line('WLL needed', 'm/2', [['m', setting.heavyKg, 'kg']], neededKg, 'kg', rests),
      line(
        'n by length',
        '2 to 10 ft, one more a 10 ft or part, not blocked',
        [['L', lengthM(setting.body), 'm']],
        byLengthCount,
        '',
        rests,
      ),
    ],
  }
}

/** Worst of the ways the load may go, as a force on one lashing against what one lashing bears. */
function directOrFriction(setting: Setting, lashings: readonly Lashing[]): Counted {
  const { forwardG, rearG, sideG } = setting.rules.build.securing.value
  const friction = figure('deck-friction')
  const rows = rowsOf('lashings-en')
  const massKg = setting.heavyKg
  const steps: Step[] = []
  let worst = { countedN: 0, neededN: 0, ratio: Number.POSITIVE_INFINITY }
  const take = (countedN: number, neededN: number): void => {
    if (Number.isNaN(worst.ratio)) return
    const ratio = neededN > 0 ? countedN / neededN : Number.MAX_VALUE
    if (!(ratio >= worst.ratio)) worst = { countedN, neededN, ratio }
  }
  for (const lashing of lashings) {
    const row = rows.find((one) => one.kind === lashing.kind)
    if (row === undefined) {
      take(Number.NaN, 1)
      continue
    }
    for (const [way, c, safety] of [
      ['forward', forwardG, amount('friction-safety-front')],
      ['rearward', rearG, amount('friction-safety-side')],
      ['sideways', sideG, amount('friction-safety-side')],
    ] as const) {
      const task = { massKg, c, cz: 1, friction: friction.value, gravity: gravity() }
      if (lashing.over === 'deck to cargo') {
        const neededN = directLashingN({
          ...task,
          frictionShare: amount('direct-friction-share'),
          alphaDeg: amount('lashing-angle'),
          betaDeg: amount('lashing-along'),
          pulling: lashing.count / 2,
        })
        take(numberIn(row, 'capacity'), neededN)
        steps.push(
          line(
            `F ${way}`,
            'm·g·(c − µ·fµ)/(n/2·(cos α·cos β + µ·fµ·sin α))',
            [
              ['c', c, ''],
              ['µ', friction.value, ''],
              ['n', lashing.count, ''],
              ['α', amount('lashing-angle'), 'deg'],
              ['β', amount('lashing-along'), 'deg'],
            ],
            neededN,
            'N',
            friction.rests,
          ),
        )
      } else if (typeof row.tension === 'number') {
        const n = frictionLashings({ ...task, angleDeg: amount('strap-angle'), tensionN: row.tension, safety })
        take(lashing.count * row.tension, n * row.tension)
        steps.push(
          line(
            `n ${way}`,
            '(c − µ)·m·g·fs/(2·µ·sin α·F_T)',
            [
              ['c', c, ''],
              ['µ', friction.value, ''],
              ['fs', safety, ''],
              ['α', amount('strap-angle'), 'deg'],
              ['F_T', row.tension, 'N'],
            ],
            n,
            '',
            friction.rests,
          ),
        )
      } else take(Number.NaN, 1)
    }
  }
  return { countedN: worst.countedN, neededN: worst.neededN, byLengthCount: null, steps }
}
