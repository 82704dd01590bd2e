import { cordName, type DrawnBox, machineKind, machineName, machineWords, type YardMachine } from '@plugstead/drawings'
import { rulesOf } from '@plugstead/engine/assess'
import { type DocumentEdit, jobAsDesigned, type Plug, valueIn } from '@plugstead/engine/job'
import { type Verdict, worst } from '@plugstead/engine/kernel'
import { type MovedCord, reachMoved } from '@plugstead/engine/power'
import type { Preferences } from '../hands/preferences.ts'
import { shown } from '../hands/units.ts'
import type { AtWork, Laid } from './at-work.ts'
import type { MachineLine, StandAsked } from './protocol.ts'

/** Phases in which a box feeds something, in their order. */
export const phasesOfBox = ({ job, found }: Laid, box: string): readonly string[] =>
  job.phases.map((p) => p.id).filter((id) => found.design.boxes.some((b) => b.box === box && b.phase === id))

/** Plugs that have a cord of their own from a box in a phase; those that hang on another's cord come with it. */
function plugsFrom({ job }: Laid, box: string, phase: string): readonly Plug[] {
  return job.plugs.filter((p) => p.fedBy[phase] === box && (p.plugShared === undefined || p.plugShared === p.tag))
}

/** Machines that a box feeds in a phase, as the drawing takes them. */
export function yardMachines(at: Laid, drawn: DrawnBox, phase: string, units: Preferences['units']): readonly YardMachine[] {
  const { box, fit } = drawn.build
  const own = plugsFrom(at, box, phase)
  const names = [...new Set(own.map((p) => p.machine))]
  return names.flatMap((id): readonly YardMachine[] => {
    const plugs = own.filter((p) => p.machine === id)
    const cords = plugs.flatMap((plug) => {
      const item = fit.items.find(
        (i) => i.id === `receptacle ${plug.tag}` || i.id === `junction box ${plug.tag}` || i.id === `${plug.tag} junction box`,
      )
      if (item === undefined) return []
      const fromMm = [item.atMm[0] + item.sizeMm[0] / 2, item.atMm[1] + item.sizeMm[1] / 2] as const
      return [{ plug: plug.tag, item: item.id, side: item.side, fromMm, lengthM: plug.cordM }]
    })
    const [first] = plugs
    if (first === undefined || cords.length === 0) return []
    const volts = voltsOf(at, phase, plugs)
    return [
      {
        id,
        kind: machineKind(first.what, first.use),
        cords,
        bearingDeg: at.job.needs.bearingDeg?.[id] ?? null,
        lines: [
          shown(Math.max(...cords.map((c) => c.lengthM)), 'm', units),
          ...(volts === null ? [] : [shown(volts, 'V', units, { digits: 4 })]),
        ],
        verdict: verdictOf(at, plugs),
      },
    ]
  })
}

/** Fewest volts at a machine with everything on. */
function voltsOf({ found }: Laid, phase: string, plugs: readonly Plug[]): number | null {
  const tags = new Set(plugs.map((p) => p.tag))
  const rows = found.assessment.results.reach.boxes
    .filter((b) => b.phase === phase)
    .flatMap((b) => (b.states[0]?.plugs ?? []).filter((row) => tags.has(row.plug)))
  return rows.length === 0 ? null : Math.min(...rows.map((row) => row.voltageV))
}

function verdictOf({ found }: Laid, plugs: readonly Plug[]): Verdict | null {
  const tags = new Set(plugs.map((p) => p.tag))
  const own = found.assessment.findings.filter((f) => f.question === 'reach' && tags.has(f.subject))
  return own.length === 0 ? null : worst(own.map((f) => f.verdict))
}

/** What a list says of the machines of a box. */
export function machineLines(at: Laid, drawn: DrawnBox): readonly MachineLine[] {
  const { box } = drawn.build
  return phasesOfBox(at, box).flatMap((phase) =>
    yardMachines(at, drawn, phase, 'metric').map(({ id, cords, bearingDeg, verdict }): MachineLine => {
      const plugs = at.job.plugs.filter((p) => p.machine === id)
      return {
        id,
        phase,
        what: plugs[0]?.what ?? id,
        things: cords.map((c) => c.item),
        lengthM: Object.fromEntries(cords.map((c) => [c.plug, c.lengthM])),
        voltageV: voltsOf(at, phase, plugs),
        bearingDeg,
        verdict,
        drawnAs: { sign: machineName(id), words: machineWords(id), cords: cords.map((c) => cordName(c.plug)) },
      }
    }),
  )
}

const known = new WeakMap<AtWork, Parameters<typeof reachMoved>[0]>()

/** Reach of plugs at the end of cords of another length, in the design that stands. */
export function movedCords(at: AtWork, lengthM: Readonly<Record<string, number>>): readonly MovedCord[] {
  let inputs = known.get(at)
  if (inputs === undefined) {
    const { shop } = at
    const { design } = at.found
    inputs = { job: jobAsDesigned(at.job, design), design, rules: rulesOf(at.job, shop), prices: shop.prices }
    known.set(at, inputs)
  }
  return reachMoved(inputs, lengthM)
}

/** The edits that put a machine elsewhere: its cords as long as told, its bearing where one was told. */
export function standEdits({ given, job }: AtWork, { machine, lengthM, bearingDeg }: StandAsked): readonly DocumentEdit[] {
  const rows = (valueIn(given.text, ['needs', 'machines']) ?? []) as readonly {
    readonly tag?: unknown
    readonly cord?: unknown
  }[]
  const edits: DocumentEdit[] = []
  for (const [row, written] of rows.entries()) {
    const own = job.plugs.filter((p) => p.row === String(written.tag))
    if (!own.some((p) => lengthM[p.tag] !== undefined)) continue
    const lengths = own.map((p) => metres(lengthM[p.tag] ?? p.cordM))
    const path = ['needs', 'machines', row, 'cord']
    if (own.length === 1) edits.push({ path, value: lengths[0]! })
    else if (Array.isArray(written.cord) && written.cord.length === own.length)
      own.forEach((p, i) => {
        if (lengthM[p.tag] !== undefined) edits.push({ path: [...path, i], value: lengths[i]! })
      })
    else edits.push({ path, value: lengths })
  }
  if (bearingDeg !== null)
    edits.push({ path: ['needs', 'places', machine], value: { bearing: `${Math.round(bearingDeg) % 360} deg` } })
  return edits
}

const metres = (value: number): string => `${Math.round(value * 10) / 10} m`
