import type { Circuit, Plug } from '../../job/index.ts'
import { type Finding, judgeUpper, put, type Step, source, step, type Working, worst } from '../../kernel/index.ts'
import type { Outlet } from '../../rules/index.ts'
import { isContinuousLoad } from './demand.ts'
import { elementOn } from './element.ts'
import { type BoxFacts, found, shown } from './finding.ts'
import { plugWorkingId } from './rows.ts'

/** Element fed above its marked voltage by more than this burns out early; below this share of heat it is worth a word. */
const OVER_FRAC = 1.05
const LEFT_FRAC = 0.95
/** W counted for an element may differ from P0·(V/V0)² by this, as every row may. */
const ROW_FRAC = 0.05
const TIGHT_FRAC = 0.1

export interface PlugFindings {
  readonly findings: readonly Finding[]
  readonly workings: readonly Working[]
}

const circuitOf = (facts: BoxFacts, tag: string): Circuit | undefined =>
  facts.behind.flatMap((b) => b.circuits).find((c) => c.plugs.includes(tag))

/** Findings about single plugs and machines: element voltage, plug rating, two elements on one way, and plugs that nothing feeds. */
export function plugFindings(facts: BoxFacts): PlugFindings {
  const findings: Finding[] = []
  const workings: Working[] = []
  for (const plug of facts.plugs) {
    const element = elementFinding(plug)
    if (element) findings.push(element)
    if (circuitOf(facts, plug.tag) === undefined) {
      findings.push(
        found({
          code: 'needs/not-fed',
          subject: plug.tag,
          verdict: 'fails',
          basis: 'physics',
          provenance: 'computed',
          said: `${plug.tag} (${plug.what}) stands on no circuit of the design.`,
        }),
      )
    }
  }
  for (const group of physicalPlugs(facts.plugs)) {
    const rated = ratingFinding(facts, group)
    if (!rated) continue
    findings.push(rated.finding)
    workings.push(rated.working)
  }
  for (const machine of machinesWithTwo(facts.plugs)) findings.push(oneWayFinding(facts, machine))
  return { findings, workings }
}

function elementFinding(plug: Plug): Finding | null {
  if (!plug.rated) return null
  const { powerW: ratedW, voltageV: ratedV } = plug.rated
  const on = elementOn({ ratedW, ratedV, actualV: plug.voltageV })
  const counted = Math.abs(plug.powerW - on.powerW) <= ROW_FRAC * on.powerW
  const over = plug.voltageV > ratedV * OVER_FRAC
  const verdict = over || !counted ? 'fails' : on.leftFrac < LEFT_FRAC ? 'tight' : 'holds'
  const left = `${shown(ratedW)} W at ${ratedV} V gives ${Math.round(on.powerW)} W at ${plug.voltageV} V, ${Math.round(on.leftFrac * 100)} %`
  const more = over ? '; it is fed above its mark and may burn out' : counted ? '' : `; the list counts ${shown(plug.powerW)} W`
  return found({
    code: 'needs/element-voltage',
    subject: plug.tag,
    verdict,
    basis: over ? 'maker' : 'physics',
    provenance: 'told',
    said: `${plug.tag}: its element marked ${left}${more}.`,
    demand: put('P', on.powerW, 'W'),
    limit: put('P0', ratedW, 'W'),
    workings: [plugWorkingId(plug.tag)],
  })
}

/** Plugs as a hand pulls them: rows that share one are one. */
export function physicalPlugs(plugs: readonly Plug[]): readonly (readonly Plug[])[] {
  const byPlug = new Map<string, Plug[]>()
  for (const plug of plugs) {
    const key = plug.plugShared === undefined ? `tag ${plug.tag}` : `shared ${plug.plugShared}`
    byPlug.set(key, [...(byPlug.get(key) ?? []), plug])
  }
  return [...byPlug.values()]
}

/**
 * Current of a physical plug against what its outlet may carry: the share of the rating that the set lets a continuous load take, or the
 * rating for the rest. Null where it is hard-wired or the outlet is not known to the set.
 */
function ratingFinding(facts: BoxFacts, group: readonly Plug[]): { readonly finding: Finding; readonly working: Working } | null {
  const first = group[0] as Plug
  const circuit = circuitOf(facts, first.tag)
  const name = circuit?.outlet ?? first.outlet
  if (name === 'hard-wired') return null
  const outlet = facts.rules.outletNamed(name) ?? facts.rules.outletNamed(first.outlet)
  if (outlet === null) return null
  const loads = facts.loads.filter((load) => group.some((plug) => plug.tag === load.tag))
  const currentA = loads.reduce((sum, load) => sum + load.currentA, 0)
  const powerW = loads.reduce((sum, load) => sum + load.powerW, 0)
  const continuousA = loads.filter((load) => isContinuousLoad(load, facts.rules)).reduce((sum, load) => sum + load.currentA, 0)
  const holds = facts.rules.deviceHoldsA(outlet.ratingA)
  const limitA = continuousA > 0 ? holds.value : outlet.ratingA
  const verdict = worst([
    judgeUpper(currentA, outlet.ratingA, 0),
    judgeUpper(continuousA, holds.value, TIGHT_FRAC),
    judgeUpper(currentA, outlet.ratingA, TIGHT_FRAC),
  ])
  const id = `${first.plugShared ?? first.tag}/plug-rating`
  const names = group.map((plug) => plug.tag).join(' and ')
  const over =
    currentA > outlet.ratingA
      ? `over its ${outlet.ratingA} A`
      : `${Math.round((100 * currentA) / outlet.ratingA)} % of its ${outlet.ratingA} A`
  const said = `${names} on ${group.length > 1 ? 'one' : 'a'} ${outlet.id} plug: ${Math.round(powerW)} W, ${shown(currentA)} A, ${over}${continuousA > 0 && limitA < outlet.ratingA ? `; for hours on end it holds ${shown(limitA)} A` : ''}${smallerWords(facts, outlet, currentA, continuousA)}.`
  const rests = holds.steps[0]?.rests ?? source('rating of the outlet', 'common practice')
  const steps: Step[] = [
    step(
      'I',
      group.length > 1 ? 'sum of what hangs on the plug' : 'as the plug draws',
      loads.map((load) => put(load.tag, load.currentA, 'A')),
      currentA,
      'A',
      source('machine list', 'told'),
    ),
    ...holds.steps,
  ]
  return {
    finding: found({
      code: group.length > 1 ? 'needs/shared-plug' : 'needs/plug-rating',
      subject: first.plugShared ?? first.tag,
      verdict,
      basis: continuousA > 0 ? 'code' : 'maker',
      provenance: rests.provenance,
      said,
      demand: put('I', currentA, 'A'),
      limit: put('I max', limitA, 'A'),
      workings: [id, ...group.map((plug) => plugWorkingId(plug.tag))],
      ...(rests.provenance === 'memory' ? { confirm: true } : {}),
    }),
    working: {
      id,
      title: `${names} on its outlet`,
      steps,
      judgement: { demand: put('I', currentA, 'A'), relation: '≤', limit: put('I max', limitA, 'A'), tight: '10 %', rests },
    },
  }
}

/** The next smaller outlet of the kind, where it would not do: what somebody may take for it. */
function smallerWords(facts: BoxFacts, outlet: Outlet, currentA: number, continuousA: number): string {
  const alike = facts.rules.outlets.filter(
    (o) => o.connection === outlet.connection && o.voltageV === outlet.voltageV && o.ratingA < outlet.ratingA,
  )
  const ratingA = Math.max(0, ...alike.map((o) => o.ratingA))
  if (ratingA === 0) return ''
  const holdsA = continuousA > 0 ? facts.rules.deviceHoldsA(ratingA).value : ratingA
  return judgeUpper(currentA, holdsA, 0) === 'fails' ? `; a ${ratingA} A outlet would not do` : ''
}

/** Machines with two elements or more on plugs of their own. */
function machinesWithTwo(plugs: readonly Plug[]): readonly (readonly Plug[])[] {
  const byMachine = new Map<string, Plug[]>()
  for (const plug of plugs) byMachine.set(plug.machine, [...(byMachine.get(plug.machine) ?? []), plug])
  return [...byMachine.values()].filter((all) => all.length > 1 && physicalPlugs(all).length > 1)
}

function oneWayFinding(facts: BoxFacts, plugs: readonly Plug[]): Finding {
  const currentA = plugs.reduce((sum, plug) => sum + plug.currentA, 0)
  const circuits = [...new Set(plugs.map((plug) => circuitOf(facts, plug.tag)))]
  const shared = circuits.filter(
    (c): c is Circuit => c !== undefined && c.plugs.filter((tag) => plugs.some((p) => p.tag === tag)).length > 1,
  )
  const over = shared.filter((c) => {
    const on = plugs.filter((p) => c.plugs.includes(p.tag)).reduce((sum, p) => sum + p.currentA, 0)
    return judgeUpper(on, facts.rules.deviceHoldsA(c.device.ratingA).value, 0) === 'fails'
  })
  const first = plugs[0] as Plug
  const each = plugs.map((plug) => `${shown(plug.currentA)} A`).join(' + ')
  const how =
    shared.length === 0
      ? 'each has a way of its own'
      : over.length > 0
        ? `they share way ${over[0]?.id} of ${over[0]?.device.ratingA} A`
        : `they share way ${shared[0]?.id} of ${shared[0]?.device.ratingA} A, which holds them`
  return found({
    code: 'needs/two-elements',
    subject: first.machine,
    verdict: over.length > 0 ? 'fails' : 'holds',
    basis: 'code',
    provenance: 'told',
    said: `${plugs.map((plug) => plug.tag).join(' and ')} belong to one machine: ${each} is ${shown(currentA)} A; ${how}.`,
    demand: put('I', currentA, 'A'),
    workings: plugs.map((plug) => plugWorkingId(plug.tag)),
  })
}
