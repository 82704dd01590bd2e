import type { HaulDesign, LiftMethod, PointMm } from '../job/index.ts'
import { Fault, type Step, type Worked } from '../kernel/index.ts'
import { forkCapacity, forkSplit } from './forks.ts'
import { COUNTED, directLashingN, frictionLashings, tiesByLengthCount, tieWllKg } from './lashing.ts'
import type { ForkPlan, Leg, SecuringPlan, SlingPlan, TiltPlan } from './result.ts'
import { fourOf, heightM, lengthM, type Setting, widthM } from './setting.ts'
import { amount, figure, line, numberIn, radOf, rowsOf } from './shelf.ts'
import { diagonalShareFrac, evenCornerShareFrac, leastAngleDeg, legTension, meanLegDeg, nextWll } from './slings.ts'
import { type Place, worstOfFourN } from './statics.ts'
import { onTiltedBed } from './tilt.ts'

const gravity = (): number => amount('gravity')

/** Methods that hang the box on slings, and how their legs run. */
const SLUNG: Readonly<Partial<Record<LiftMethod, 'bottom' | 'top, inclined' | 'top, upright'>>> = {
  'bottom slings with spreader': 'bottom',
  'top slings, inclined': 'top, inclined',
  'top spreader, vertical': 'top, upright',
}

export const isSlung = (method: LiftMethod): boolean => SLUNG[method] !== undefined

/**
 * Angle to call for: not below the least of the method, high enough for the spreader to clear the roof, in whole steps; null where the
 * legs hang upright or none do.
 */
export function calledAngleDeg(setting: Setting, method: LiftMethod): number | null {
  const way = SLUNG[method]
  if (way === undefined || way === 'top, upright') return null
  const { body } = setting
  const least = leastAngleDeg(method, lengthM(body)).value ?? 0
  const half = body.fittings.lengthCentresMm / 2000
  const clear = way === 'bottom' ? meanLegDeg(heightM(body) + amount('sling-over-roof'), half) : 0
  const step = amount('sling-angle-step')
  return Math.ceil((Math.max(least, clear) - ROUNDING) / step) * step
}

/** An angle that is a whole step but for its last bits is that step. */
const ROUNDING = 1e-9

interface Four {
  readonly name: string
  readonly atMm: PointMm
}

/** The four fittings at a height, in one order everywhere: blind left, blind right, door right, door left. */
export function corners(setting: Pick<Setting, 'body'>, zMm: number): readonly [Four, Four, Four, Four] {
  const { outsideMm, fittings } = setting.body
  const [x0, y0] = [(outsideMm[0] - fittings.lengthCentresMm) / 2, (outsideMm[1] - fittings.widthCentresMm) / 2]
  const [x1, y1] = [outsideMm[0] - x0, outsideMm[1] - y0]
  return [
    { name: 'blind left', atMm: [x0, y0, zMm] },
    { name: 'blind right', atMm: [x0, y1, zMm] },
    { name: 'door right', atMm: [x1, y1, zMm] },
    { name: 'door left', atMm: [x1, y0, zMm] },
  ]
}

/**
 * Pull in the worst leg and what the gear must be marked with: heaviest mass, centre at its worst, one diagonal pair carrying all, at the
 * called angle. Exact statics with one leg slack stands beside it and is never more.
 * @throws Fault `haul/not-slung`
 */
export function slingPlan(
  setting: Setting,
  method: LiftMethod,
  angle: number | null,
): Worked<SlingPlan> & { readonly crossCheck: readonly Step[] } {
  const way = SLUNG[method]
  if (way === undefined) throw new Fault('haul/not-slung', method)
  const { body } = setting
  const [l, b, h] = body.outsideMm
  const { lengthCentresMm: s, widthCentresMm: p } = body.fittings
  const four = fourOf(setting)
  const weightN = setting.heavyKg * gravity()
  const angleDeg = way === 'top, upright' ? 90 : (angle ?? 0)
  const least = leastAngleDeg(method, lengthM(body))
  const shareFrac = diagonalShareFrac(four)
  const usable = angleDeg > 0 && angleDeg <= 90
  const tensionN = usable ? legTension(weightN * shareFrac, angleDeg) : Number.POSITIVE_INFINITY
  const reserve = amount('rigging-reserve')
  const legWllKg = tensionN / gravity() / (1 - reserve)
  const chain = nextWll('chain-slings', legWllKg)
  const shackle = nextWll('shackles', legWllKg)
  const centre = (setting.corded ?? setting.fitted).value.centreMm
  const off = amount('sling-off-face')
  const fittings = corners(setting, way === 'bottom' ? 0 : h)
  const run = way === 'bottom' ? s / 2 : Math.hypot(s, p) / 2
  const upMm = way === 'top, upright' || !usable ? UPRIGHT_MM : run * Math.tan(radOf(Math.min(angleDeg, STEEPEST_DEG)))
  const apexZ = (way === 'bottom' ? 0 : h) + upMm
  const spreaderMm: SlingPlan['spreaderMm'] =
    way === 'bottom'
      ? [
          [centre[0], -off, apexZ],
          [centre[0], b + off, apexZ],
        ]
      : null
  const top = (corner: Four): PointMm => {
    if (way === 'bottom') return [centre[0], corner.name.endsWith('left') ? -off : b + off, apexZ]
    return way === 'top, upright' ? [corner.atMm[0], corner.atMm[1], apexZ] : [centre[0], centre[1], apexZ]
  }
  const legs: readonly Leg[] = fittings.map((corner) => ({
    corner: corner.name,
    fromMm: way === 'bottom' ? [corner.atMm[0], corner.name.endsWith('left') ? -off : b + off, 0] : corner.atMm,
    toMm: top(corner),
  }))
  const hookMm: PointMm = [
    centre[0],
    centre[1],
    way === 'top, inclined' ? apexZ : apexZ + (b / 2) * Math.tan(radOf(SPREADER_DEG)),
  ]
  const places = fittings.map((corner) => [corner.atMm[0] / 1000, corner.atMm[1] / 1000] as Place) as unknown as readonly [
    Place,
    Place,
    Place,
    Place,
  ]
  const exactN = worstOfFourN(places, [l / 2000 + four.offLengthM, b / 2000 + four.offWidthM], weightN)
  return {
    value: {
      legs,
      hookMm,
      spreaderMm,
      angleDeg,
      leastAngleDeg: least.value ?? angleDeg,
      shareFrac,
      tensionN,
      legWllKg,
      chainMm: chain?.sizeMm ?? null,
      chainWllKg: chain?.wllKg ?? null,
      shackleWllKg: shackle?.wllKg ?? null,
    },
    steps: [
      line(
        'W',
        'm·g, heaviest',
        [
          ['m', setting.heavyKg, 'kg'],
          ['g', gravity(), 'm/s2'],
        ],
        weightN,
        'N',
        figure('gravity').rests,
      ),
      ...least.steps,
      line(
        'p',
        '(eₗ·S + e_b·P)/D',
        [
          ['eₗ', four.offLengthM, 'm'],
          ['S', four.lengthM, 'm'],
          ['e_b', four.offWidthM, 'm'],
          ['P', four.widthM, 'm'],
          ['D', Math.hypot(four.lengthM, four.widthM), 'm'],
        ],
        (shareFrac - 0.5) * Math.hypot(four.lengthM, four.widthM),
        'm',
      ),
      line('share', '½ + p/D: one diagonal pair carries all, a steel box is stiff', [], shareFrac, ''),
      line('T', 'share·W/sin α, α from the horizontal', [['α', angleDeg, 'deg']], tensionN, 'N'),
      line(
        'WLL',
        'T/g/(1 − reserve), each leg and shackle',
        [['reserve', reserve, '']],
        legWllKg,
        'kg',
        figure('rigging-reserve').rests,
      ),
    ],
    crossCheck: [
      line('V even', 'greatest corner where all legs stretch alike', [], evenCornerShareFrac(four) * weightN, 'N'),
      line('V exact', 'greatest corner with one leg slack, three carry all', [], exactN, 'N'),
      line('V diagonal', 'share·W, never less than the exact one', [], shareFrac * weightN, 'N'),
    ],
  }
}

/** Slings of a spreader that nobody has described are drawn at this angle, and upright legs this long. */
const SPREADER_DEG = 60
const UPRIGHT_MM = 1000
const STEEPEST_DEG = 85

/** Fork truck that takes the box from its long side: what its plate must show, and how its forks share. Null without pockets. */
export function forkPlan(setting: Setting): Worked<ForkPlan> | null {
  const { pockets } = setting.body
  if (pockets === null) return null
  const spacingM = pockets.spacingMm.value / 1000
  const offM = setting.offXMm / 1000
  const loadCentreM = widthM(setting.body) / 2 + setting.offYMm / 1000
  const ratedCentreM = amount('fork-rated-centre')
  const ratedKg = setting.heavyKg / forkCapacity({ rated: 1, ratedCentreM, actualCentreM: loadCentreM })
  const split = forkSplit({ load: setting.heavyKg * gravity(), spacingM, offM })
  return {
    value: { loadCentreM, ratedKg, ratedCentreM, nearN: split.near, farN: split.far, offFrac: offM / spacingM },
    steps: [
      line(
        'lc',
        'b/2 + e across',
        [
          ['b', widthM(setting.body), 'm'],
          ['e', setting.offYMm / 1000, 'm'],
        ],
        loadCentreM,
        'm',
      ),
      line(
        'm rated',
        'm·lc/lc rated: estimate, the truck’s plate governs',
        [
          ['m', setting.heavyKg, 'kg'],
          ['lc rated', ratedCentreM, 'm'],
        ],
        ratedKg,
        'kg',
        figure('fork-rated-centre').rests,
      ),
      line(
        'near',
        'W(½ + e/s)',
        [
          ['e', offM, 'm'],
          ['s', spacingM, 'm'],
        ],
        split.near,
        'N',
        pockets.spacingMm.rests,
      ),
      line('far', 'W(½ − e/s)', [], split.far, 'N'),
      line('e most', '0.1·s while travelling', [], split.travelOffM, 'm', figure('fork-offset-share').rests),
    ],
  }
}

/** What a tilt-bed asks for: pull of its winch, hold on the slope, straight run. */
export function tiltPlan(setting: Setting): Worked<TiltPlan> {
  const bed = figure('bed-angle')
  const weightN = setting.heavyKg * gravity()
  const rough = onTiltedBed({ weightN, bedDeg: bed.value, friction: amount('bed-friction-high') })
  const slick = onTiltedBed({ weightN, bedDeg: bed.value, friction: amount('bed-friction-low') })
  const long = lengthM(setting.body) > TWENTY_M
  const ends = [figure(long ? 'run-40-low' : 'run-20-low'), figure(long ? 'run-40-high' : 'run-20-high')] as const
  return {
    value: {
      bedDeg: bed.value,
      winchN: rough.pullN,
      slidesAtDeg: slick.slidesAtDeg,
      straightRunM: { low: ends[0].value, high: ends[1].value, basis: ends[0].rests.place, told: false },
    },
    steps: [
      line(
        'F pull',
        'W(sin θ + µ·cos θ), rough bed',
        [
          ['W', weightN, 'N'],
          ['θ', bed.value, 'deg'],
          ['µ', amount('bed-friction-high'), ''],
        ],
        rough.pullN,
        'N',
        bed.rests,
      ),
      line(
        'θ slides',
        'atan µ, slick bed',
        [['µ', amount('bed-friction-low'), '']],
        slick.slidesAtDeg,
        'deg',
        figure('bed-friction-low').rests,
      ),
      line('F hold', 'W(sin θ − µ·cos θ), slick bed: what the chain holds', [], slick.holdN, 'N'),
      line('run', 'straight run, shortest source', [], ends[0].value, 'm', ends[0].rests),
      line('run', 'straight run, longest source', [], ends[1].value, 'm', ends[1].rests),
    ],
  }
}

/** A 20 ft box with its tolerance. */
const TWENTY_M = 6.1

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
