import { PADS } from '../box/index.ts'
import type { HaulDesign, PointMm } from '../job/index.ts'
import type { Worked } from '../kernel/index.ts'
import { combination } from './combination.ts'
import type { PadPlan } from './result.ts'
import { fourOf, lengthM, type Setting, widthM } from './setting.ts'
import { amount, figure, line } from './shelf.ts'
import { diagonalShareFrac, evenCornerShareFrac } from './slings.ts'
import { roofSnowPa } from './snow-on-roof.ts'
import { type WindTask, windOnBox } from './wind-on-box.ts'

/** Wind on this box as it stands: lightest mass, centre at its worst. */
export function windTask(setting: Setting): WindTask {
  const { yard, site } = setting.job
  const freezes = (site.extremeMinC ?? site.designMinC ?? 0) < 0
  return {
    yard,
    by: setting.rules.build.windBy,
    body: standing(setting),
    lightKg: setting.lightKg,
    offYMm: setting.offYMm,
    icy: freezes || (yard.snow.groundLoadPa ?? 0) > 0,
  }
}

/** The box as the wind meets it: a snow frame makes it higher. */
const standing = ({ body, frame }: Setting): Setting['body'] => {
  const [l, b, h] = body.outsideMm
  return frame === null ? body : { ...body, outsideMm: [l, b, h + frame.overMm] }
}

/** Worst load of one corner: dead with snow or with wind, or a diagonal pair alone when one pad has sunk. */
export function cornerLoadN(setting: Setting): Worked<number> {
  const { body, job, rules } = setting
  const weightN = setting.heavyKg * amount('gravity')
  const four = fourOf(setting)
  const evenN = evenCornerShareFrac(four) * weightN
  const diagonalN = diagonalShareFrac(four) * weightN
  const ground = job.yard.snow.groundLoadPa
  const roofPa = ground === null ? null : roofSnowPa(ground, rules.build.snowBy).high
  const frameN = ((setting.frame?.massKg.high ?? 0) * amount('gravity')) / 4
  const snowN = ((roofPa ?? 0) * lengthM(body) * widthM(body)) / 4
  const wind = windOnBox(windTask(setting))
  const mix = combination(rules.build.windBy)
  const overturnNm = wind === null ? 0 : (wind.high.forceN * standing(setting).outsideMm[2]) / 2000 / mix.ultimateOverService
  const windN = overturnNm / (four.widthM * 2)
  const worstN = Math.max(evenN + snowN + frameN, evenN + windN + frameN, diagonalN + 2 * frameN)
  return {
    value: worstN,
    steps: [
      line('W', 'm·g, heaviest', [['m', setting.heavyKg, 'kg']], weightN, 'N', figure('gravity').rests),
      line(
        'V even',
        '(½ + eₗ/S)(½ + e_b/P)·W',
        [
          ['eₗ', four.offLengthM, 'm'],
          ['S', four.lengthM, 'm'],
          ['e_b', four.offWidthM, 'm'],
          ['P', four.widthM, 'm'],
        ],
        evenN,
        'N',
      ),
      line('V diagonal', '(½ + p/D)·W: one pad has sunk', [], diagonalN, 'N'),
      line(
        'V snow',
        's·L·b/4',
        [
          ['s', roofPa ?? 'not told', 'Pa'],
          ['L', lengthM(body), 'm'],
          ['b', widthM(body), 'm'],
        ],
        snowN,
        'N',
      ),
      line(
        'V wind',
        'F·h/2/(2·P), at the service level',
        [
          ['F', wind?.high.forceN ?? 'not told', 'N'],
          ['ultimate/service', mix.ultimateOverService, ''],
        ],
        windN,
        'N',
        mix.rests,
      ),
      ...(setting.frame === null
        ? []
        : [line('V frame', 'm·g/4 of the snow frame', [['m', setting.frame.massKg.high, 'kg']], frameN, 'N')]),
      line(
        'V',
        setting.frame === null
          ? 'greatest of even with snow, even with wind, diagonal'
          : 'greatest of even with snow, even with wind, diagonal, each with the frame',
        [],
        worstN,
        'N',
      ),
    ],
  }
}

/** Side of a square pad for a corner load on this ground, in whole steps. */
export function padSideMm(loadN: number, bearingPa: number | null): number {
  if (bearingPa === null) return amount('pad-untold')
  const step = amount('pad-step')
  const sideMm = Math.sqrt(loadN / (bearingPa * amount('pad-use'))) * 1000
  return Math.max(amount('pad-least'), Math.ceil(sideMm / step) * step)
}

export function padPlan(setting: Setting, pads: HaulDesign['pads']): Worked<PadPlan> {
  const { body, job } = setting
  const load = cornerLoadN(setting)
  const areaM2 = (pads.lengthMm * pads.widthMm) / 1e6
  const pressurePa = load.value / areaM2
  const { bearingPa, slopeFrac } = job.yard.ground
  const packingMm = slopeFrac === null ? null : slopeFrac * body.outsideMm[0]
  return {
    value: { rectanglesMm: padRectangles(setting, pads), worstN: load.value, pressurePa, limitPa: bearingPa, packingMm },
    steps: [
      ...load.steps,
      line(
        'p',
        'V/(l·w)',
        [
          ['l', pads.lengthMm, 'mm'],
          ['w', pads.widthMm, 'mm'],
        ],
        pressurePa,
        'Pa',
      ),
    ],
  }
}

/** Pads under the four fittings, any more under the bottom rails between them, in pairs. */
function padRectangles(setting: Setting, pads: HaulDesign['pads']): PadPlan['rectanglesMm'] {
  const [l, b] = setting.body.outsideMm
  const { lengthCentresMm: s, widthCentresMm: p } = setting.body.fittings
  const perSide = Math.max(2, Math.ceil(pads.count / 2))
  const heightMm = PADS.leastAirMm
  return [(b - p) / 2, (b + p) / 2].flatMap((y) =>
    Array.from({ length: perSide }, (_, i) => {
      const x = (l - s) / 2 + (s * i) / (perSide - 1)
      const atMm: PointMm = [x - pads.lengthMm / 2, y - pads.widthMm / 2, -heightMm]
      return { atMm, lengthMm: pads.lengthMm, widthMm: pads.widthMm, heightMm }
    }),
  )
}
