import type { Verdict } from '@plugstead/engine/kernel'
import type { AtWork } from '../at-work.ts'
import type { Leads, ThingLine } from '../protocol.ts'
import { thingsByName } from '../things.ts'

/** What a name in a room leads to. */
export interface Named extends Leads {
  readonly line?: ThingLine
}

/** Names of one room: of things, of derivations, of whatever findings are about. `box`: the one the sheet is of. */
export function namesOf(at: AtWork, question: string): (name: string, box: string) => Named {
  const things = thingsByName(at)
  const { findings, workings } = at.found.assessment
  const ids = new Set(workings.map((w) => w.id))
  const bySubject = new Map<string, { readonly verdict: Verdict; readonly working: string }>()
  for (const f of findings) {
    const working = f.workings[0]
    if (f.question !== question || working === undefined) continue
    const had = bySubject.get(f.subject)
    if (had === undefined || RANK[f.verdict] > RANK[had.verdict]) bySubject.set(f.subject, { verdict: f.verdict, working })
  }
  const first = new Map<string, string>()
  for (const { id } of workings) {
    const subject = id.slice(0, id.lastIndexOf('/'))
    if (!first.has(subject)) first.set(subject, id)
  }
  return (name, box) => {
    const thing = things.get(name) ?? things.get(`${box} ${name}`)
    const working = ids.has(name)
      ? name
      : (bySubject.get(name)?.working ??
        bySubject.get(`${box} ${name}`)?.working ??
        first.get(`${box} ${name}`) ??
        first.get(name))
    return {
      ...(thing === undefined ? {} : { thing: { box: thing.box, id: thing.line.id }, line: thing.line }),
      ...(working === undefined ? {} : { working }),
    }
  }
}

const RANK: Readonly<Record<Verdict, number>> = { holds: 0, tight: 1, unknown: 2, fails: 3 }
