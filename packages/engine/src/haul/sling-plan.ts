import type { LiftMethod, PointMm } from '../job/index.ts'
import { Fault, type Step, tan, type Worked } from '../kernel/index.ts'
import type { Leg, SlingPlan } from './result.ts'
import { fourOf, heightM, lengthM, type Setting } from './setting.ts'
import { amount, figure, line, radOf, rowOf, sourceOf } from './shelf.ts'
import {
  diagonalShareFrac,
  evenCornerShareFrac,
  leastAngleDeg,
  legTension,
  meanLegDeg,
  nextWll,
  setWll,
  stiffSetWll,
} from './slings.ts'
import { type Place, worstOfFourN } from './statics.ts'

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
  const upMm = way === 'top, upright' || !usable ? UPRIGHT_MM : run * tan(radOf(Math.min(angleDeg, STEEPEST_DEG)))
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
  const hookMm: PointMm = [centre[0], centre[1], way === 'top, inclined' ? apexZ : apexZ + (b / 2) * tan(radOf(SPREADER_DEG))]
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
      ...setLines(chain?.wllKg ?? null, angleDeg),
    ],
  }
}

/** What the chosen legs lift as a set: by the chart of four legs, and as two on a stiff load. */
function setLines(legWll: number | null, angleDeg: number): readonly Step[] {
  const fromVerticalDeg = 90 - angleDeg
  if (legWll === null || fromVerticalDeg > 60) return []
  const row = rowOf('sling-legs', { legs: 4 })
  return [
    line(
      'set, chart of four',
      'WLL·factor: not for a steel box',
      [
        ['WLL', legWll, 'kg'],
        ['β from the vertical', fromVerticalDeg, 'deg'],
      ],
      setWll({ legs: 4, legWll, fromVerticalDeg }),
      'kg',
      sourceOf('sling-legs', row, 'four legs'),
    ),
    line('set, two on a stiff load', '2·WLL·cos β, centre in the middle', [], stiffSetWll(legWll, fromVerticalDeg), 'kg'),
  ]
}

/** Slings of a spreader that nobody has described are drawn at this angle, and upright legs this long. */
const SPREADER_DEG = 60
const UPRIGHT_MM = 1000
const STEEPEST_DEG = 85
