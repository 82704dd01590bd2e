import type { DrawnBox } from '@plugstead/drawings'
import { pinPath } from '@plugstead/engine/fit'
import type { Opening, PlacedItem, Side } from '@plugstead/engine/job'
import { SIDES } from '@plugstead/engine/job'
import { type Finding, type Verdict, worst } from '@plugstead/engine/kernel'
import type { Laid } from './at-work.ts'
import type { BoxAnswer, ThingLine } from './protocol.ts'
import { machineLines, phasesOfBox } from './yard.ts'

/** Everything of every box that can be chosen, each with what was found of it. */
export function boxAnswers(at: Laid): readonly BoxAnswer[] {
  return at.drawn.map((drawn) => ({
    box: drawn.build.box,
    things: thingLines(at, drawn),
    machines: machineLines(at, drawn),
    phases: phasesOfBox(at, drawn.build.box),
  }))
}

function thingLines(at: Laid, drawn: DrawnBox): readonly ThingLine[] {
  const { fit, skin } = drawn.build
  const names = new Set(fit.items.map((item) => item.id))
  const hung = fit.items.map((item) => lineOf(at, drawn, item.id, hungOf(drawn, item)))
  const cut = skin.openings
    .filter((o) => !names.has(o.id) && !(o.use === 'cord exit' && o.plate === null))
    .map((o) => lineOf(at, drawn, o.id, cutOf(drawn, o)))
  const order = (line: ThingLine): number => SIDES.indexOf(line.side)
  return [...hung, ...cut].toSorted(
    (a, b) => order(a) - order(b) || a.alongM - b.alongM || b.upM - a.upM || (a.id < b.id ? -1 : 1),
  )
}

type Placed = Omit<ThingLine, 'id' | 'verdict' | 'findings' | 'pinned' | 'clashes'>

function hungOf(drawn: DrawnBox, item: PlacedItem): Placed {
  const middle = item.atMm.map((low, axis) => low + item.sizeMm[axis]! / 2) as [number, number, number]
  const own = item.id.startsWith(`${item.kind} `) ? item.id.slice(item.kind.length + 1) : item.id
  return {
    kind: item.kind,
    letters: item.kind === 'receptacle' || item.kind === 'junction box' ? own : item.id,
    what: item.what,
    side: item.side,
    face: item.face,
    ...whereOf(drawn, item.side, middle),
    place: pinnedAt(drawn, item, middle),
    circuits: item.circuits,
  }
}

function cutOf(drawn: DrawnBox, opening: Opening): Placed {
  return {
    kind: opening.use,
    letters: opening.id,
    what: opening.use,
    side: opening.side,
    face: 'outside',
    ...whereOf(drawn, opening.side, opening.atMm),
    place: null,
    circuits: opening.serves,
  }
}

function pinnedAt({ body, build }: DrawnBox, item: PlacedItem, middle: readonly number[]): ThingLine['place'] {
  const flat = item.side === 'roof' || item.side === 'floor'
  const ends = item.side === 'blind end' || item.side === 'door end'
  return {
    path: pinPath(build.box, item.id),
    alongM: middle[ends ? 1 : 0]! / 1000,
    upM: (flat ? middle[1]! : middle[2]! - body.floor.topMm) / 1000,
  }
}

/** Up from the floor, and along from the blind end or the left long side. */
function whereOf({ body }: DrawnBox, side: Side, middle: readonly number[]): Pick<ThingLine, 'upM' | 'alongM' | 'from'> {
  const long = side !== 'blind end' && side !== 'door end'
  return {
    upM: (middle[2]! - body.floor.topMm) / 1000,
    alongM: middle[long ? 0 : 1]! / 1000,
    from: long ? 'blind end' : 'left long side',
  }
}

function lineOf(at: Laid, drawn: DrawnBox, id: string, placed: Placed): ThingLine {
  const { findings } = at.found.assessment
  const subjects = subjectsOf(drawn, id, placed)
  const own = findings.flatMap((f, i) => (subjects.has(f.subject) || ofThePanel(drawn, placed, f) ? [i] : []))
  const ranked = own.toSorted((a, b) => rank(findings[b]!.verdict) - rank(findings[a]!.verdict) || a - b)
  return {
    id,
    ...placed,
    verdict: own.length === 0 ? null : worst(own.map((i) => findings[i]!.verdict)),
    findings: ranked,
    pinned: drawn.pinned.includes(id),
    clashes: drawn.build.fit.clashes.flatMap(({ what, against, byMm }) =>
      what === id ? [{ against, byMm }] : against === id ? [{ against: what, byMm }] : [],
    ),
  }
}

/** The thing that a finding, a row or an item of a drawing is about, by every name it goes by. The first one named so has it. */
export function thingsByName(at: Laid): ReadonlyMap<string, { readonly box: string; readonly line: ThingLine }> {
  const named = new Map<string, { readonly box: string; readonly line: ThingLine }>()
  for (const drawn of at.drawn) {
    const { box } = drawn.build
    for (const line of thingLines(at, drawn))
      for (const name of subjectsOf(drawn, line.id, line)) if (!named.has(name)) named.set(name, { box, line })
  }
  return named
}

const RANK: Readonly<Record<Verdict, number>> = { holds: 0, tight: 1, unknown: 2, fails: 3 }
const rank = (verdict: Verdict): number => RANK[verdict]

/** How findings name a thing. A plug, its circuit and its receptacle are one thing to whoever stands before it. */
function subjectsOf(drawn: DrawnBox, id: string, { kind, circuits }: Placed): ReadonlySet<string> {
  const { box, skin } = drawn.build
  const subjects = [`${box} ${id}`]
  if (kind === 'receptacle' || kind === 'junction box') {
    const plug = plugOf(kind, id)
    subjects.push(plug, `${box} ${plug}`, `${box} exit ${plug}`, ...circuits)
  } else if (kind === 'heater' || kind === 'fan' || kind === 'controls') subjects.push(...circuits)
  else if (kind === 'light') subjects.push(`${box} light`, ...circuits)
  const plate = skin.openings.find((o) => o.id === id && o.plate !== null)
  if (plate !== undefined) subjects.push(...plate.serves.map((plug) => `${box} ${plug}`))
  return new Set(subjects)
}

/** `receptacle G4C` serves the plug G4C, `FP1 junction box` FP1. */
export function plugOf(kind: string, id: string): string {
  return id.replace(kind, '').trim()
}

/** What is found of a whole box's circuits and fault currents hangs on its panel. */
const PANEL =
  /^(circuits\/(plugs-fed|main-holds|bus|ways|spare|balance|feed|feed-neutral)|faults\/(interrupting|bus-withstand|coordination)|reach\/panel-volts|reach\/open-neutral)$/

function ofThePanel({ build }: DrawnBox, { kind }: Placed, finding: Finding): boolean {
  return kind === 'panel' && PANEL.test(finding.code) && finding.subject.split(' ')[0] === build.box
}
