import type { Plug } from '../../job/index.ts'
import { type Verdict, worst } from '../../kernel/index.ts'
import type { Inputs } from '../inputs.ts'
import { answerReach } from './answer.ts'

/** What a plug would get at the end of a cord of another length, everything else as designed. */
export interface MovedCord {
  readonly plug: string
  readonly lengthM: number
  /** With everything on, on the source that leaves the fewest volts; null where the network has no solution. */
  readonly voltageV: number | null
  readonly dropFrac: number | null
  readonly verdict: Verdict
  /** What fails or is not known, worst first; empty where all holds. */
  readonly said: readonly string[]
  /** What would mend it, in words. */
  readonly mends: readonly string[]
}

/**
 * The question `reach` for the plugs whose cords were given another length, by the very rules that judge the design. Only the boxes that stand
 * while one of the plugs is fed are solved. A plug that hangs on another's cord is answered with it.
 */
export function reachMoved(inputs: Inputs, lengthM: Readonly<Record<string, number>>): readonly MovedCord[] {
  const { job, design } = inputs
  const cordOf = (p: Plug): string => p.plugShared ?? p.tag
  const moved = job.plugs.filter((p) => lengthM[cordOf(p)] !== undefined)
  const tags = new Set(moved.map((p) => p.tag))
  const boxes = design.boxes.map((box) => ({
    ...box,
    circuits: box.circuits.map((c) =>
      c.cords.some((cord) => lengthM[cord.plug] !== undefined)
        ? { ...c, cords: c.cords.map((cord) => ({ ...cord, lengthM: lengthM[cord.plug] ?? cord.lengthM })) }
        : c,
    ),
  }))
  const phases = new Set(boxes.filter((b) => b.circuits.some((c) => c.plugs.some((p) => tags.has(p)))).map((b) => b.phase))
  const plugs = job.plugs.map((p) => (tags.has(p.tag) ? { ...p, cordM: lengthM[cordOf(p)]! } : p))
  const answer = answerReach({
    ...inputs,
    job: { ...job, plugs },
    design: { ...design, boxes: boxes.filter((b) => phases.has(b.phase)) },
  })
  return moved.map((plug): MovedCord => {
    const own = answer.findings.filter((f) => f.subject === plug.tag || f.subject === cordOf(plug))
    const open = own.filter((f) => f.verdict === 'fails' || f.verdict === 'unknown')
    const rows = answer.result.boxes.flatMap((b) => (b.states[0]?.plugs ?? []).filter((row) => row.plug === plug.tag))
    const row = rows.toSorted((a, b) => a.voltagePct - b.voltagePct)[0]
    return {
      plug: plug.tag,
      lengthM: lengthM[cordOf(plug)]!,
      voltageV: row?.voltageV ?? null,
      dropFrac: row?.totalDropFrac ?? null,
      verdict: own.length === 0 ? 'unknown' : worst(own.map((f) => f.verdict)),
      said: open.toSorted((a, b) => Number(b.verdict === 'fails') - Number(a.verdict === 'fails')).map((f) => f.said),
      mends: [...new Set(open.flatMap((f) => f.mends.map((m) => m.words)))],
    }
  })
}
