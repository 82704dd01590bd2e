import type { HaulDesign, Opening } from '../job/index.ts'
import { judgeEnds, judgeUpper, put, source, type Verdict } from '../kernel/index.ts'
import { CAUTION, kg, type Noted, noted, shown, WHO } from './finding.ts'
import { lengthM, type Setting, scaleDiffers } from './setting.ts'
import { amount, figure, line } from './shelf.ts'
import { isSlung } from './sling-plan.ts'

/** What it weighs, where its middle is, and what its plate says to that. */
export function massFindings(setting: Setting, design: HaulDesign): readonly Noted[] {
  return [mass(setting), centre(setting), rating(setting, design), plate(setting, design)]
}

/** Least and greatest sum stand first in the lines of a centre. */
const MASS_LINES = 2

const band = (of: { readonly low: number; readonly high: number }): string =>
  of.low === of.high ? kg(of.low) : `${kg(of.low)} to ${kg(of.high)}`

function mass(setting: Setting): Noted {
  const { body, empty, fitted, corded } = setting
  const differs = scaleDiffers(setting)
  const cords = corded === null ? '' : `, ${band(corded.value.massKg)} with its cords in it`
  const scale = setting.weighedKg
  return noted({
    code: 'haul/mass',
    subject: body.box,
    verdict: differs ? 'unknown' : 'holds',
    basis: 'physics',
    said: differs
      ? `The scale says ${kg(scale ?? 0)}; what is built in adds up to something else. One of the two is wrong: weigh it again. Until then ${band(fitted.value.massKg)} counts, the heavier end when it is lifted.`
      : `Bare ${band(empty.value.massKg)}, as fitted ${band(fitted.value.massKg)}${cords}. ${scale === null ? 'Weigh it before it travels, and write mass and middle on the door.' : 'The scale has the last word.'}`,
    title: `Mass and middle of ${body.box} as fitted`,
    steps: (corded ?? fitted).steps.slice(0, MASS_LINES),
    demand: put('m', setting.heavyKg, 'kg'),
    ...(differs ? { decides: WHO.lift } : {}),
    assumed: body.assumed.filter((one) => /tare|mass|weigh/.test(one.path)).map((one) => one.path),
  })
}

function centre(setting: Setting): Noted {
  const { body, offXMm, fitted, corded } = setting
  const share = figure('centre-share')
  const limitMm = share.value * body.outsideMm[0]
  const { lowMm, highMm, centreMm } = (corded ?? fitted).value
  const half = body.outsideMm[0] / 2
  const leastMm = lowMm[0] <= half && highMm[0] >= half ? 0 : Math.min(Math.abs(lowMm[0] - half), Math.abs(highMm[0] - half))
  const stowed =
    corded === null
      ? ''
      : ` Cords are stowed within ${shown(amount('cords-stowed') * (body.insideMm[0] / 1000), 'm')} of the middle.`
  const toward = centreMm[0] > half ? 'door end' : 'blind end'
  return noted({
    code: 'haul/centre',
    subject: body.box,
    verdict: judgeEnds(judgeUpper(leastMm, limitMm), judgeUpper(offXMm, limitMm)),
    basis: 'house',
    said: `Its centre of gravity lies ${shown(Math.abs(centreMm[0] - half), 'mm')} off the middle toward the ${toward}, between ${shown(lowMm[0], 'mm', 4)} and ${shown(highMm[0], 'mm', 4)} from the blind end, at most ${shown(offXMm, 'mm')} off; ${shown(setting.offYMm, 'mm')} off across, and up to ${shown(setting.highZMm, 'mm', 4)} high.${stowed}`,
    title: `Centre of gravity of ${body.box} against the middle`,
    steps: [
      ...(corded ?? fitted).steps.slice(MASS_LINES),
      line('e most', '5 % of the length', [['L', lengthM(body), 'm']], limitMm / 1000, 'm', share.rests),
    ],
    demand: put('e', offXMm, 'mm'),
    limit: put('e most', limitMm, 'mm'),
    rests: share.rests,
    decides: 'whoever weighs it at both ends',
  })
}

function rating(setting: Setting, design: HaulDesign): Noted {
  const { body, heavyKg } = setting
  const limit = body.rating
  const lifted = isSlung(design.lift) || isSlung(design.unload)
  return noted({
    code: 'haul/rating',
    subject: body.box,
    verdict: limit === null ? 'unknown' : judgeUpper(heavyKg, limit.value),
    basis: 'maker',
    said:
      limit === null
        ? `It weighs up to ${kg(heavyKg)}; what it is rated for nobody knows. A short or cut box inherits no rating: its plate or a lifting test says it.`
        : `It weighs up to ${kg(heavyKg)}; it is rated for ${kg(limit.value)} uncut (${limit.rests.place}).`,
    title: `Mass of ${body.box} against its rating`,
    steps: [line('m', 'heaviest', [], heavyKg, 'kg', source('the items', 'computed'))],
    demand: put('m', heavyKg, 'kg'),
    ...(limit === null ? {} : { limit: put('R', limit.value, 'kg'), rests: limit.rests }),
    decides: WHO.lift,
    ...(lifted ? { caution: CAUTION.load } : {}),
  })
}

/** Openings that end the approval of the box as it was tested. */
export const voiding = (openings: readonly Opening[]): readonly Opening[] =>
  openings.filter((one) => one.class === 'framed' || one.class === 'door')

function plate(setting: Setting, design: HaulDesign): Noted {
  const { body, skin } = setting
  const cut = voiding(skin.openings)
  const told = setting.job.boxes.length === 1 ? (setting.job.builtBody?.transportPlate ?? null) : null
  const bed = design.lift === 'tilt-bed' && design.unload === 'tilt-bed'
  const standing = body.plate === 'valid' && cut.length === 0
  const verdict: Verdict = standing || bed ? 'holds' : 'unknown'
  const why =
    cut.length > 0
      ? `${cut.map((one) => one.id).join(', ')} ${cut.length === 1 ? 'is' : 'are'} cut: the safety approval plate no longer describes this box, and it travels as cargo.`
      : body.plate === 'valid'
        ? 'Its safety approval plate is on and nothing large is cut.'
        : body.plate === 'removed'
          ? 'Its safety approval plate is off: it travels as cargo.'
          : told === null
            ? 'Nobody has said whether its safety approval plate is on and in date.'
            : `Of its safety approval plate is said: “${told}”.`
  return noted({
    code: 'haul/plate',
    subject: body.box,
    verdict,
    basis: 'code',
    said: `${why} ${standing ? '' : bed ? 'It runs on its rails and is not lifted; a later lift asks for an assessment.' : 'A lift asks for an assessment of the cut box.'}`.trim(),
    title: `Approval plate of ${body.box}`,
    steps: [
      line(
        'plate',
        'as surveyed',
        [],
        body.plate,
        '',
        source('the survey of the box', body.plate === 'unknown' ? 'assumed' : 'told'),
      ),
      line(
        'cuts',
        'framed openings and doors',
        cut.map((one) => [one.id, one.widthMm, 'mm'] as const),
        cut.length,
        '',
        source('CSC: approval of the box as tested', 'memory'),
      ),
    ],
    ...(verdict === 'unknown' ? { decides: `${WHO.lift} with ${WHO.engineer}` } : {}),
  })
}
