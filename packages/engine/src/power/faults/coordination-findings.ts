import { type Finding, put, source, step } from '../../kernel/index.ts'
import { type Asked, ampere, inAmpere, lazyWorking, onSource } from './asked.ts'
import { hasWires } from './clearing-findings.ts'
import { selectiveToA } from './coordination.ts'
import { type Answered, whoDecides } from './interrupting.ts'
import { highestOfKinds } from './levels.ts'
import { KINDS_OF } from './place.ts'
import type { Coordination } from './result.ts'

/** Main against every branch device, up to the highest fault that branch can see behind its receptacle's run. */
export function coordinationPairs(asked: Asked): readonly Coordination[] {
  const { box, positions, temperatures } = asked
  const upstream = { band: asked.bands(box.panel.main.family, box.panel.main.ratingA), ratingA: box.panel.main.ratingA }
  const known = new Map<string, number>()
  let busA = 0
  for (const levels of positions)
    busA = Math.max(busA, highestOfKinds(levels.panel, levels.panel.kinds, levels.voltageFactor.max)?.currentA ?? 0)
  const out: Coordination[] = []
  for (const circuit of box.circuits) {
    if (!hasWires(circuit)) continue
    let highestA = 0
    for (const levels of positions) {
      highestA = Math.max(
        highestA,
        highestOfKinds(levels.panel, KINDS_OF[circuit.connection], levels.voltageFactor.max)?.currentA ?? 0,
      )
    }
    const key = `${circuit.device.family}|${circuit.device.ratingA}`
    let upToA = known.get(key)
    if (upToA === undefined) {
      const downstream = { band: asked.bands(circuit.device.family, circuit.device.ratingA), ratingA: circuit.device.ratingA }
      upToA = selectiveToA({
        upstream,
        downstream,
        highestA: busA,
        coldC: temperatures.deviceColdC,
        hotC: temperatures.deviceHotC,
      })
      known.set(key, upToA)
    }
    out.push({ upstream: box.box, downstream: circuit.id, selectiveToA: upToA, highestA, whole: upToA >= highestA })
  }
  return out
}

/** One finding a box: above which current the main may open with the branch, so that everything goes dark for one fault. */
export function coordinationFindings(asked: Asked, pairs: readonly Coordination[]): Answered {
  if (pairs.length === 0 || asked.positions.length === 0) return { findings: [], workings: [] }
  const { box } = asked
  const partial = pairs.filter((p) => !p.whole)
  const first = pairs.reduce((a, b) => (b.selectiveToA < a.selectiveToA ? b : a))
  const levels = asked.positions[0]!
  const id = asked.name(`${box.box}/coordination`)
  const finding: Finding = {
    code: 'faults/coordination',
    question: 'faults',
    subject: box.box,
    verdict: partial.length === 0 ? 'holds' : 'tight',
    basis: 'house',
    said:
      partial.length === 0
        ? `In every fault that can flow only the branch device opens, not the ${box.panel.main.ratingA} A main.`
        : `Above ${inAmpere(first.selectiveToA)} the ${box.panel.main.ratingA} A main may open together with ${first.downstream}’s device (up to ${inAmpere(first.highestA)} may flow ${onSource(levels)}): one fault near the panel may leave every machine cold. ${partial.length} of ${pairs.length} circuits.`,
    demand: ampere('I', first.highestA),
    limit: ampere('I selective', first.selectiveToA),
    provenance: 'memory',
    confirm: true,
    assumed: levels.assumed,
    workings: [id],
    mends: [],
    decides: whoDecides(box),
  }
  const working = lazyWorking({
    id,
    title: `Main and branch devices of ${asked.name(box.box)}`,
    steps: () =>
      pairs.map((p) =>
        step(
          `I selective ${p.downstream}`,
          'slow edge of the branch below the fast edge of the main',
          [put('main', box.panel.main.ratingA, 'A'), ampere('I highest', p.highestA)],
          p.selectiveToA,
          'A',
          source('bands of both devices', 'memory'),
        ),
      ),
    notes: ['Generic bands. A maker’s selectivity table for the pair chosen may promise more.'],
  })
  return { findings: [finding], workings: [working] }
}
