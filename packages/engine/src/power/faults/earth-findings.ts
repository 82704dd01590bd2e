import { type Finding, formatQuantity, judgeEnds, judgeUpper, put, source, step, type Verdict } from '../../kernel/index.ts'
import {
  CIRCUIT_SHARE_FRAC,
  type ElectrodeEnds,
  electrodeEnds,
  touchTimeS,
  touchTnV,
  touchTtV,
  UNLIMITED_V,
  WET_V,
} from '../earthing/index.ts'
import { type Asked, ampere, inAmpere, inSeconds, lazyWorking, onSource, seconds } from './asked.ts'
import type { CircuitTrip } from './clearing-findings.ts'
import { type Answered, whoDecides } from './interrupting.ts'
import type { ElectrodeValue, Touch } from './result.ts'

export interface Earth extends Answered {
  readonly electrode: ElectrodeValue | null
  readonly touch: readonly Touch[]
}

const ohm = (value: number): string => formatQuantity(value, 'Ohm')
const span = (ends: { readonly low: number; readonly high: number }, unit: string): string => {
  const [low, high] = [formatQuantity(ends.low, unit), formatQuantity(ends.high, unit)]
  return low === high ? low : `${low} to ${high}`
}

/** Electrode in its soil at both ends, what it can and cannot do, and the touch voltage of every circuit. */
export function earthFindings(asked: Asked, all: readonly (readonly CircuitTrip[])[]): Earth {
  const { rules, job } = asked.inputs
  const tables = { factors: rules.tables['rod-multiple']?.rows ?? [], lambdas: rules.tables['rod-lambda']?.rows ?? [] }
  const ends = electrodeEnds(asked.box.electrode, job.site, tables)
  const electrode = electrodeValue(asked, ends)
  const own = electrodeFinding(asked, ends, electrode)
  const tt = asked.box.earthing === 'TT' ? ttFinding(asked, ends) : { findings: [], workings: [] }
  const touch = touchOf(asked, all, ends)
  return {
    electrode,
    touch: touch.touch,
    findings: [...own.findings, ...tt.findings, ...touch.findings, ...oldReading(asked)],
    workings: [...own.workings, ...tt.workings, ...touch.workings],
  }
}

function electrodeValue(asked: Asked, ends: ElectrodeEnds): ElectrodeValue {
  const { electrode } = asked.box
  return {
    kind: electrode.kind,
    count: electrode.count,
    lowOhm: ends.low,
    highOhm: ends.high,
    thawedOhm: ends.thawed,
    frozenOhm: ends.frozen,
    faultA: asked.system.lineNeutralV / ends.low,
  }
}

function electrodeFinding(asked: Asked, ends: ElectrodeEnds, value: ElectrodeValue): Answered {
  const { electrode } = asked.box
  const asks = asked.inputs.rules.electrodes()
  const id = asked.name(`${asked.box.box}/electrode`)
  const what =
    electrode.kind === 'ring'
      ? `a ring of ${formatQuantity(electrode.lengthM, 'm')}`
      : `${electrode.count} rod${electrode.count === 1 ? '' : 's'} of ${formatQuantity(electrode.lengthM, 'm')}`
  const limit = asks.value.valueOhm
  const enoughRods = electrode.kind === 'ring' || electrode.count >= asks.value.rods
  // A value is asked only where the set names one, and where fewer rods than it asks were driven.
  const judged = limit === null || asked.box.earthing === 'TT' ? null : enoughRods && asks.value.rods > 1 ? null : limit
  const freezes = ends.frozen !== null && ends.frozen.high > ends.thawed.high * 1.05
  const verdict: Verdict =
    judged !== null
      ? judgeEnds(judgeUpper(ends.low, judged), judgeUpper(ends.high, judged))
      : !enoughRods
        ? 'fails'
        : freezes || ends.high > USEFUL_OHM
          ? 'tight'
          : 'holds'
  const frost = ends.frozen === null ? '' : `, ${span(ends.frozen, 'Ohm')} in frozen soil`
  const asked1 = !enoughRods
    ? `The set asks ${asks.value.rods} rods.`
    : judged !== null
      ? `${ohm(judged)} is asked.`
      : 'The rules ask the electrode, not a value.'
  const finding: Finding = {
    code: 'faults/electrode',
    question: 'faults',
    subject: asked.box.box,
    verdict,
    basis: judged !== null || !enoughRods ? 'code' : 'physics',
    said: `${capital(what)} ${electrode.count === 1 || electrode.kind === 'ring' ? 'gives' : 'give'} ${span(ends.thawed, 'Ohm')} thawed${frost}. ${asked1} At best ${inAmpere(value.faultA)} flows into it: it clears no fault; the protective conductor and the one neutral–earth bond do.`,
    demand: put('R_E', ends.high, 'Ohm'),
    ...(judged === null ? {} : { limit: put('R_E max', judged, 'Ohm') }),
    provenance: 'memory',
    confirm: true,
    assumed: assumedSoil(asked),
    workings: [id],
    mends: !enoughRods ? [{ path: 'electrode.count', value: asks.value.rods, words: `${asks.value.rods} rods` }] : [],
    decides: whoDecides(asked.box),
    caution: 'Measure it after driving, and again in frost. Never rely on an electrode to open a device.',
  }
  return { findings: [finding], workings: [electrodeWorking(asked, id, ends)] }
}

/** Above this an electrode is poor, whatever the rules ask. @source NEC 250.53(A)(2), the figure that spares a second rod. Provenance: memory */
const USEFUL_OHM = 25

function assumedSoil(asked: Asked): readonly string[] {
  const { site } = asked.inputs.job
  const out: string[] = []
  if (!site.soilOhmM.told) out.push('facts.site.soil.resistivity')
  if (!site.frozenSoilOhmM.told) out.push('facts.site.soil.frozen')
  if (!site.frostDepthM.told) out.push('facts.site.ground.frost-depth')
  return out
}

function electrodeWorking(asked: Asked, id: string, ends: ElectrodeEnds) {
  const { site } = asked.inputs.job
  const { electrode } = asked.box
  const asks = asked.inputs.rules.electrodes()
  const ring = electrode.kind === 'ring'
  const rests = source(ring ? 'Dwight 1936, ring; IEEE 142 Table 4-5' : 'BS 7430, 9.5.3; Dwight 1936', ring ? 'memory' : 'read')
  const form = ring ? 'ρ/(2π²D)·(ln(8D/d) + ln(4D/s))' : 'ρ/(2πL)·(ln(8L/d) − 1)·group'
  const groupRests = source(
    ends.group === 'lambda' ? 'BS 7430 Table 2' : ends.group === 'two rods' ? 'Dwight 1936, two rods' : 'IEEE 142 Table 4-5',
    'memory',
  )
  return lazyWorking({
    id,
    title: `Earth electrode of ${asked.name(asked.box.box)}`,
    steps: () => [
      ...(ring
        ? []
        : [
            step(
              'group',
              `${ends.group}: resistance of all over that of one`,
              [put('n', electrode.count), put('s', electrode.spacingM, 'm'), put('L', electrode.lengthM, 'm')],
              ends.groupRatio,
              '',
              groupRests,
            ),
          ]),
      step(
        'R thawed, low',
        form,
        [put('ρ', site.soilOhmM.low, 'ohm·m'), put('L', electrode.lengthM, 'm'), put('d', electrode.diameterM, 'm')],
        ends.thawed.low,
        'Ohm',
        rests,
      ),
      step('R thawed, high', form, [put('ρ', site.soilOhmM.high, 'ohm·m')], ends.thawed.high, 'Ohm', rests),
      ...(ends.frozen === null
        ? []
        : [
            step(
              'R frozen, low',
              '1/(1/R below + 1/R in frost)',
              [put('ρ frozen', site.frozenSoilOhmM.low, 'ohm·m'), put('h', site.frostDepthM.low, 'm')],
              ends.frozen.low,
              'Ohm',
              source('layers side by side', 'common practice'),
            ),
            step(
              'R frozen, high',
              '1/(1/R below + 1/R in frost)',
              [put('ρ frozen', site.frozenSoilOhmM.high, 'ohm·m'), put('h', site.frostDepthM.high, 'm')],
              ends.frozen.high,
              'Ohm',
              source('layers side by side', 'common practice'),
            ),
          ]),
      step(
        'I',
        'V/R',
        [put('V', asked.system.lineNeutralV, 'V'), put('R', ends.low, 'Ohm')],
        asked.system.lineNeutralV / ends.low,
        'A',
        source('Ohm’s law', 'computed'),
      ),
      ...asks.steps,
    ],
  })
}

/** TT: what the electrode lifts the metal to when the residual device just does not open. */
function ttFinding(asked: Asked, ends: ElectrodeEnds): Answered {
  const residuals = asked.box.circuits.filter((c) => c.shock.kind !== 'none' && c.shock.sensitivityMA !== null)
  const most = residuals.reduce((worst, c) => Math.max(worst, c.shock.sensitivityMA ?? 0), 0)
  if (most === 0) return { findings: [], workings: [] }
  const limitV = WET_V
  const residualA = most / 1000
  const low = touchTtV({ electrodeOhm: ends.low, residualA })
  const high = touchTtV({ electrodeOhm: ends.high, residualA })
  const at = (limit: number): Verdict => judgeEnds(judgeUpper(low, limit), judgeUpper(high, limit))
  const dry = at(UNLIMITED_V)
  const verdict: Verdict = dry === 'holds' && at(limitV) !== 'holds' ? 'tight' : dry
  const id = asked.name(`${asked.box.box}/tt`)
  const rests = source('IEC 60364-4-41, 411.5.3: RA·IΔn ≤ 50 V', 'read')
  const unstable = ends.high > STABLE_OHM ? ` Above ${ohm(STABLE_OHM)} a reading does not stay.` : ''
  const finding: Finding = {
    code: 'faults/tt-touch',
    question: 'faults',
    subject: asked.box.box,
    verdict,
    basis: 'code',
    said: `In TT the electrode of ${span(ends, 'Ohm')} times ${most} mA lifts the metal by ${span({ low, high }, 'V')}; ${UNLIMITED_V} V may stand dry, ${limitV} V wet.${unstable}`,
    demand: put('RA·IΔn', high, 'V'),
    limit: put('U', UNLIMITED_V, 'V'),
    provenance: 'memory',
    confirm: true,
    assumed: assumedSoil(asked),
    workings: [id],
    mends: [],
    decides: whoDecides(asked.box),
    caution: 'Measure RA before switching on.',
  }
  const working = lazyWorking({
    id,
    title: `Touch voltage in TT of ${asked.name(asked.box.box)}`,
    steps: () => [
      step('U low', 'RA·IΔn', [put('RA', ends.low, 'Ohm'), put('IΔn', residualA, 'A')], low, 'V', rests),
      step('U high', 'RA·IΔn', [put('RA', ends.high, 'Ohm'), put('IΔn', residualA, 'A')], high, 'V', rests),
    ],
    judgement: {
      demand: put('U', high, 'V'),
      relation: '≤',
      limit: put('U', UNLIMITED_V, 'V'),
      tight: `above ${limitV} V, the skin wet`,
      rests,
    },
  })
  return { findings: [finding], workings: [working] }
}

/** Above this a reading of RA may not be stable. @source IEC 60364-4-41, 411.5.3 note. Provenance: read */
const STABLE_OHM = 200

/** TN: share of the source voltage over the protective conductor until the device opens. One finding a box, for the circuit that is worst. */
function touchOf(
  asked: Asked,
  all: readonly (readonly CircuitTrip[])[],
  ends: ElectrodeEnds,
): Answered & { readonly touch: readonly Touch[] } {
  const table = asked.inputs.rules.tables['touch-voltage']?.rows ?? []
  const volts = asked.system.lineNeutralV
  const worst = new Map<string, Rose>()
  for (const trips of all) {
    for (const trip of trips) {
      const rose = trip.earth === null ? inTt(trip, ends) : inTn(trip, volts, table)
      if (rose === null) continue
      const known = worst.get(trip.circuit.id)
      if (
        known === undefined ||
        rose.openS / rose.mayS > known.openS / known.mayS ||
        (rose.openS / rose.mayS === known.openS / known.mayS && rose.touchV > known.touchV)
      )
        worst.set(trip.circuit.id, rose)
    }
  }
  const touch = [...worst.values()].map((r) => ({
    circuit: r.trip.circuit.id,
    system: r.system,
    touchV: r.touchV,
    limitV: UNLIMITED_V,
  }))
  const tn = [...worst.values()].filter((r) => r.system === 'TN')
  if (tn.length === 0) return { findings: [], workings: [], touch }
  const first = tn.reduce((a, b) =>
    b.openS / b.mayS > a.openS / a.mayS || (b.openS / b.mayS === a.openS / a.mayS && b.touchV > a.touchV) ? b : a,
  )
  const late = tn.filter((r) => r.openS > r.mayS)
  // The touch curve is no clause of us or ca, and in intl the disconnection time stands for it: late is near, said by its physics.
  const verdict: Verdict = late.length > 0 ? 'tight' : 'holds'
  const id = asked.name(`${asked.box.box}/touch`)
  const rests = source('0.8·Uo·R2/(R1 + R2), IEC/TS 61200-413; table touch-voltage', 'memory')
  const finding: Finding = {
    code: 'faults/touch-voltage',
    question: 'faults',
    subject: first.trip.circuit.id,
    verdict,
    basis: 'physics',
    said: `A fault to earth on ${first.trip.circuit.id} ${onSource(first.trip.levels)} lifts the metal to ${formatQuantity(first.touchV, 'V')} until the device opens (${inSeconds(first.openS)}); dry, that may stand ${first.mayS === Infinity ? 'without limit' : inSeconds(first.mayS)}.${late.length > 1 ? ` ${late.length} circuits open later than that.` : ''}`,
    demand: seconds('t', first.openS),
    limit: first.mayS === Infinity ? put('t may', 'without limit') : seconds('t may', first.mayS),
    provenance: 'memory',
    confirm: true,
    assumed: [],
    workings: [id],
    mends:
      late.length > 0 && first.trip.circuit.shock.kind === 'none'
        ? [
            {
              path: `circuits.${first.trip.circuit.id}.shock`,
              value: first.trip.demand.kind === 'time' ? 'rcd' : 'equipment 30 mA',
              words: 'a residual device, which opens at once',
            },
          ]
        : [],
    decides: whoDecides(asked.box),
    caution: 'Snow-melt makes skin wet: 25 V then already counts.',
  }
  const working = lazyWorking({
    id,
    title: `Touch voltage of ${asked.name(first.trip.circuit.id)}`,
    steps: () => [
      step(
        'U',
        '0.8·Uo·R2/(R1 + R2)',
        [
          put('Uo', volts, 'V'),
          put('R1', first.lineOhm, 'Ohm'),
          put('R2', first.protectiveOhm, 'Ohm'),
          put('share', CIRCUIT_SHARE_FRAC),
        ],
        first.touchV,
        'V',
        rests,
      ),
      step('t', 'slow edge, or residual device', [ampere('I', first.trip.least.earthA ?? 0)], first.openS, 's', rests),
    ],
    judgement: {
      demand: seconds('t', first.openS),
      relation: '≤',
      limit: first.mayS === Infinity ? put('t', 'without limit') : seconds('t', first.mayS),
      tight: 'none',
      rests,
    },
  })
  return { findings: [finding], workings: [working], touch }
}

interface Rose {
  readonly trip: CircuitTrip
  readonly system: 'TN' | 'TT'
  readonly touchV: number
  readonly mayS: number
  readonly openS: number
  readonly lineOhm: number
  readonly protectiveOhm: number
}

function inTn(trip: CircuitTrip, volts: number, table: Parameters<typeof touchTimeS>[1]): Rose | null {
  const run = trip.levels.trees.weak.runs.get(trip.circuit.id)
  const cord = trip.place.plug === null ? undefined : trip.levels.trees.weak.cords.get(trip.place.plug)
  const lineOhm = (run?.phase.ohm.re ?? 0) + (cord?.phase.ohm.re ?? 0)
  const protectiveOhm = (run?.protective?.ohm.re ?? 0) + (cord?.protective?.ohm.re ?? 0)
  if (lineOhm + protectiveOhm <= 0) return null
  const touchV = touchTnV({ lineEarthV: volts, lineOhm, protectiveOhm })
  const bySlow = trip.earth?.reduce((worst, t) => Math.max(worst, t.slowS), 0) ?? Infinity
  return {
    trip,
    system: 'TN',
    touchV,
    mayS: touchTimeS(touchV, table),
    openS: Math.min(bySlow, trip.residualS ?? Infinity),
    lineOhm,
    protectiveOhm,
  }
}

function inTt(trip: CircuitTrip, ends: ElectrodeEnds): Rose | null {
  const mA = trip.circuit.shock.sensitivityMA
  if (mA === null) return null
  return {
    trip,
    system: 'TT',
    touchV: touchTtV({ electrodeOhm: ends.high, residualA: mA / 1000 }),
    mayS: Infinity,
    openS: trip.residualS ?? Infinity,
    lineOhm: 0,
    protectiveOhm: 0,
  }
}

/** A reading at another place says nothing here. */
function oldReading(asked: Asked): readonly Finding[] {
  const { built, site } = asked.inputs.job
  if (built === null || built.electrodeOhm === null) return []
  return [
    {
      code: 'faults/old-electrode',
      question: 'faults',
      subject: asked.box.box,
      verdict: 'tight',
      basis: 'physics',
      said: `The ${ohm(built.electrodeOhm)} read at the old place prove nothing in this soil of ${span(site.soilOhmM, 'ohm·m')}, ${formatQuantity(site.frozenSoilOhmM.high, 'ohm·m')} frozen: drive anew and measure here.`,
      demand: put('R', built.electrodeOhm, 'Ohm'),
      provenance: 'told',
      assumed: assumedSoil(asked),
      workings: [asked.name(`${asked.box.box}/electrode`)],
      mends: [],
      decides: whoDecides(asked.box),
    },
  ]
}

const capital = (s: string): string => s.charAt(0).toUpperCase() + s.slice(1)
