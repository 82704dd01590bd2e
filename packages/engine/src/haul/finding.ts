import {
  type Finding,
  formatNumber,
  type Judgement,
  type Mend,
  type Put,
  put,
  type Source,
  type Step,
  THIN,
  type Working,
  weakest,
} from '../kernel/index.ts'

export interface Noted {
  readonly finding: Finding
  readonly working: Working
}

interface Said {
  readonly code: string
  readonly subject: string
  readonly verdict: Finding['verdict']
  readonly basis: Finding['basis']
  readonly said: string
  /** Told apart where one subject has two findings of a code. */
  readonly which?: string
  /** What the working is called, after the subject. */
  readonly title: string
  readonly steps: readonly Step[]
  readonly crossCheck?: readonly Step[]
  readonly notes?: readonly string[]
  readonly demand?: Put
  readonly limit?: Put
  readonly relation?: Judgement['relation']
  readonly tight?: string
  /** Where the limit comes from; absent: the weakest of the steps. */
  readonly rests?: Source
  readonly decides?: string
  readonly caution?: string
  readonly assumed?: readonly string[]
  readonly mends?: readonly Mend[]
}

/** A finding of this question with its working, the weakest provenance of its lines, and “confirm” where a row from memory is among them. */
export function noted(of: Said): Noted {
  const provenance = weakest(...of.steps.map((s) => s.rests.provenance), ...(of.rests === undefined ? [] : [of.rests.provenance]))
  const id = `${of.subject}/${of.code.replace('/', '-')}${of.which === undefined ? '' : `-${of.which}`}`
  const judgement: Judgement | undefined =
    of.demand === undefined || of.limit === undefined || of.rests === undefined
      ? undefined
      : { demand: of.demand, relation: of.relation ?? '≤', limit: of.limit, tight: of.tight ?? '10 %', rests: of.rests }
  return {
    finding: {
      code: of.code,
      question: 'haul',
      subject: of.subject,
      verdict: of.verdict,
      basis: of.basis,
      said: of.said,
      ...(of.demand === undefined ? {} : { demand: of.demand }),
      ...(of.limit === undefined ? {} : { limit: of.limit }),
      provenance,
      ...(provenance === 'memory' ? { confirm: true } : {}),
      assumed: of.assumed ?? [],
      workings: [id],
      mends: of.mends ?? [],
      ...(of.decides === undefined ? {} : { decides: of.decides }),
      ...(of.caution === undefined ? {} : { caution: of.caution }),
    },
    working: {
      id,
      title: of.title,
      steps: of.steps,
      ...(judgement === undefined ? {} : { judgement }),
      ...(of.crossCheck === undefined ? {} : { crossCheck: of.crossCheck }),
      ...(of.notes === undefined ? {} : { notes: of.notes }),
    },
  }
}

/** A number as it stands in a sentence. */
export const shown = (value: number, unit: string, digits = 3): string => `${formatNumber(value, { digits })}${THIN}${unit}`
export const kN = (forceN: number): string => shown(forceN / 1000, 'kN')
export const kPa = (pressurePa: number): string => shown(pressurePa / 1000, 'kPa')
export const kg = (massKg: number): string => shown(Math.round(massKg), 'kg', 4)
export const putKN = (symbol: string, forceN: number): Put => put(symbol, forceN / 1000, 'kN')
export const putKPa = (symbol: string, pressurePa: number): Put => put(symbol, pressurePa / 1000, 'kPa')

/** Roles that decide what is only computed here. */
export const WHO = {
  lift: 'the appointed lifting person',
  carrier: 'the carrier',
  route: 'the permit office',
  line: 'the owner of the line',
  engineer: 'a structural engineer',
  ground: 'whoever answers for the ground',
  anchors: 'whoever sets the anchors and pulls them to this load',
} as const

export const CAUTION = {
  load: 'Stay from under the load and from between it and anything fixed; one signaller, tag lines; no lift in wind from 10 m/s.',
  roof: 'The roof is not a platform. Rake snow off from the ground.',
  frame:
    'The roof is not a platform and has an edge: the frame is set and taken off from a scaffold or a lift with a rail, tied off, in no wind, no ice, no snow; nobody stands below.',
  lines: 'Keep away from overhead lines and take every one as live.',
  chain: 'Chain the box before the bed tilts; nobody stands below or behind it.',
} as const
