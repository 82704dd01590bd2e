import { type BoxSurvey, type Job, SIDES, type Side } from '../job/index.ts'
import { type Finding, type Put, put, type Source, source, step, type Working } from '../kernel/index.ts'
import { tableProfile } from './profile.ts'
import type { BodySide, BoxBody } from './result.ts'
import { bodyFigure, numberIn } from './shelf.ts'

interface Noted {
  readonly finding: Finding
  readonly working: Working
}

/**
 * What was measured on a box and contradicts itself or the box. Each is `unknown`: one of two figures is wrong, and the survey does not
 * say which. Nothing contradicts where nothing was measured.
 */
export function bodyFindings(
  job: Job,
  body: BoxBody,
): { readonly findings: readonly Finding[]; readonly workings: readonly Working[] } {
  const survey = job.surveys.find((s) => s.box === body.box)
  if (survey === undefined) return { findings: [], workings: [] }
  const all = [
    ...length(job, body, survey),
    ...inside(body, survey),
    ...pitch(body, survey),
    ...firstRibs(body, survey),
    ...dents(body),
    ...masses(body, survey),
  ]
  return { findings: all.map((n) => n.finding), workings: all.map((n) => n.working) }
}

interface Said {
  readonly code: string
  readonly what: string
  readonly said: string
  readonly demand: Put
  readonly relation: '≤' | '≥'
  readonly limit: Put
  readonly expression: string
  readonly values: readonly Put[]
  readonly rests?: Source
}

const geometry = source('geometry of the box', 'computed')
const n = (value: number): string => String(Math.round(value * 10) / 10)

function noted(box: string, of: Said): Noted {
  const rests = of.rests ?? geometry
  const working: Working = {
    id: `${box}/${of.what}`,
    title: `${of.what} of ${box}`,
    steps: [step(of.limit.symbol, of.expression, of.values, of.limit.value, of.limit.unit, rests)],
    judgement: { demand: of.demand, relation: of.relation, limit: of.limit, tight: 'none', rests },
  }
  const finding: Finding = {
    code: of.code,
    question: 'fit',
    subject: box,
    verdict: 'unknown',
    basis: 'physics',
    said: of.said,
    demand: of.demand,
    limit: of.limit,
    provenance: 'told',
    assumed: [],
    workings: [working.id],
    mends: [],
  }
  return { finding, working }
}

/** A tape and the words “20 ft” differ by a hand's breadth, not by more. */
const LENGTH_APART_MM = 100

function length(job: Job, body: BoxBody, survey: BoxSurvey): readonly Noted[] {
  const wanted = job.boxes.find((b) => b.id === body.box)
  if (survey.lengthMm === null || wanted === undefined) return []
  const wantedMm = wanted.lengthFt * 304.8
  const apart = Math.abs(survey.lengthMm - wantedMm)
  if (apart <= LENGTH_APART_MM) return []
  return [
    noted(body.box, {
      code: 'fit/box-length',
      what: 'length',
      said: `${body.box} is written as ${n(wantedMm)} mm long and was measured at ${n(survey.lengthMm)} mm: ${n(apart)} mm apart.`,
      demand: put('apart', apart, 'mm'),
      relation: '≤',
      limit: put('agreement', LENGTH_APART_MM, 'mm'),
      expression: '|L measured − L written| at most',
      values: [put('L measured', survey.lengthMm, 'mm'), put('L written', wantedMm, 'mm')],
      rests: source('a tape against a name in feet', 'common practice'),
    }),
  ]
}

/** The inside measured must leave room for the sheet and its ribs, for floor and roof, and for the ends. */
function inside(body: BoxBody, survey: BoxSurvey): readonly Noted[] {
  const [L, W, H] = body.outsideMm
  const wall = body.sides.left.corrugation
  const end = body.sides['blind end'].corrugation
  const roof = body.sides.roof.corrugation
  const sheet = (c: BodySide['corrugation']) => (c === null ? 0 : c.depthMm + c.thicknessMm)
  const plywood = numberIn(/(\d+) mm/.exec(body.floor.what)?.[1] ?? null)
  const check = (what: string, measured: number | null, outside: number, taken: number, by: string): readonly Noted[] => {
    const mostMm = outside - taken
    if (measured === null || measured <= mostMm) return []
    return [
      noted(body.box, {
        code: 'fit/box-inside',
        what: `inner ${what}`,
        said: `${body.box} was measured ${n(measured)} mm inside; its ${n(outside)} mm outside less ${by} (${n(taken)} mm) leave ${n(mostMm)} mm: ${n(measured - mostMm)} mm too much.`,
        demand: put(`${what} inside`, measured, 'mm'),
        relation: '≤',
        limit: put('room', mostMm, 'mm'),
        expression: 'outside − what the steel takes',
        values: [put('outside', outside, 'mm'), put('steel', taken, 'mm')],
      }),
    ]
  }
  return [
    ...check('width', survey.innerWidthMm, W, 2 * sheet(wall), 'two sheets with their ribs'),
    ...check('height', survey.innerHeightMm, H, plywood + sheet(roof), 'floor and roof'),
    ...check('length', survey.innerLengthMm, L, sheet(end) + bodyFigure('blind end recess'), 'the blind end'),
  ]
}

/** Share of the table's slope by which one that follows from a measured pitch may differ before the flats must be measured too. */
const SLOPE_APART_FRAC = 0.5

/** A measured pitch must close: flats and two slopes make it up. */
function pitch(body: BoxBody, survey: BoxSurvey): readonly Noted[] {
  const p = survey.ribPitchMm
  if (p === null) return []
  const table = tableProfile('side wall')
  const outer = survey.outerFlatMm ?? table.outerFlatMm
  const inner = survey.innerFlatMm ?? table.innerFlatMm
  const flatsTold = survey.outerFlatMm !== null && survey.innerFlatMm !== null
  const least = flatsTold ? 0 : table.slopeRunMm * (1 - SLOPE_APART_FRAC)
  const most = flatsTold ? Number.POSITIVE_INFINITY : table.slopeRunMm * (1 + SLOPE_APART_FRAC)
  const slope = (p - outer - inner) / 2
  if (slope > 0 && slope >= least && slope <= most) return []
  const none = slope <= 0
  const bound = none ? outer + inner : outer + inner + 2 * (slope < least ? least : most)
  return [
    noted(body.box, {
      code: 'fit/box-pitch',
      what: 'rib pitch',
      said: none
        ? `${body.box}: ribs measured at ${n(p)} mm leave no slope between flats of ${n(outer)} and ${n(inner)} mm, ${n(outer + inner)} mm together. Measure pitch and flats again.`
        : `${body.box}: ribs measured at ${n(p)} mm leave slopes of ${n(slope)} mm between the usual flats; ${n(least)} to ${n(most)} mm are seen. Measure the flats too.`,
      demand: put('p', p, 'mm'),
      relation: none || slope < least ? '≥' : '≤',
      limit: put('p closed', bound, 'mm'),
      expression: none ? 'f_o + f_i' : 'f_o + f_i + 2·r',
      values: [put('f_o', outer, 'mm'), put('f_i', inner, 'mm'), ...(none ? [] : [put('r', slope < least ? least : most, 'mm')])],
      rests: table.rests,
    }),
  ]
}

/** A first flat under the post is none. */
function firstRibs(body: BoxBody, survey: BoxSurvey): readonly Noted[] {
  return SIDES.flatMap((side): readonly Noted[] => {
    const at = survey.firstRibMm[side]
    const { sheet } = body.sides[side]
    if (at === undefined || at >= sheet.fromMm) return []
    return [
      noted(body.box, {
        code: 'fit/box-first-rib',
        what: `first flat, ${side}`,
        said: `${body.box}: the first flat of the ${side} was measured at ${n(at)} mm, where the post still stands (to ${n(sheet.fromMm)} mm). Measure from the outer face to the near edge of the first flat that is free.`,
        demand: put('x', at, 'mm'),
        relation: '≥',
        limit: put('post to', sheet.fromMm, 'mm'),
        expression: 'width of the corner fitting',
        values: [],
      }),
    ]
  })
}

function dents(body: BoxBody): readonly Noted[] {
  return SIDES.flatMap((side: Side) => {
    const { alongMm, upMm, dents: all } = body.sides[side]
    return all.flatMap((dent, i): readonly Noted[] => {
      const over = Math.max(dent.toMm - alongMm, 0)
      const high = Math.max(dent.highMm - upMm, 0)
      if (over === 0 && high === 0) return []
      const [reach, size, by] = over >= high ? [dent.toMm, alongMm, over] : [dent.highMm, upMm, high]
      return [
        noted(body.box, {
          code: 'fit/box-dent',
          what: `dent ${i + 1}, ${side}`,
          said: `${body.box}: dent ${i + 1} of the ${side} reaches to ${n(reach)} mm on a side of ${n(size)} mm: ${n(by)} mm outside it.`,
          demand: put('reach', reach, 'mm'),
          relation: '≤',
          limit: put('side', size, 'mm'),
          expression: over >= high ? 'size along the side' : 'size up the side',
          values: [],
        }),
      ]
    })
  })
}

function masses(body: BoxBody, survey: BoxSurvey): readonly Noted[] {
  const { tareKg, weighedKg } = survey
  if (tareKg === null || weighedKg === null || weighedKg >= tareKg) return []
  return [
    noted(body.box, {
      code: 'fit/box-mass',
      what: 'weighed',
      said: `${body.box} weighs ${n(weighedKg)} kg with what is built in, and ${n(tareKg)} kg bare: ${n(tareKg - weighedKg)} kg too little.`,
      demand: put('weighed', weighedKg, 'kg'),
      relation: '≥',
      limit: put('tare', tareKg, 'kg'),
      expression: 'T',
      values: [],
    }),
  ]
}
