import type { Worked } from '../kernel/index.ts'
import { forkCapacity, forkSplit } from './forks.ts'
import type { ForkPlan, TiltPlan } from './result.ts'
import { lengthM, type Setting, widthM } from './setting.ts'
import { amount, figure, line } from './shelf.ts'
import { onTiltedBed } from './tilt.ts'

const gravity = (): number => amount('gravity')

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
