import type { BoxBody } from '../box/index.ts'
import type { YardFacts } from '../job/index.ts'
import { type Step, source } from '../kernel/index.ts'
import type { BuildRules } from '../rules/index.ts'
import { combination } from './combination.ts'
import type { AnchorPlan, WindEnd } from './result.ts'
import { amount, figure, line } from './shelf.ts'
import { anchorTensionN, broadside, roofSuction } from './wind.ts'

/** What a told wind pressure may mean as a velocity pressure at the ultimate level: both ends, every reading that nobody ruled out. */
export function windReadingsPa(
  wind: YardFacts['wind'],
  ultimateOverService: number,
): { readonly low: number; readonly high: number } | null {
  const { pressurePa: told } = wind
  if (told === null) return null
  const coefficients =
    wind.coefficientRatio === null ? [amount('told-coefficient-low'), amount('told-coefficient-high')] : [wind.coefficientRatio]
  const velocities = [
    ...(wind.pressureIs === 'net pressure' ? [] : [told]),
    ...(wind.pressureIs === 'velocity pressure' ? [] : coefficients.map((c) => told / c)),
  ]
  const all = velocities.flatMap((q) => [
    ...(wind.level === 'service' ? [] : [q]),
    ...(wind.level === 'ultimate' ? [] : [q * ultimateOverService]),
  ])
  return { low: Math.min(...all), high: Math.max(...all) }
}

export interface WindTask {
  readonly yard: YardFacts
  readonly by: BuildRules['windBy']
  readonly body: BoxBody
  /** Lightest the box may be, and how far its centre may lie off the middle, across. */
  readonly lightKg: number
  readonly offYMm: number
  /** Pads may be icy: the low friction counts at the unfavourable end. */
  readonly icy: boolean
}

/**
 * Wind on the long side of the standing box, at both ends of what the told figure may mean, in the combination of the standard.
 * Snow on the roof is no help: it is never counted against sliding. Null: no pressure was told.
 */
export function windOnBox(
  task: WindTask,
): { readonly low: WindEnd; readonly high: WindEnd; readonly steps: readonly Step[] } | null {
  const mix = combination(task.by)
  const read = windReadingsPa(task.yard.wind, mix.ultimateOverService)
  if (read === null) return null
  const low = windEnd(task, read.low, amount('friction-dry'))
  const high = windEnd(task, read.high, amount(task.icy ? 'friction-ice' : 'friction-dry'))
  const told = task.yard.wind.pressurePa ?? 0
  return {
    low,
    high,
    steps: [
      line('p', 'as told', [], told, 'Pa', source('the job document', 'told')),
      line(
        'q low',
        'least of p or p/c, at the ultimate level as told or not',
        [
          ['c', task.yard.wind.coefficientRatio ?? '1.0 to 1.3', ''],
          ['ultimate/service', mix.ultimateOverService, ''],
        ],
        read.low,
        'Pa',
        mix.rests,
      ),
      line('q high', 'greatest of the same', [], read.high, 'Pa', mix.rests),
      ...endSteps(task, low, 'low'),
      ...endSteps(task, high, 'high'),
    ],
  }
}

const suctionBy = (by: BuildRules['windBy']): 'ASCE' | 'EN' => (by === 'EN 1991-1-4' ? 'EN' : 'ASCE')

const sizesM = (body: BoxBody) => {
  const [l, b, h] = body.outsideMm
  return { lengthM: l / 1000, widthM: b / 1000, heightM: h / 1000 }
}

function windEnd(task: WindTask, velocityPa: number, friction: number): WindEnd {
  const mix = combination(task.by)
  const size = sizesM(task.body)
  const { forceN, momentNm } = broadside({ velocityPa, netRatio: amount('net-coefficient'), ...size })
  const roof = roofSuction({ by: suctionBy(task.by), ...size })
  const upliftN = velocityPa * roof.meanRatio * size.lengthM * size.widthM
  const weightN = task.lightKg * amount('gravity')
  return {
    velocityPa,
    forceN,
    upliftN,
    slideN: mix.wind * forceN,
    gripN: friction * Math.max(0, mix.dead * weightN - mix.wind * upliftN),
    overturnNm: mix.wind * (momentNm + upliftN * roof.armM),
    rightNm: mix.dead * weightN * (size.widthM / 2 - task.offYMm / 1000),
  }
}

function endSteps(task: WindTask, end: WindEnd, name: 'low' | 'high'): readonly Step[] {
  const size = sizesM(task.body)
  const mix = combination(task.by)
  const net = figure('net-coefficient')
  const roof = roofSuction({ by: suctionBy(task.by), ...size })
  const friction = figure(name === 'high' && task.icy ? 'friction-ice' : 'friction-dry')
  const weightN = task.lightKg * amount('gravity')
  return [
    line(
      `F ${name}`,
      'q·c·L·h',
      [
        ['q', end.velocityPa, 'Pa'],
        ['c', net.value, ''],
        ['L', size.lengthM, 'm'],
        ['h', size.heightM, 'm'],
      ],
      end.forceN,
      'N',
      net.rests,
    ),
    line(
      `U ${name}`,
      'q·c_roof·L·b',
      [
        ['c_roof', roof.meanRatio, ''],
        ['b', size.widthM, 'm'],
      ],
      end.upliftN,
      'N',
      source(`${task.by}, suction of a flat roof`, 'memory'),
    ),
    line(`S ${name}`, 'share·F', [['share', mix.wind, '']], end.slideN, 'N', mix.rests),
    line(
      `R ${name}`,
      'µ·(dead·W − share·U), not below 0',
      [
        ['µ', friction.value, ''],
        ['dead', mix.dead, ''],
        ['W', weightN, 'N'],
        ['share', mix.wind, ''],
        ['U', end.upliftN, 'N'],
      ],
      end.gripN,
      'N',
      friction.rests,
    ),
    line(
      `Mo ${name}`,
      'share·(F·h/2 + U·a)',
      [
        ['share', mix.wind, ''],
        ['F', end.forceN, 'N'],
        ['h', size.heightM, 'm'],
        ['U', end.upliftN, 'N'],
        ['a', roof.armM, 'm'],
      ],
      end.overturnNm,
      'Nm',
      mix.rests,
    ),
    line(
      `Mr ${name}`,
      'dead·W·(b/2 − e)',
      [
        ['dead', mix.dead, ''],
        ['W', weightN, 'N'],
        ['b', size.widthM, 'm'],
        ['e', task.offYMm / 1000, 'm'],
      ],
      end.rightNm,
      'Nm',
      mix.rests,
    ),
  ]
}

/**
 * What four or more anchors at the bottom fittings must hold at the unfavourable end: the whole wind in shear with no friction counted,
 * and the overturning that the counted share of the weight does not hold, with suction of the roof and an open door.
 */
export function anchorsFor(
  task: WindTask,
  end: WindEnd,
  count: number,
): { readonly plan: Omit<AnchorPlan, 'eachN'>; readonly steps: readonly Step[] } {
  const mix = combination(task.by)
  const size = sizesM(task.body)
  const roof = roofSuction({ by: suctionBy(task.by), ...size })
  const inside = figure('internal-open-door')
  const insideN = end.velocityPa * inside.value * size.lengthM * size.widthM
  const weightN = task.lightKg * amount('gravity')
  const overturnNm = (end.forceN * size.heightM) / 2 + end.upliftN * roof.armM + (insideN * size.widthM) / 2
  const rightNm = weightN * (size.widthM / 2 - task.offYMm / 1000)
  const leverM = task.body.fittings.widthCentresMm / 1000
  const tensionN = anchorTensionN({ overturnNm, rightNm, deadFrac: mix.dead, leverM, windwardCount: count / 2 })
  const shearN = end.forceN / count
  return {
    plan: { count, atMm: anchorPoints(task.body, count), tensionN, shearN },
    steps: [
      line(
        'Mo',
        'F·h/2 + U·a + q·c_i·L·b·b/2, whole wind',
        [
          ['F', end.forceN, 'N'],
          ['U', end.upliftN, 'N'],
          ['a', roof.armM, 'm'],
          ['c_i', inside.value, ''],
        ],
        overturnNm,
        'Nm',
        inside.rests,
      ),
      line(
        'T',
        '(Mo − dead·Mr) / (lever·n/2), not below 0',
        [
          ['dead', mix.dead, ''],
          ['Mr', rightNm, 'Nm'],
          ['lever', leverM, 'm'],
          ['n', count, ''],
        ],
        tensionN,
        'N',
        mix.rests,
      ),
      line(
        'V',
        'F/n, no friction counted',
        [
          ['F', end.forceN, 'N'],
          ['n', count, ''],
        ],
        shearN,
        'N',
      ),
      line('R', '√(T² + V²)', [], Math.hypot(tensionN, shearN), 'N'),
    ],
  }
}

/** Anchors at the bottom fittings, the rest evenly along both long sides. */
function anchorPoints(body: BoxBody, count: number): AnchorPlan['atMm'] {
  const [l, b] = body.outsideMm
  const { lengthCentresMm: s, widthCentresMm: p } = body.fittings
  const perSide = Math.max(2, Math.round(count / 2))
  return [(b - p) / 2, (b + p) / 2].flatMap((y) =>
    Array.from({ length: perSide }, (_, i) => [(l - s) / 2 + (s * i) / (perSide - 1), y, 0] as const),
  )
}
