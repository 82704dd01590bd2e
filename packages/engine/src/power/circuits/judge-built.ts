import type { Plug } from '../../job/index.ts'
import { put, source, step } from '../../kernel/index.ts'
import type { Inputs } from '../inputs.ts'
import { systemOf } from '../systems.ts'
import { type Check, shown, worded } from './check.ts'
import { takesPlugOf } from './connection.ts'
import { COLD_MARGIN_K } from './cord.ts'

type Built = NonNullable<Inputs['job']['built']>

/** A box that stands already, held against what this job asks of it: facts, nothing designed. */
export function builtChecks(inputs: Inputs): readonly Check[] {
  const { built } = inputs.job
  if (built === null) return []
  return [
    ...systemChecks(inputs, built),
    ...outletChecks(inputs, built),
    ...wayChecks(inputs, built),
    ...cordChecks(inputs, built),
    ...deviceColdChecks(inputs, built),
    ...approvalChecks(inputs, built),
    ...stateChecks(built),
  ]
}

const TOLD = source('box as built, as written', 'told')

/** Three-phase machines on a single-phase panel; and a panel for a split supply put on two phases of a wye. */
function systemChecks(inputs: Inputs, built: Built): readonly Check[] {
  const { job, rules } = inputs
  const site = systemOf(rules, job.system)
  const panel = rules.systems.find((s) => s.id === built.system)
  const legs = panel?.legs.length ?? 2
  const out: Check[] = []
  const three = job.plugs.filter((p) => p.phases === 3)
  if (legs < 3 && three.length > 0) {
    out.push(
      worded({
        what: 'built-phases',
        title: 'three-phase machines',
        basis: 'physics',
        rests: TOLD,
        verdict: 'fails',
        found: panel?.title ?? built.system,
        wanted: 'three phases',
        said: `has a single-phase panel: ${three.map((p) => p.tag).join(', ')} is three-phase and cannot be fed from it as built.`,
      }),
    )
  }
  if (legs === 2 && site.legs.length === 3 && site.kind === 'wye') {
    const lineNeutral = job.plugs.filter(
      (p) => p.phases === 1 && Math.abs(p.voltageV - site.lineNeutralV) / site.lineNeutralV < 0.1,
    )
    const half = lineNeutral.reduce((s, p) => s + p.currentA, 0) / 2
    const rests = source('two phases of a wye are 120° apart: |Ia + Ib| = I when both are I', 'computed')
    out.push(
      worded({
        what: 'built-neutral',
        title: 'neutral of a panel on two phases and neutral of a wye',
        basis: 'physics',
        rests,
        verdict: 'unknown',
        relation: '≤',
        found: Math.round(half),
        wanted: 'size of the neutral as built',
        unit: 'A',
        steps: [
          step('IN', '√(Ia² + Ib² − Ia·Ib), both legs alike', [put('Ia', half, 'A'), put('Ib', half, 'A')], half, 'A', rests),
        ],
        said: `was built for ${panel?.title ?? built.system}; on two phases and neutral of ${site.title} the neutral carries ${shown(half)} A even when both legs are equal. It must be as large as the lines and counts in the raceways; its size was not told.`,
      }),
    )
    const lines = job.plugs.filter((p) => p.phases === 1 && !lineNeutral.includes(p))
    const rated = job.plugs.filter((p) => p.rated !== undefined && p.rated.voltageV > p.voltageV * 1.05)
    if (lines.length > 0) {
      out.push(
        worded({
          what: 'built-volts',
          title: 'volts between the lines',
          basis: 'physics',
          rests: source('lines of a wye', 'computed'),
          verdict: 'tight',
          found: `${site.lineLineV} V`,
          wanted: `${panel?.lineLineV ?? '240'} V`,
          grave: false,
          said: `gives ${site.lineLineV} V between its lines here, not ${panel?.lineLineV ?? 240} V${rated.map((p) => `; ${p.tag} keeps ${shown(100 * (p.voltageV / p.rated!.voltageV) ** 2)} % of its heat`).join('')}.`,
        }),
      )
    }
  }
  return out
}

/** Physical outlets by kind: as many as there are plugs of that kind. */
function outletChecks(inputs: Inputs, built: Built): readonly Check[] {
  const { job } = inputs
  const wanted = new Map<string, Plug[]>()
  const seen = new Set<string>()
  for (const plug of job.plugs) {
    if (/^hard[ -]?wired/i.test(plug.outlet) || plug.phases === 3) continue
    if (plug.plugShared !== undefined) {
      if (seen.has(plug.plugShared)) continue
      seen.add(plug.plugShared)
    }
    wanted.set(plug.outlet, [...(wanted.get(plug.outlet) ?? []), plug])
  }
  const left = built.circuits.map((c) => ({ outlet: c.outlet, count: c.count }))
  const short: string[] = []
  let need = 0
  for (const exact of [true, false]) {
    for (const [outlet, plugs] of [...wanted].sort(([a], [b]) => (a < b ? -1 : 1))) {
      if (exact) need += plugs.length
      let open = plugs.length
      for (const l of left) {
        if (exact ? l.outlet !== outlet : !takesPlugOf(l.outlet, outlet)) continue
        const take = Math.min(open, l.count)
        l.count -= take
        open -= take
      }
      if (exact) wanted.set(outlet, plugs.slice(0, open))
      else if (open > 0) short.push(`${open} × ${outlet}`)
    }
  }
  const has = built.circuits.reduce((n, c) => n + c.count, 0)
  return [
    worded({
      what: 'built-outlets',
      title: 'outlets as built',
      basis: 'physics',
      rests: TOLD,
      verdict: short.length === 0 ? 'holds' : 'fails',
      relation: '≥',
      found: has,
      wanted: need,
      unit: 'outlets',
      grave: false,
      said:
        short.length === 0 ? `has an outlet for each of the ${need} plugs.` : `is short of outlets: ${short.join(', ')} missing.`,
    }),
  ]
}

/** Each machine on the way that its outlet has: 80 % or all of the device, as the set says. */
function wayChecks(inputs: Inputs, built: Built): readonly Check[] {
  const { job, rules } = inputs
  const over: string[] = []
  let worst = 0
  for (const plug of job.plugs) {
    const circuit =
      built.circuits.find((c) => c.outlet === plug.outlet) ?? built.circuits.find((c) => takesPlugOf(c.outlet, plug.outlet))
    if (circuit === undefined) continue
    const continuous =
      plug.kind === 'heater' || plug.kind === 'charger' || rules.isContinuous(plug.hoursPerDay, circuit.deviceA).value
    const limitA = continuous ? rules.deviceHoldsA(circuit.deviceA).value : circuit.deviceA
    worst = Math.max(worst, plug.currentA / limitA)
    if (plug.currentA > limitA * (1 + 1e-9))
      over.push(
        `${plug.tag} keeps ${shown(plug.currentA)} A on a ${circuit.deviceA} A way, over the ${shown(limitA)} A that may stay there`,
      )
  }
  const ways = built.circuits.reduce((n, c) => n + c.count * c.poles, 0)
  const holds = rules.deviceHoldsA(20)
  const out: Check[] = [
    worded({
      what: 'built-way',
      title: 'ways as built against what stays on them',
      basis: 'code',
      rests: holds.steps[0]?.rests ?? TOLD,
      steps: holds.steps,
      verdict: over.length > 0 ? 'fails' : worst > 0.9 ? 'tight' : 'holds',
      relation: '≤',
      found: Math.round(worst * 100),
      wanted: 100,
      unit: '%',
      said:
        over.length === 0
          ? `carries every machine on its way; the fullest is ${shown(worst * 100)} % of what may stay on it.`
          : `is asked too much of a way: ${over.join('; ')}.`,
    }),
  ]
  out.push(
    worded({
      what: 'built-ways',
      title: 'ways as built',
      basis: 'physics',
      rests: TOLD,
      verdict: ways <= built.ways ? 'holds' : 'fails',
      relation: '≤',
      found: ways,
      wanted: built.ways,
      unit: 'ways',
      grave: false,
      said: `uses ${ways} of its ${built.ways} ways${ways <= built.ways ? `; ${built.ways - ways} are free` : ''}.`,
    }),
  )
  return out
}

function cordChecks(inputs: Inputs, built: Built): readonly Check[] {
  const { designMinC } = inputs.job.site
  return built.cords.map((cord) => {
    const base = {
      what: 'built-cords',
      title: 'jackets of the cords on the shelf',
      basis: 'maker' as const,
      rests: source('jacket mark at or below the design minimum less 5 K', 'common practice'),
    }
    const name = `${cord.count} cords ${cord.size}`
    if (designMinC === null || cord.jacketMarkedC === null) {
      return worded({
        ...base,
        verdict: 'unknown',
        found: cord.jacketMarkedC ?? 'no mark',
        wanted: designMinC ?? 'the design minimum',
        said: `has ${name} marked ${cord.jacketMarkedC === null ? 'nothing' : `${cord.jacketMarkedC} °C`}; ${designMinC === null ? 'nobody told how cold the place gets' : `the place is designed for ${designMinC} °C`}.`,
      })
    }
    const wantedC = designMinC - COLD_MARGIN_K
    const verdict = cord.jacketMarkedC <= wantedC ? 'holds' : cord.jacketMarkedC <= designMinC ? 'tight' : 'fails'
    return worded({
      ...base,
      verdict,
      relation: '≤',
      found: cord.jacketMarkedC,
      wanted: wantedC,
      unit: '°C',
      said: `has ${name} marked ${cord.jacketMarkedC} °C; the place is designed for ${designMinC} °C, and ${wantedC} °C is wanted.`,
    })
  })
}

function deviceColdChecks(inputs: Inputs, built: Built): readonly Check[] {
  const { designMinC } = inputs.job.site
  if (built.outletDeviceMinC === null && designMinC !== null && designMinC > 0) return []
  const base = { what: 'built-outlet-cold', title: 'outlet devices in the cold', basis: 'maker' as const, rests: TOLD }
  if (built.outletDeviceMinC === null || designMinC === null)
    return [
      worded({
        ...base,
        verdict: 'unknown',
        found: built.outletDeviceMinC ?? 'not told',
        wanted: designMinC ?? 'the design minimum',
        said: `has outlet devices rated to ${built.outletDeviceMinC === null ? 'nobody said what' : `${built.outletDeviceMinC} °C`} in a place ${designMinC === null ? 'whose cold nobody told' : `designed for ${designMinC} °C`}.`,
      }),
    ]
  const verdict = designMinC < built.outletDeviceMinC ? 'fails' : designMinC < built.outletDeviceMinC + 3 ? 'tight' : 'holds'
  return [
    worded({
      ...base,
      verdict,
      relation: '≤',
      found: built.outletDeviceMinC,
      wanted: designMinC,
      unit: '°C',
      said: `has outlet devices rated down to ${built.outletDeviceMinC} °C; the place is designed for ${designMinC} °C.`,
    }),
  ]
}

function approvalChecks(inputs: Inputs, built: Built): readonly Check[] {
  if (built.rulesWhenBuilt === inputs.job.rules.set) return []
  return [
    worded({
      what: 'built-approval',
      title: 'approval of the other country',
      basis: 'code',
      rests: source('approved equipment only; whose mark counts is the inspector’s to say', 'memory'),
      verdict: 'unknown',
      found: built.approval,
      wanted: `approval under ${inputs.rules.title}`,
      said: `was built under other rules and carries “${built.approval}”: it is not approved here until it has been looked at again.`,
      decides: 'the electrical inspector',
    }),
  ]
}

/** A full test is good for so long. House rule. */
const TEST_MONTHS = 12

function stateChecks(built: Built): readonly Check[] {
  const out: Check[] = []
  if (built.defects.length > 0)
    out.push(
      worded({
        what: 'built-defects',
        title: 'open defects',
        basis: 'house',
        rests: TOLD,
        verdict: 'fails',
        found: built.defects.length,
        wanted: 0,
        unit: 'defects',
        said: `is not to be switched on as it stands: ${built.defects.map((d) => d.replace(/\.$/, '')).join('; ')}.`,
      }),
    )
  const months = built.lastFullTestMonthsAgo
  const rests = source('a full test before each season and after each move', 'common practice')
  const verdict = months === null ? 'unknown' : months > TEST_MONTHS ? 'fails' : 'holds'
  out.push(
    worded({
      what: 'built-test',
      title: 'last full test',
      basis: 'house',
      rests,
      verdict,
      relation: '≤',
      found: months ?? 'not told',
      wanted: TEST_MONTHS,
      unit: 'months',
      said:
        months === null
          ? 'was last tested nobody said when.'
          : `was last tested in full ${months} months ago; ${TEST_MONTHS} months is what a test is taken to be good for.`,
    }),
  )
  return out
}
