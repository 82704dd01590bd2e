import { type Finding, type Put, put, type QuestionId, source, step, type Verdict, type Working } from '../kernel/index.ts'
import { AIR_CHOICES, airPinsOf } from './air-pins.ts'
import { EFFICIENCY_RANGE } from './bounds.ts'
import { EXIT_WAYS } from './build.ts'
import { FED_FROM_PATH, pinnedFeeders } from './feeders.ts'
import { readStrips } from './lights.ts'
import { nearest } from './problems.ts'
import { rangeCount } from './tags.ts'
import { windowH } from './times.ts'
import type { Job, Pin, Plug } from './types.ts'

/** More than this between two figures for one thing, and one of them is wrong. @source Acceptance of a machine list: common practice */
const AGREE_FRAC = 0.05
/** Clock times are written to the minute. */
const MINUTE_H = 1 / 60

interface Noted {
  readonly finding: Finding
  readonly working?: Working
}

/** What can be read but does not hold together, and what is missing without a default. Findings only; `consistency` gives their workings too. */
export const consistencyFindings = (job: Job): readonly Finding[] => consistency(job).findings

/** Findings on the document itself, with the derivation of each that holds numbers. Rows are judged once, not once for each plug. */
export function consistency(job: Job): { readonly findings: readonly Finding[]; readonly workings: readonly Working[] } {
  const rows = [...new Map(job.plugs.map((p) => [p.row, p])).values()]
  const all = [
    ...missing(job),
    ...rows.flatMap((p) => [
      ...currentAgainstPower(p),
      ...shaftAgainstInput(p),
      ...elementAgainstPower(p),
      ...windowAgainstHours(p),
      ...countAgainstTag(p, job),
    ]),
    ...sharedPlugs(job),
    ...phasesAndBoxes(job),
    ...unknownPins(job),
  ]
  return { findings: all.map((n) => n.finding), workings: all.flatMap((n) => (n.working === undefined ? [] : [n.working])) }
}

interface Said {
  readonly code: string
  readonly subject: string
  readonly verdict: Verdict
  readonly said: string
  readonly question?: QuestionId
  readonly demand?: Put
  readonly limit?: Put
  readonly working?: Working
  readonly basis?: Finding['basis']
}

function noted(of: Said): Noted {
  const finding: Finding = {
    code: of.code,
    question: of.question ?? 'needs',
    subject: of.subject,
    verdict: of.verdict,
    basis: of.basis ?? 'physics',
    said: of.said,
    ...(of.demand === undefined ? {} : { demand: of.demand }),
    ...(of.limit === undefined ? {} : { limit: of.limit }),
    provenance: 'told',
    assumed: [],
    workings: of.working === undefined ? [] : [of.working.id],
    mends: [],
  }
  return of.working === undefined ? { finding } : { finding, working: of.working }
}

const MISSING: Readonly<Partial<Record<string, string>>> = {
  needs: 'needs/missing',
  supply: 'supply/missing',
  circuits: 'circuits/missing',
  reach: 'reach/missing',
  faults: 'faults/missing',
}

/** `question/missing`, one for each question that cannot answer. */
function missing(job: Job): readonly Noted[] {
  return (job.missing ?? []).flatMap((m) =>
    m.questions.map((question) =>
      noted({
        code: MISSING[question] ?? `${question}/missing`,
        question,
        subject: m.subject,
        verdict: 'unknown',
        said: `${m.said} It would stand at “${m.path}”.`,
      }),
    ),
  )
}

const n = (value: number, digits = 4): string => String(Number(value.toPrecision(digits)))

/**
 * Watts against V·A·pf·k, k = √3 in three phases; an absent power factor is taken at both ends of its range, so only what no power factor
 * of its kind explains is said. Unknown: one of the figures is wrong, and the document does not say which.
 */
function currentAgainstPower(p: Plug): readonly Noted[] {
  if (!p.currentTold) return []
  const k = p.phases === 3 ? Math.sqrt(3) : 1
  const kva = p.voltageV * p.currentA * k
  const low = kva * p.powerFactorFrac.low
  const high = kva * p.powerFactorFrac.high
  const off = p.powerW > high ? p.powerW / high - 1 : p.powerW < low ? 1 - p.powerW / low : 0
  if (off <= AGREE_FRAC) return []
  const symbol = p.phases === 3 ? '√3·V·I·pf' : 'V·I·pf'
  const ends = low === high ? `${n(low)} W` : `${n(low)} to ${n(high)} W`
  const working: Working = {
    id: `${p.row}/plate`,
    title: `Watts of ${p.row} against volts, amperes and power factor`,
    steps: [
      step(
        'P',
        symbol,
        [
          put('V', p.voltageV, 'V'),
          put('I', p.currentA, 'A'),
          put('pf', low === high ? p.powerFactorFrac.low : `${p.powerFactorFrac.low} to ${p.powerFactorFrac.high}`),
        ],
        ends,
        '',
        source('power of a single- or three-phase load', 'computed'),
      ),
      step(
        'off',
        '|P written − P| / P',
        [put('P written', n(p.powerW), 'W')],
        n(off * 100, 3),
        '%',
        source('the job document', 'told'),
      ),
    ],
  }
  return [
    noted({
      code: 'needs/plate-mismatch',
      subject: p.row,
      verdict: 'unknown',
      working,
      said: `${p.row} is written with ${n(p.powerW)} W, but its ${n(p.voltageV)} V and ${n(p.currentA)} A make ${ends}: ${n(off * 100, 2)} % apart.`,
      demand: put('difference', Number(n(off * 100, 3)), '%'),
      limit: put('agreement', AGREE_FRAC * 100, '%'),
    }),
  ]
}

/** Shaft power over efficiency against the input; an absent efficiency is taken anywhere in `EFFICIENCY_RANGE`. */
function shaftAgainstInput(p: Plug): readonly Noted[] {
  const shaftW = p.motor?.shaftW
  if (shaftW === undefined || p.powerTold !== true) return []
  const [low, high] = p.motor?.efficiencyFrac === undefined ? EFFICIENCY_RANGE : [p.motor.efficiencyFrac, p.motor.efficiencyFrac]
  const least = shaftW / high
  const most = shaftW / low
  const off = p.powerW < least ? 1 - p.powerW / least : p.powerW > most ? p.powerW / most - 1 : 0
  if (off <= AGREE_FRAC) return []
  const working: Working = {
    id: `${p.row}/shaft`,
    title: `Input of ${p.row} against its shaft power`,
    steps: [
      step(
        'P',
        'P shaft / η',
        [put('P shaft', n(shaftW), 'W'), put('η', low === high ? low : `${low} to ${high}`)],
        `${n(least)} to ${n(most)}`,
        'W',
        source('definition of efficiency; range: common practice', 'common practice'),
      ),
    ],
  }
  return [
    noted({
      code: 'needs/shaft-mismatch',
      subject: p.row,
      verdict: 'unknown',
      working,
      said: `${p.row} takes ${n(p.powerW)} W, but a shaft power of ${n(shaftW)} W asks for ${n(least)} to ${n(most)} W.`,
      demand: put('P', p.powerW, 'W'),
      limit: put('P by shaft', Number(n(p.powerW < least ? least : most)), 'W'),
    }),
  ]
}

/** Watts written against what the element’s own plate gives at the voltage it is fed: P0·(V/V0)². */
function elementAgainstPower(p: Plug): readonly Noted[] {
  if (p.rated === undefined || p.powerTold !== true) return []
  const givenW = p.rated.powerW * (p.voltageV / p.rated.voltageV) ** 2
  const off = Math.abs(p.powerW / givenW - 1)
  if (off <= AGREE_FRAC) return []
  const working: Working = {
    id: `${p.row}/element`,
    title: `Element of ${p.row} at the voltage it is fed`,
    steps: [
      step(
        'P',
        'P0·(V/V0)²',
        [put('P0', p.rated.powerW, 'W'), put('V', p.voltageV, 'V'), put('V0', p.rated.voltageV, 'V')],
        n(givenW),
        'W',
        source('Ohm’s law', 'computed'),
      ),
    ],
  }
  return [
    noted({
      code: 'needs/element-mismatch',
      subject: p.row,
      verdict: 'unknown',
      working,
      said: `${p.row} is written with ${n(p.powerW)} W, but its element of ${n(p.rated.powerW)} W at ${n(p.rated.voltageV)} V gives ${n(givenW)} W at ${n(p.voltageV)} V.`,
      demand: put('P written', p.powerW, 'W'),
      limit: put('P', Number(n(givenW)), 'W'),
    }),
  ]
}

/** A window shorter than the hours wanted in it cannot be met by any plan. */
function windowAgainstHours(p: Plug): readonly Noted[] {
  const whole = windowH({ fromH: p.fromH, toH: p.readyH })
  if (p.hoursPerDay <= whole + MINUTE_H) return []
  const working: Working = {
    id: `${p.row}/window`,
    title: `Window of ${p.row}`,
    steps: [
      step(
        'window',
        'ready − from, past midnight + 24 h',
        [put('from', n(p.fromH), 'h'), put('ready', n(p.readyH), 'h')],
        n(whole),
        'h',
        source('the job document', 'told'),
      ),
    ],
    judgement: {
      demand: put('hours wanted', p.hoursPerDay, 'h'),
      relation: '≤',
      limit: put('window', whole, 'h'),
      tight: 'none',
      rests: source('the job document', 'told'),
    },
  }
  return [
    noted({
      code: 'needs/window-short',
      subject: p.row,
      verdict: 'fails',
      working,
      said: `${p.row} wants ${n(p.hoursPerDay)} h in a window of ${n(whole)} h.`,
      demand: put('hours wanted', p.hoursPerDay, 'h'),
      limit: put('window', Number(n(whole)), 'h'),
    }),
  ]
}

/** “G1-4C” with another count than four: one of the two is wrong, and a count too small would undersize everything. */
function countAgainstTag(p: Plug, job: Job): readonly Noted[] {
  const named = rangeCount(p.row)
  const count = job.plugs.filter((q) => q.row === p.row).length
  if (named === null || named === count) return []
  return [
    noted({
      code: 'needs/count-doubtful',
      subject: p.row,
      verdict: 'unknown',
      basis: 'house',
      said: `The tag ${p.row} names ${named}, the count says ${count}.`,
      demand: put('count', count),
      limit: put('named by the tag', named),
    }),
  ]
}

/** Elements that hang on one plug are fed at one voltage. */
function sharedPlugs(job: Job): readonly Noted[] {
  const byPlug = new Map<string, Plug[]>()
  for (const p of job.plugs) if (p.plugShared !== undefined) byPlug.set(p.plugShared, [...(byPlug.get(p.plugShared) ?? []), p])
  return [...byPlug].flatMap(([plug, all]) => {
    const volts = [...new Set(all.map((p) => `${p.voltageV} V in ${p.phases === 3 ? 'three phases' : 'one phase'}`))]
    return volts.length < 2
      ? []
      : [
          noted({
            code: 'needs/shared-plug',
            subject: plug,
            verdict: 'unknown',
            said: `On plug ${plug} hang ${all.map((p) => p.tag).join(' and ')} at different voltages: ${volts.join(' and ')}.`,
          }),
        ]
  })
}

/** Every phase has a box that stands in it, every machine says what feeds it in each phase, and the phases cover the stay. */
function phasesAndBoxes(job: Job): readonly Noted[] {
  const ids = job.boxes.map((b) => b.id)
  const standing = (phase: Job['phases'][number]) => phase.boxes ?? ids
  const empty = job.phases
    .filter((phase) => standing(phase).length === 0 || !job.plugs.some((p) => p.fedBy[phase.id] !== undefined))
    .map((phase) =>
      noted({
        code: 'needs/phase-without-box',
        subject: phase.id,
        verdict: 'unknown',
        basis: 'house',
        said: `In phase ${phase.id} (months ${phase.fromMonth} to ${phase.toMonth}) no box feeds any machine.`,
      }),
    )
  const unfed = [...new Set(job.plugs.filter((p) => Object.keys(p.fedBy).length === 0).map((p) => p.row))].map((row) =>
    noted({
      code: 'needs/machine-unfed',
      subject: row,
      verdict: 'unknown',
      basis: 'house',
      said: `Nothing says which box feeds ${row}. Write “fed-by”.`,
    }),
  )
  const absent = job.phases.flatMap((phase) =>
    [
      ...new Set(
        job.plugs
          .filter((p) => p.fedBy[phase.id] !== undefined && !standing(phase).includes(p.fedBy[phase.id] as string))
          .map((p) => p.row),
      ),
    ].map((row) =>
      noted({
        code: 'needs/box-absent',
        subject: row,
        verdict: 'unknown',
        basis: 'house',
        said: `In phase ${phase.id} ${row} is fed by a box that does not stand there then.`,
      }),
    ),
  )
  return [...empty, ...unfed, ...absent, ...coverage(job)]
}

/** First words of the paths of choices. */
export const CHOICE_HEADS = [
  'supply',
  'service',
  'staging',
  'transfer',
  'transformer',
  'panel',
  'circuits',
  'cords',
  'electrode',
  'earthing',
  'boxes',
  'items',
  'air',
  'skin',
  'haul',
  'lights',
  'strut',
] as const

/** Paths that a plan takes. Any other pin would be passed over. */
const TAKEN: readonly RegExp[] = [
  /^supply\.(offer|interim)$/,
  /^service\.rating$/,
  /^staging\.control$/,
  /^transfer$/,
  /^panel\.(ways|interruptingKA)$/,
  /^circuits\..+\.(device|family|line|shock)$/,
  /^cords\..+\.size$/,
  /^items\.[^.]+\..+\.at$/,
  new RegExp(`^air\\..+\\.(${AIR_CHOICES.join('|')})$`),
  /^haul\..+\.(lift|unload|pads|anchors|snow-frame)$/,
  /^skin\..+\.(way|cord-side|door|ploughed)$/,
  /^lights\..+\.count$/,
  /^strut\.[^.]+\.metal$/,
  FED_FROM_PATH,
]

/** A pin that no choice answers to would be passed over in silence: it is a decision of a person. */
function unknownPins(job: Job): readonly Noted[] {
  const tags = job.plugs.map((p) => p.tag)
  const { cannot } = pinnedFeeders(job)
  const unread = new Map(
    job.boxes.flatMap((box) =>
      airPinsOf(job.pins, box.id).unread.map(({ pin, wanted }) => [
        pin.path,
        `“${String(pin.value)}” cannot be read; wanted is ${wanted}`,
      ]),
    ),
  )
  return job.pins.flatMap((pin) => {
    const [head = ''] = pin.path.split('.')
    const cord = /^cords\.(.+)\.[a-z-]+$/i.exec(pin.path)?.[1]
    const hauled = /^(?:air|skin|haul|lights|strut)\.(.+)\.[a-z-]+$/.exec(pin.path)?.[1]
    const known =
      TAKEN.some((path) => path.test(pin.path)) &&
      (cord === undefined || tags.includes(cord)) &&
      (hauled === undefined || job.boxes.some((box) => box.id === hauled))
    const why = cannot.get(pin.path) ?? unread.get(pin.path) ?? unreadStrips(pin) ?? unreadSkin(pin)
    if (why !== undefined)
      return [
        noted({
          code: 'needs/pin-unknown',
          subject: pin.path,
          verdict: 'unknown',
          basis: 'house',
          said: `The choice “${pin.path}”, pinned by ${pin.by}, was not taken: ${why}.`,
        }),
      ]
    if (known) return []
    const near =
      cord !== undefined
        ? nearest(cord, tags)
        : hauled !== undefined
          ? nearest(
              hauled,
              job.boxes.map((box) => box.id),
            )
          : nearest(head, CHOICE_HEADS)
    const hint = near === null ? '' : ` Did you mean “${near}”?`
    return [
      noted({
        code: 'needs/pin-unknown',
        subject: pin.path,
        verdict: 'unknown',
        basis: 'house',
        said: `The choice “${pin.path}”, pinned by ${pin.by}, is none this job has, and was not taken.${hint}`,
      }),
    ]
  })
}

const unreadStrips = (pin: Pin): string | undefined =>
  /^lights\..+\.count$/.test(pin.path) && readStrips(pin.value) === null
    ? `“${String(pin.value)}” is no number of strips from 1 to 40`
    : undefined

/** What a pin of the skin may be, by its last word. */
const SKIN_WANTED: Readonly<Record<string, readonly (string | boolean)[]>> = {
  way: EXIT_WAYS,
  'cord-side': ['left', 'right', 'blind end'],
  door: ['yes', 'no', true, false],
  ploughed: [true, false],
}

function unreadSkin(pin: Pin): string | undefined {
  const last = /^skin\..+\.([a-z-]+)$/.exec(pin.path)?.[1]
  const wanted = last === undefined ? undefined : SKIN_WANTED[last]
  if (wanted === undefined || wanted.includes(pin.value as string | boolean)) return undefined
  return `“${String(pin.value)}” cannot be read; wanted is one of ${wanted.map((w) => `“${w}”`).join(', ')}`
}

function coverage(job: Job): readonly Noted[] {
  const stay = Math.ceil(job.needs.stayMonths - 1e-9)
  const gaps: string[] = []
  let next = 1
  for (const phase of job.phases) {
    if (phase.fromMonth > next) gaps.push(`months ${next} to ${phase.fromMonth - 1} belong to no phase`)
    next = Math.max(next, phase.toMonth + 1)
  }
  if (next <= stay) gaps.push(`months ${next} to ${stay} of the stay belong to no phase`)
  if (next > stay + 1) gaps.push(`the phases run to month ${next - 1}, the stay ends with month ${stay}`)
  return gaps.map((gap) =>
    noted({
      code: 'needs/phase-gap',
      subject: 'job',
      verdict: 'unknown',
      basis: 'house',
      said: `Phases and stay do not agree: ${gap}.`,
    }),
  )
}
