import type { BoxDesign } from '../../job/index.ts'
import {
  type Finding,
  judgeEnds,
  judgeUpper,
  type Mend,
  type Provenance,
  put,
  source,
  step,
  type Verdict,
  type Working,
  weakest,
} from '../../kernel/index.ts'
import { type Asked, ampere, inAmpere, lazyWorking, onSource } from './asked.ts'
import { faultSteps, KIND_WORDS } from './fault-steps.ts'
import { type BoxLevels, highestOfKinds, type Place } from './levels.ts'
import { comparedA, kappaRatio, testXOverRRatio } from './peak.ts'
import { KINDS_OF, kindA, kindsOfSystem } from './place.ts'
import type { FaultKind } from './result.ts'

/** Something that has to break or bear the highest fault at a place. */
interface Stands {
  readonly thing: string
  readonly said: string
  readonly code: 'faults/interrupting' | 'faults/bus-withstand'
  readonly ratingA: number
  readonly placeOf: (levels: BoxLevels) => Place | null
  readonly kinds: readonly FaultKind[]
  readonly main: boolean
  readonly mendPath: string | null
}

export interface Answered {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
}

/** Highest fault against every rating that must break or bear it, in the worst source position. */
export function interruptingFindings(asked: Asked): Answered {
  const findings: Finding[] = []
  const workings: Working[] = []
  for (const stands of standing(asked)) {
    const judged = asked.positions.flatMap((levels) => judgedAt(asked, levels, stands) ?? [])
    const worstOne = judged.reduce<Judged | null>((a, b) => (a === null || outranks(b, a) ? b : a), null)
    if (worstOne === null) continue
    const id = asked.name(`${stands.thing}/interrupting`)
    workings.push(workingOf(asked, id, stands, worstOne))
    findings.push(findingOf(asked, id, stands, worstOne))
  }
  return { findings, workings }
}

function standing(asked: Asked): readonly Stands[] {
  const { box, system } = asked
  const kinds = kindsOfSystem(system)
  const panel = (levels: BoxLevels) => levels.panel
  const out: Stands[] = [
    {
      thing: box.box,
      said: 'its main',
      code: 'faults/interrupting',
      ratingA: box.panel.main.interruptingKA * 1000,
      placeOf: panel,
      kinds,
      main: true,
      mendPath: 'panel.interruptingKA',
    },
    {
      thing: `${box.box} bus`,
      said: 'its panel and busbars',
      code: 'faults/bus-withstand',
      ratingA: box.panel.interruptingKA * 1000,
      placeOf: panel,
      kinds,
      main: false,
      mendPath: 'panel.interruptingKA',
    },
  ]
  // Devices that see the same kinds with the same rating stand or fall together.
  const groups = new Map<
    string,
    { readonly ratingA: number; readonly kinds: readonly FaultKind[]; readonly poles: number; count: number }
  >()
  for (const circuit of box.circuits) {
    const key = `${circuit.connection}|${circuit.device.interruptingKA}`
    const group = groups.get(key)
    if (group !== undefined) group.count += 1
    else
      groups.set(key, {
        ratingA: circuit.device.interruptingKA * 1000,
        kinds: KINDS_OF[circuit.connection],
        poles: circuit.device.poles,
        count: 1,
      })
  }
  for (const [key, g] of groups) {
    const connection = key.split('|')[0]!
    out.push({
      ...{
        thing: `${box.box} ${connection} ${g.ratingA / 1000} kA`,
        said: `${g.count === 1 ? 'a' : `${g.count}`} ${g.poles}-pole branch device${g.count === 1 ? '' : 's'}`,
      },
      ...{
        code: 'faults/interrupting' as const,
        ratingA: g.ratingA,
        placeOf: panel,
        kinds: g.kinds,
        main: false,
        mendPath: 'panel.interruptingKA',
      },
    })
  }
  if (box.fedFrom !== null) {
    out.push({
      thing: `${box.box} feeder`,
      said: 'the device that feeds it',
      code: 'faults/interrupting',
      ratingA: box.fedFrom.device.interruptingKA * 1000,
      placeOf: (l) => l.feeding?.place ?? null,
      kinds,
      main: false,
      mendPath: 'panel.interruptingKA',
    })
  }
  if (box.transformer !== null && box.fedFrom === null) {
    const device = box.transformer.primary
    out.push({
      thing: `${box.box} primary`,
      said: 'the primary device of its transformer',
      code: 'faults/interrupting',
      ratingA: device.interruptingKA * 1000,
      placeOf: (l) => l.service,
      kinds: ['three-phase', 'line-line'],
      main: true,
      mendPath: 'service.interruptingKA',
    })
  }
  return out
}

interface Judged {
  readonly levels: BoxLevels
  readonly place: Place
  readonly currentA: number
  readonly xOverRRatio: number
  readonly comparedA: number
  readonly weakA: number
  readonly verdict: Verdict
  readonly bounded: boolean
}

function judgedAt(asked: Asked, levels: BoxLevels, stands: Stands): Judged | null {
  const place = stands.placeOf(levels)
  if (place === null) return null
  const high = highestOfKinds(place, stands.kinds, levels.voltageFactor.max)
  if (high === null) return null
  const compared = comparedA(high.currentA, high.xOverRRatio, stands.ratingA)
  const strongest = judgeUpper(compared, stands.ratingA)
  let weakA = 0
  for (const kind of stands.kinds) weakA = Math.max(weakA, kindA(place.system, place.weak, kind, levels.voltageFactor.max) ?? 0)
  const bounded = isBounded(asked, levels)
  const verdict = bounded ? judgeEnds(judgeUpper(weakA, stands.ratingA), strongest) : strongest
  return { levels, place, ...high, comparedA: compared, weakA, verdict, bounded }
}

/** True where nobody told the fault level or the impedance: both ends are judged. */
function isBounded(asked: Asked, levels: BoxLevels): boolean {
  const offer = asked.offers.get(levels.offer)
  if (offer === undefined) return true
  if (offer.kind === 'generator') return offer.generator?.subtransientPct.told !== true
  return offer.faultA === undefined && offer.transformer?.impedancePct.told !== true
}

const RANK: Readonly<Record<Verdict, number>> = { holds: 0, tight: 1, unknown: 2, fails: 3 }
const outranks = (a: Judged, b: Judged): boolean =>
  RANK[a.verdict] > RANK[b.verdict] || (a.verdict === b.verdict && a.comparedA > b.comparedA)

const HALF_CYCLE: Provenance = 'memory'

function findingOf(asked: Asked, id: string, stands: Stands, j: Judged): Finding {
  const provenance = weakest(j.levels.source.strong.provenance, HALF_CYCLE)
  const raised =
    j.comparedA > j.currentA * (1 + 1e-9)
      ? `, counted as ${inAmpere(j.comparedA)} for its X/R of ${j.xOverRRatio.toFixed(1)}`
      : ''
  const does = stands.code === 'faults/interrupting' ? 'interrupts' : 'bears'
  const whole = stands.said.startsWith('its panel') || /^\d/.test(stands.said) ? does.slice(0, -1) : does
  const at = stands.thing.endsWith('primary')
    ? 'at the transformer’s primary'
    : stands.thing.endsWith('feeder')
      ? 'where the feeder starts'
      : 'at the panel'
  const who =
    j.verdict === 'unknown'
      ? ` Between ${inAmpere(j.weakA)} and that it is not known: ${whoTells(asked, j.levels)} can tell in writing.`
      : ''
  return {
    code: stands.code,
    question: 'faults',
    subject: stands.thing,
    verdict: j.verdict,
    basis: 'code',
    said: `Up to ${inAmpere(j.currentA)} may flow ${at} ${onSource(j.levels)}${raised}; ${stands.said} ${whole} ${inAmpere(stands.ratingA)}.${who}`,
    demand: ampere('I', j.comparedA),
    limit: ampere('I_cu', stands.ratingA),
    provenance,
    confirm: true,
    assumed: j.levels.assumed,
    workings: [id],
    mends: j.verdict === 'holds' ? [] : mendsOf(asked, stands, j),
    decides: whoDecides(asked.box),
    caution: 'A device that cannot interrupt the fault may burst. Nothing here is a permission to switch on.',
  }
}

export const whoDecides = (_box: BoxDesign): string => 'the licensed electrician and the inspector'

function whoTells(asked: Asked, levels: BoxLevels): string {
  const kind = asked.offers.get(levels.offer)?.kind
  return kind === 'generator' ? 'the maker or hirer of the set' : kind === 'neighbour' ? 'the neighbour’s utility' : 'the utility'
}

function mendsOf(asked: Asked, stands: Stands, j: Judged): readonly Mend[] {
  if (stands.mendPath === null) return []
  const enough = asked.inputs.rules
    .interruptingStepsKA(j.place.system, stands.main)
    .find(
      (kA) => kA * 1000 > stands.ratingA && judgeUpper(comparedA(j.currentA, j.xOverRRatio, kA * 1000), kA * 1000) !== 'fails',
    )
  if (enough === undefined) return []
  return [{ path: stands.mendPath, value: enough, words: `${stands.said} with an interrupting rating of ${enough} kA` }]
}

function workingOf(asked: Asked, id: string, stands: Stands, j: Judged): Working {
  const kind = stands.kinds.reduce((a, b) =>
    (kindA(j.place.system, j.place.strong, b, j.levels.voltageFactor.max) ?? 0) >
    (kindA(j.place.system, j.place.strong, a, j.levels.voltageFactor.max) ?? 0)
      ? b
      : a,
  )
  const target = j.place.kind === 'panel' ? ({ at: 'panel' } as const) : ({ at: 'source' } as const)
  const test = testXOverRRatio(stands.ratingA)
  return lazyWorking({
    id,
    title: `Highest fault at ${asked.name(stands.thing)} against its rating`,
    steps: () => [
      ...faultSteps(j.levels, j.place, kind, 'strong', target),
      step(
        'κ',
        '1.02 + 0.98·e^(−3R/X)',
        [put('X/R', j.xOverRRatio)],
        kappaRatio(1 / Math.max(j.xOverRRatio, 1e-9)),
        '',
        source('IEC 60909-0, 9.1.1', 'memory'),
      ),
      step(
        'I′',
        'I·max(1, κ(X/R)/κ(X/R of the test))',
        [ampere('I', j.currentA), put('X/R of the test', test)],
        j.comparedA,
        'A',
        source('table interrupting, note on test power factors', 'memory'),
      ),
    ],
    judgement: {
      demand: ampere('I′', j.comparedA),
      relation: '≤',
      limit: ampere('rating', stands.ratingA),
      tight: '10 %',
      rests: source(CLAUSES, 'memory'),
    },
    notes: [
      `Kind of fault: ${KIND_WORDS[kind]}; conductors at ${asked.temperatures.coldC} °C, lowest impedance, voltage factor ${j.levels.voltageFactor.max}; motors ${inAmpere(j.place.motorA)} added.`,
    ],
  })
}

const CLAUSES = 'NEC 110.9, 110.10; CE Code 14-012; IEC 60364-4-43, 434.5.1'
