import type { BoxBody } from '../../box/index.ts'
import { axisLengthMm, type BoxDesign, type FitDesign, NIPPLE_MOST_M, type RacewayRoute, wirewayPieces } from '../../job/index.ts'
import { type Finding, judgeLower, judgeUpper, put, source, step, type Verdict, type Working } from '../../kernel/index.ts'
import type { RuleSet } from '../../rules/index.ts'
import { mostBetweenPullsDeg, quarterBends } from './bends.ts'
import { LOOP_M, type RunLength, runLengths } from './lengths.ts'
import { SERVICE, wiresOf } from './links.ts'
import { HELD_BY_BOXES_MM } from './straps.ts'

export interface RoutesAsked {
  readonly box: string
  readonly body: BoxBody
  readonly fit: FitDesign
  readonly design: BoxDesign
  readonly rules: RuleSet
}

export interface RoutesJudged {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
  readonly lengths: readonly RunLength[]
}

/** Every raceway against the rule set's bends, supports and fill, and every circuit's length against what volts and faults were judged by. */
export function judgeRoutes(asked: RoutesAsked): RoutesJudged {
  const findings: Finding[] = []
  const workings: Working[] = []
  const lengths = runLengths(asked.fit)
  for (const made of [
    ...asked.fit.raceways.flatMap((r) => [bends(asked, r), straps(asked, r), fill(asked, r)]),
    ...missing(asked),
    ...unfed(asked),
    ...asked.fit.raceways.filter((r) => r.id.startsWith('trunk ') && r.circuits.length > 1).map((r) => trunk(asked, r)),
    ...lengths.flatMap((l) => runLength(asked, l)),
  ]) {
    findings.push(made.finding)
    if (made.working !== undefined) workings.push(made.working)
  }
  return { findings, workings, lengths }
}

interface Made {
  readonly finding: Finding
  readonly working?: Working
}

function made(of: Omit<Finding, 'question' | 'assumed' | 'workings' | 'mends'>, working?: Working): Made {
  const finding: Finding = { ...of, question: 'fit', assumed: [], workings: working === undefined ? [] : [working.id], mends: [] }
  return working === undefined ? { finding } : { finding, working }
}

const tag = (asked: RoutesAsked, what: string) => `${asked.box} ${what}`
const n = (value: number, digits = 3): string => String(Number(value.toPrecision(digits)))

function bends(asked: RoutesAsked, r: RacewayRoute): Made {
  const limit = asked.rules.build.bendsBetweenPullsDeg
  const most = mostBetweenPullsDeg(r)
  const honest = quarterBends(r.pointsMm).length === r.bends.filter((b) => b.kind === 'quarter').length
  const verdict: Verdict = honest ? judgeUpper(most, limit.value, 0) : 'fails'
  const subject = tag(asked, `raceway ${r.id}`)
  const count = (kind: string) => r.bends.filter((b) => b.kind === kind).length
  const working: Working = {
    id: `${subject}/bends`,
    title: `Bends between pulls of ${r.id}`,
    steps: [
      step(
        'Σ',
        '90·quarters + 20·offsets + 90·saddles, in the stretch with the most',
        [
          put('quarters', count('quarter')),
          put('offsets', count('offset')),
          put('saddles', count('saddle')),
          put('pull boxes', r.pullsMm.length),
        ],
        most,
        '°',
        source('angles of the bends as drawn', 'computed'),
      ),
    ],
    judgement: {
      demand: put('Σ', most, '°'),
      relation: '≤',
      limit: put('limit', limit.value, '°'),
      tight: 'none',
      rests: limit.rests,
    },
  }
  const said = honest
    ? `${r.id} turns ${most}° between pulls; at most ${limit.value}° may lie between two.`
    : `${r.id}: its list of bends does not agree with its drawn corners.`
  return made(
    {
      code: 'fit/bends',
      subject,
      verdict,
      basis: 'code',
      said,
      demand: put('Σ', most, '°'),
      limit: put('limit', limit.value, '°'),
      provenance: limit.rests.provenance,
    },
    working,
  )
}

function straps(asked: RoutesAsked, r: RacewayRoute): Made {
  const support = asked.rules.build.racewaySupport(r)
  const lengthM = axisLengthMm(r.pointsMm) / 1000
  const ends = [0, ...r.pullsMm.map((p) => p / 1000), lengthM]
  const at = r.strapsMm.map((p) => p / 1000)
  let gapM = 0
  let endM = 0
  for (let i = 1; i < ends.length; i++) {
    const [from, to] = [ends[i - 1]!, ends[i]!]
    const inside = at.filter((p) => p >= from && p <= to)
    if (to - from < HELD_BY_BOXES_MM / 1000 && inside.length === 0) continue
    endM = Math.max(endM, (inside[0] ?? to) - from, to - (inside[inside.length - 1] ?? from))
    for (let k = 1; k < inside.length; k++) gapM = Math.max(gapM, inside[k]! - inside[k - 1]!)
  }
  const verdict = [judgeUpper(gapM, support.value.everyM, 0), judgeUpper(endM, support.value.fromBoxM, 0)].includes('fails')
    ? 'fails'
    : 'holds'
  const subject = tag(asked, `raceway ${r.id}`)
  return made({
    code: 'fit/straps',
    subject,
    verdict,
    basis: 'code',
    said: `${r.id}: ${at.length} straps on ${n(lengthM)} m, at most ${n(gapM)} m apart and ${n(endM)} m from a box; ${n(support.value.everyM)} m and ${n(support.value.fromBoxM)} m are allowed.`,
    demand: put('farthest', Math.max(gapM, endM), 'm'),
    limit: put('every', support.value.everyM, 'm'),
    provenance: support.rests.provenance,
  })
}

function fill(asked: RoutesAsked, r: RacewayRoute): Made {
  const wires = r.conductors.flatMap((c) =>
    Array<{ size: string; insulation: string }>(c.count).fill({ size: c.size, insulation: c.insulation }),
  )
  const need = asked.rules.racewayFor(wires, r.kind)
  const order = (trade: string) => tradeMm(trade)
  const verdict: Verdict = need.value === null ? 'fails' : order(r.trade) >= order(need.value) ? 'holds' : 'fails'
  const subject = tag(asked, `raceway ${r.id}`)
  const working: Working = { id: `${subject}/fill`, title: `What lies in ${r.id}`, steps: need.steps }
  return made(
    {
      code: 'fit/raceway-fill',
      subject,
      verdict,
      basis: 'code',
      said:
        need.value === null
          ? `${r.id}: ${wires.length} wires fit into no ${r.kind} of the list.`
          : `${r.id}: ${wires.length} wires ask for ${r.kind} ${need.value}; ${r.trade} is drawn.`,
      provenance: 'memory',
    },
    working,
  )
}

/** Trade sizes rise: inches as fractions, millimetres as they are. */
export function tradeMm(trade: string): number {
  const metric = /^(\d+) mm$/.exec(trade)
  if (metric !== null) return Number(metric[1])
  const [, whole = '0', over, under] = /^(?:(\d+)(?:-|$))?(?:(\d+)\/(\d+))?$/.exec(trade) ?? []
  return 25.4 * (Number(whole) + (over === undefined ? 0 : Number(over) / Number(under)))
}

/** Circuits that no raceway leads, and those whose raceways do not reach from the panel to their end. */
function missing(asked: RoutesAsked): readonly Made[] {
  const out: Made[] = []
  const troughs = new Set(wirewayPieces(asked.fit.items).map((p) => p.id))
  for (const c of asked.design.circuits) {
    if (c.own === 'spare' || c.run.raceway === null) continue
    const ends = asked.fit.items.filter((i) => i.circuits.includes(c.id) && i.kind !== 'panel')
    const reached = new Set(asked.fit.raceways.filter((r) => r.circuits.includes(c.id)).map((r) => r.to))
    const lacks = ends.filter((i) => !reached.has(i.id))
    const own = asked.fit.raceways.filter((r) => r.circuits.includes(c.id))
    // What leaves a wireway must have been led into it.
    const cut = own.some((r) => troughs.has(r.from)) && !own.some((r) => troughs.has(r.to))
    if (ends.length > 0 && lacks.length === 0 && !cut) continue
    const subject = tag(asked, c.id)
    out.push(
      made({
        code: 'fit/route',
        subject,
        verdict: 'fails',
        basis: 'physics',
        said:
          ends.length === 0
            ? `${c.id} ends in nothing that hangs in the box.`
            : lacks.length === 0
              ? `Nothing leads ${c.id} from its cabinet into the wireway.`
              : `No raceway leads ${c.id} to ${lacks.map((i) => i.id).join(', ')}: the walls are too full for one raceway more. What may help, and has not been tried: a longer box, a second one, things moved by pins, fewer circuits.`,
        provenance: 'computed',
      }),
    )
  }
  return out
}

/** Links of the supply that no raceway leads: meter, disconnect, transfer, transformer and the first panel, in the order of the current. */
function unfed(asked: RoutesAsked): readonly Made[] {
  const first = SERVICE.flatMap((kind) => {
    const here = asked.fit.items.filter((i) => i.kind === kind).toSorted((a, b) => (a.id < b.id ? -1 : 1))
    return kind === 'panel' ? here.slice(0, 1) : here
  })
  const { panel, circuits, fedFrom } = asked.design
  const kind = circuits.find((c) => c.run.raceway !== null)?.run.raceway?.kind
  const wires = wiresOf(fedFrom?.run ?? panel.feed, Math.min(3, panel.main.poles))
  const large = kind === undefined || asked.rules.racewayFor(wires, kind).value === null
  return first.slice(1).flatMap((to, i) => {
    const from = first[i]!
    const led = asked.fit.raceways.some((r) => r.circuits.includes('feed') && r.from === from.id && r.to === to.id)
    if (led) return []
    return [
      made({
        code: 'fit/route',
        subject: tag(asked, 'feed'),
        verdict: large ? 'unknown' : 'fails',
        basis: 'physics',
        said: large
          ? `From ${from.id} to ${to.id} the supply lies as cable on the channel: no raceway of the list takes its wires, and how the cable lies is not laid out here.`
          : `No raceway leads the supply from ${from.id} to ${to.id}.`,
        provenance: 'computed',
      }),
    ]
  })
}

/** Many circuits in one raceway between two cabinets: in a nipple their number does not count, in a longer one `circuits` counts it. */
function trunk(asked: RoutesAsked, r: RacewayRoute): Made {
  const lengthM = axisLengthMm(r.pointsMm) / 1000
  return made({
    code: 'fit/trunk',
    subject: tag(asked, `raceway ${r.id}`),
    verdict: 'holds',
    basis: 'code',
    said:
      lengthM <= NIPPLE_MOST_M
        ? `${r.id}: ${r.circuits.length} circuits lie together for ${n(lengthM)} m, a nipple.`
        : `${r.id}: ${r.circuits.length} circuits lie together for ${n(lengthM)} m, more than a nipple of ${n(NIPPLE_MOST_M)} m: their conductors are judged by their number.`,
    demand: put('L', lengthM, 'm'),
    limit: put('nipple', NIPPLE_MOST_M, 'm'),
    provenance: 'memory',
    confirm: true,
  })
}

/** The metres that volts and faults were judged by against the metres that are laid. */
function runLength(asked: RoutesAsked, l: RunLength): readonly Made[] {
  const run = l.circuit === 'feed' ? null : asked.design.circuits.find((c) => c.id === l.circuit)?.run
  if (run === null || run === undefined) return []
  const subject = tag(asked, l.circuit)
  const working: Working = {
    id: `${subject}/run`,
    title: `Metres of ${l.circuit} in the box`,
    steps: [
      step(
        'L',
        'Σ raceways and wireway + 0.3 m each end',
        [put('Σ', n(l.routeM, 4), 'm'), put('ends', l.endsCount), put('loop', LOOP_M, 'm')],
        n(l.electricalM, 4),
        'm',
        source('axes of the raceways as drawn; the trade’s wire allowance', 'common practice'),
      ),
    ],
    judgement: {
      demand: put('judged by', run.lengthM, 'm'),
      relation: '≥',
      limit: put('laid', l.electricalM, 'm'),
      tight: 'none',
      rests: source('the length volts and faults were judged by', 'computed'),
    },
  }
  return [
    made(
      {
        code: 'fit/run-length',
        subject,
        verdict: judgeLower(run.lengthM, l.electricalM, 0),
        basis: 'physics',
        said: `${l.circuit}: ${n(l.electricalM)} m are laid; volts and faults were judged by ${n(run.lengthM)} m.`,
        demand: put('judged by', run.lengthM, 'm'),
        limit: put('laid', l.electricalM, 'm'),
        provenance: 'common practice',
      },
      working,
    ),
  ]
}
