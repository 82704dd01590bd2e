import type { HaulDesign, LiftMethod } from '../job/index.ts'
import {
  atan,
  judgeEnds,
  judgeLower,
  judgeUpper,
  type Mend,
  put,
  type Step,
  source,
  type Verdict,
  worst,
} from '../kernel/index.ts'
import { CAUTION, kg, kN, type Noted, noted, putKN, shown, WHO } from './finding.ts'
import { forkPlan, tiltPlan } from './handling.ts'
import { voiding } from './mass-findings.ts'
import type { ForkPlan, SlingPlan, TiltPlan } from './result.ts'
import { fourOf, lengthM, type Setting } from './setting.ts'
import { degOf, figure, line, sourceOf } from './shelf.ts'
import { allowedFor, METHODS, methodsSaid } from './site.ts'
import { isSlung, slingPlan } from './sling-plan.ts'
import { diagonalShareFrac, methodRow } from './slings.ts'

export interface Lifting {
  readonly noted: readonly Noted[]
  readonly slings: SlingPlan | null
  readonly forks: ForkPlan | null
  readonly tilt: TiltPlan | null
}

const FORKS: readonly LiftMethod[] = ['forks, wide pockets', 'forks, narrow pockets']

/** How it is lifted on and set down: the method by the matrix, then what each method asks for. */
export function liftFindings(setting: Setting, design: HaulDesign): Lifting {
  const used = [...new Set([design.lift, design.unload])]
  const slung = used.filter(isSlung)
  const forked = used.filter((method) => FORKS.includes(method))
  const slings = slung.map((method) => ({ method, plan: slingPlan(setting, method, design.slingAngleDeg) }))
  const forks = forked.length > 0 ? forkPlan(setting) : null
  const tilt = used.includes('tilt-bed') ? tiltPlan(setting) : null
  return {
    noted: [
      ...used.map((method) => methodFinding(setting, design, method)),
      ...slings.flatMap(({ method, plan }) => [
        ...(method === 'top spreader, vertical' ? [] : [slingAngle(setting, method, plan)]),
        slingTension(setting, method, plan),
      ]),
      ...(forks === null ? [] : [forkFinding(setting, forks)]),
      ...(tilt === null ? [] : [tiltFinding(setting, tilt), straightRun(setting, tilt)]),
    ],
    slings: slings[0]?.plan.value ?? null,
    forks: forks?.value ?? null,
    tilt: tilt?.value ?? null,
  }
}

/** Other ways of setting down that the matrix allows a box with gear in it, as choices. */
export function otherWays(setting: Setting, but: LiftMethod): readonly Mend[] {
  const { body } = setting
  return METHODS.filter((one) => one !== but && allowedFor(one, lengthM(body), 'packed') === 'allowed')
    .filter((one) => !FORKS.includes(one) || body.pockets?.use === 'loaded or empty')
    .filter((one) => one === 'bottom slings with spreader' || one === 'tilt-bed')
    .map((one) => ({ path: `haul.${body.box}.unload`, value: one, words: `set down by ${one}` }))
}

function methodFinding(setting: Setting, design: HaulDesign, method: LiftMethod): Noted {
  const { body, job, skin } = setting
  const row = methodRow(method, lengthM(body))
  const packed = allowedFor(method, lengthM(body), 'packed')
  const said = methodsSaid(job.yard.access.unload)
  const words: string[] = []
  const verdicts: Verdict[] = [packed === 'allowed' ? 'holds' : packed === 'not allowed' ? 'fails' : 'tight']
  const say = (verdict: Verdict, sentence: string): void => {
    verdicts.push(verdict)
    words.push(sentence)
  }
  if (FORKS.includes(method)) {
    if (body.pockets === null)
      say(
        body.pocketsKnown ? 'fails' : 'unknown',
        body.pocketsKnown ? 'It has no pockets.' : 'Nobody has looked for pockets under it.',
      )
    else if (!body.pocketsKnown) say('unknown', 'Its pockets are taken from a table; look under it and measure.')
    else if (method === 'forks, wide pockets' && body.pockets.use === 'empty only')
      say('fails', 'Its pockets carry it empty only.')
  }
  const onTop = method.startsWith('top') || method === 'side-lift frame'
  const cut = voiding(skin.openings)
  if (onTop && cut.length > 0)
    say(
      'unknown',
      fromAbove(
        setting,
        cut.map((one) => one.id),
      ),
    )
  if (method === design.unload && said.dragged && said.methods.length === 0)
    say(
      'unknown',
      'The site speaks of skids and dragging, which is no way to move a box: the skid under it is pulled, never the box, and whoever builds the skid answers for it.',
    )
  else if (method === design.unload && said.methods.length > 0 && !said.methods.includes(method))
    say('unknown', `The site names another way: “${job.yard.access.unload}”.`)
  else if (method === design.unload && said.methods.length === 0 && job.yard.access.unload !== null)
    say('unknown', `How it is set down is written as “${job.yard.access.unload}”, which names none of the ways known here.`)
  const verdict = worst(verdicts)
  const where = [...(method === design.lift ? ['on'] : []), ...(method === design.unload ? ['off'] : [])].join(' and ')
  const rests = sourceOf('lift-matrix', row, method)
  return noted({
    code: 'haul/method',
    subject: body.box,
    which: where.replaceAll(' ', '-'),
    verdict,
    basis: 'code',
    said: `${cap(method)}, ${where}: ${packed} for a box of this length with gear in it (${String(row.why)}). ${words.join(' ')}`.trim(),
    title: `${cap(method)} for ${body.box}`,
    steps: [
      line('method', `${method}, boxes to ${String(row.to_length)} ft, packed`, [['L', lengthM(body), 'm']], packed, '', rests),
    ],
    decides: WHO.lift,
    caution: method === 'tilt-bed' ? CAUTION.chain : CAUTION.load,
    assumed: job.yard.access.unload === null ? ['facts.site.access.unload'] : [],
    mends: verdict === 'fails' ? otherWays(setting, method) : [],
  })
}

/** A cut box lifted at its top fittings: what each feels, and what an uncut one was proved for. */
function fromAbove(setting: Setting, cuts: readonly string[]): string {
  const cornerN = diagonalShareFrac(fourOf(setting)) * setting.heavyKg * GRAVITY()
  const { rating } = setting.body
  const proved = rating === null ? '' : `; uncut it was proved for ${kN((rating.value * GRAVITY() * PROOF) / 4)} each`
  return `One top fitting takes up to ${kN(cornerN)}${proved}. The walls between top and bottom fittings are cut (${cuts.join(', ')}): whether they still carry it from above, an engineer says.`
}

/** ISO 1496-1: lifted from the top fittings with twice its rating. Provenance: memory */
const PROOF = 2

const cap = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)

type Slung = ReturnType<typeof slingPlan>

function slingAngle(setting: Setting, method: LiftMethod, { value, steps }: Slung): Noted {
  const most = figure('sling-angle-most')
  const verdict = worst([judgeLower(value.angleDeg, value.leastAngleDeg, 0), judgeUpper(value.angleDeg, most.value, 0)])
  const row = methodRow(method, lengthM(setting.body))
  return noted({
    code: 'haul/sling-angle',
    subject: setting.body.box,
    which: method.replace(/[^a-z]+/g, '-'),
    verdict,
    basis: 'code',
    said: `Slings at ${shown(value.angleDeg, '°')} from the horizontal; a box of this length asks for ${shown(value.leastAngleDeg, '°')} at least, and over ${shown(most.value, '°')} is avoided.`,
    title: `Angle of the slings of ${setting.body.box}`,
    steps: [...steps.slice(1, 2), line('α most', 'not steeper', [], most.value, 'deg', most.rests)],
    demand: put('α', value.angleDeg, 'deg'),
    limit: put('α least', value.leastAngleDeg, 'deg'),
    relation: '≥',
    tight: 'none',
    rests: sourceOf('lift-matrix', row, method),
    decides: WHO.lift,
    caution: CAUTION.load,
  })
}

function slingTension(setting: Setting, method: LiftMethod, { value, steps, crossCheck }: Slung): Noted {
  const made = value.chainWllKg !== null && value.shackleWllKg !== null
  const tensionKg = value.tensionN / GRAVITY()
  const gear = made
    ? `chain legs of ${value.chainMm} mm (${kg(value.chainWllKg ?? 0)}) and shackles of ${kg(value.shackleWllKg ?? 0)} are the next that are made`
    : 'no leg or shackle of the tables is that strong'
  return noted({
    code: 'haul/sling-tension',
    subject: setting.body.box,
    which: method.replace(/[^a-z]+/g, '-'),
    verdict: made ? judgeUpper(value.tensionN, (value.chainWllKg ?? 0) * GRAVITY(), 0) : 'fails',
    basis: 'physics',
    said: `${cap(method)}: one leg pulls up to ${kN(value.tensionN)} when a diagonal pair carries all. Every leg and every shackle is marked ${kg(value.legWllKg)} or more; ${gear}. Not the load of a four-leg chart: a steel box is stiff.`,
    title: `Pull in the slings of ${setting.body.box}`,
    steps,
    crossCheck,
    notes: [
      'Angle from the horizontal. The leg is taken at the called angle though the nearer one stands steeper: on the safe side.',
      'The spreader and what hangs above it have ratings of their own.',
    ],
    demand: put('T/g', tensionKg, 'kg'),
    ...(value.chainWllKg === null
      ? {}
      : { limit: put('WLL', value.chainWllKg, 'kg'), rests: source('EN 818-4, table chain-slings', 'memory') }),
    tight: 'none: the reserve is in the leg',
    decides: WHO.lift,
    caution: CAUTION.load,
  })
}

const GRAVITY = (): number => figure('gravity').value

function forkFinding(setting: Setting, { value, steps }: { readonly value: ForkPlan; readonly steps: readonly Step[] }): Noted {
  const travel = figure('fork-offset-share')
  const off = judgeUpper(value.offFrac, travel.value)
  const tips = value.offFrac > 0.5
  return noted({
    code: 'haul/fork',
    subject: setting.body.box,
    verdict: tips || off === 'fails' ? 'fails' : 'unknown',
    basis: 'physics',
    said: tips
      ? 'Its centre lies outside both forks: it tips.'
      : `Taken from the long side its load centre is ${shown(value.loadCentreM, 'm')}: the truck’s plate must show about ${kg(value.ratedKg)} at ${shown(value.ratedCentreM, 'm')}; which truck comes nobody has said. One fork carries up to ${kN(value.nearN)}, the other ${kN(value.farN)}; the centre lies ${shown(value.offFrac * 100, '%')} of the spacing off, ${shown(travel.value * 100, '%')} at most while travelling. Forks nearly as long as the box is wide, level ground.`,
    title: `Forks under ${setting.body.box}`,
    steps,
    demand: put('e/s', value.offFrac, ''),
    limit: put('e/s most', travel.value, ''),
    rests: travel.rests,
    decides: `${WHO.lift}, by the truck’s own plate`,
    caution: CAUTION.load,
  })
}

type Tilted = { readonly value: TiltPlan; readonly steps: readonly Step[] }

function tiltFinding(setting: Setting, { value, steps }: Tilted): Noted {
  const winch = figure('bed-winch')
  const slope = setting.job.yard.ground.slopeFrac
  const grade = figure('way-grade-deg')
  const slopeDeg = slope === null ? null : degOf(atan(slope))
  const level: Verdict = slopeDeg === null ? 'unknown' : judgeUpper(slopeDeg, grade.value)
  return noted({
    code: 'haul/tilt',
    subject: setting.body.box,
    verdict: worst([judgeUpper(value.winchN, winch.value), level]),
    basis: 'physics',
    said: `A bed at ${shown(value.bedDeg, '°')} asks for a pull of ${kN(value.winchN)} up a rough bed, usual winches give ${kN(winch.value)}; on a slick one the box runs off by itself from ${shown(value.slidesAtDeg, '°')}, so a chain holds it all the way. ${slopeDeg === null ? 'The slope of the ground is not known; whoever surveys the place can tell.' : `The ground slopes ${shown(slopeDeg, '°')}, ${shown(grade.value, '°')} at most.`}`,
    title: `${setting.body.box} on a tilted bed`,
    steps: [
      ...steps.slice(0, 3),
      line('F winch', 'usual winch', [], winch.value, 'N', winch.rests),
      line(
        'slope',
        'atan of the slope of the ground',
        [['slope', slope ?? 'not told', '']],
        slopeDeg ?? 'not known',
        slopeDeg === null ? '' : 'deg',
      ),
      line('slope most', 'for setting down', [], grade.value, 'deg', grade.rests),
    ],
    demand: putKN('F pull', value.winchN),
    limit: putKN('F winch', winch.value),
    rests: winch.rests,
    decides: WHO.carrier,
    caution: CAUTION.chain,
  })
}

function straightRun(setting: Setting, { value, steps }: Tilted): Noted {
  const told = setting.job.yard.access.straightRunM
  const { low, high } = value.straightRunM
  const verdict = told === null ? 'unknown' : judgeEnds(judgeLower(told, low), judgeLower(told, high))
  const needed = low === high ? shown(low, 'm') : `${shown(low, 'm')} to ${shown(high, 'm')}, as one asks`
  return noted({
    code: 'haul/straight-run',
    subject: setting.body.box,
    verdict,
    basis: 'house',
    said:
      told === null
        ? `A tilt-bed with this box needs a straight run of ${needed}; nobody has said what there is. Whoever surveys the place can tell.`
        : `There is a straight run of ${shown(told, 'm')}; a tilt-bed with this box needs ${needed}.`,
    title: `Straight run for ${setting.body.box}`,
    steps: [
      ...steps.slice(3),
      line('run there', 'as told', [], told ?? 'not told', told === null ? '' : 'm', source('the job document', 'told')),
    ],
    ...(told === null ? {} : { demand: put('run', told, 'm') }),
    limit: put('run needed', high, 'm'),
    relation: '≥',
    rests: source('trade pages of haulers', 'read'),
    decides: WHO.carrier,
    mends: verdict === 'fails' ? otherWays(setting, 'tilt-bed') : [],
  })
}
