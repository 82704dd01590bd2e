import type { Circuit, Leg } from '../../job/index.ts'
import { Fault } from '../../kernel/index.ts'
import type { System } from '../../rules/index.ts'
import { systemOf } from '../systems.ts'
import { type Balanced, type BalanceItem, balancedLegs } from './balance.ts'
import { feedOf } from './box-feed.ts'
import { carryingIn, inOneRaceway, machineDraft, matesOf, ownDrafts } from './circuit-drafts.ts'
import { hasNeutral, legOptions } from './connection.ts'
import { interruptingAtLeast } from './device.ts'
import { type Draft, FT_M, mainFamily, pinnedNumber, RISE_M, type Warning } from './draft.ts'
import { electrodeFor } from './feed.ts'
import { boxNeedA, feederDrafts } from './feeder-drafts.ts'
import { groupedCircuits } from './group.ts'
import type { CircuitsDesign, CircuitsRequest } from './request.ts'
import { panelWays, placedWays, spareWanted } from './ways.ts'

/**
 * Panel, circuits, cords, feed and electrode of one box in one phase. Every choice is the smallest that the set's checks pass and that
 * earlier rounds asked for; circuits go on legs by the balance of the day, and on ways in the order of what they are.
 * @throws Fault `power/system-unknown` · `circuits/ways` when no stock panel takes them
 */
export function designCircuits(request: CircuitsRequest): CircuitsDesign {
  const { job, box, rules } = request
  const system = systemOf(rules, request.system)
  const warnings: Warning[] = []
  const plugs = job.plugs.filter((p) => p.fedBy[request.phase] === box.id)
  const grouped = groupedCircuits(plugs, rules, system)
  for (const plug of grouped.cannot) {
    warnings.push({
      path: `needs.machines.${plug.row}`,
      said: `${plug.tag} is three-phase and the panel is ${system.title}: no circuit of this box can feed it.`,
    })
  }
  const lengthM = box.lengthFt * FT_M + RISE_M
  if (request.grown?.runsM === undefined)
    warnings.push({
      path: `boxes.${box.id}.layout`,
      said: `Every run inside the box is taken as ${lengthM.toFixed(1)} m, its whole length and the rise, until the layout is known.`,
    })
  const carrying = carryingIn(request, system, grouped.circuits)
  const drafts = [
    ...inOneRaceway(
      rules,
      grouped.circuits.map((load) =>
        machineDraft(request, system, load, matesOf(request, grouped.circuits, load), carrying, lengthM, warnings),
      ),
    ),
    ...ownDrafts(request, system, carrying, lengthM, warnings),
    ...feederDrafts(request, system),
  ]
  const mainA = mainRatingA(request, system)
  const held = request.staging.control === 'interlock' && request.staging.capA !== null
  const balance = balancedLegs({
    legs: system.legs,
    items: drafts.map((d) => itemOf(d, system)),
    allOnLimitA: held ? Infinity : rules.deviceHoldsA(mainA).value,
  })
  const legged = drafts.map((d) => ({ ...d.circuit, legs: balance.legsOf[d.circuit.id]! }))
  const { circuits, ways } = onWays(legged, system, box.spareWaysFrac, pinnedNumber(job.pins, 'panel.ways'))
  const worst = neutralWorst(drafts, balance, system)
  const feed = feedOf(request, system, mainA, rules.neutralA({ ...worst, system, lineA: worst.unbalanceA }).value)
  const interruptingKA =
    pinnedNumber(job.pins, 'panel.interruptingKA') ?? interruptingAtLeast(rules, system, request.interruptingKA, true)
  const poles = system.legs.length as 1 | 2 | 3
  const main = { ratingA: mainA, poles, family: mainFamily(rules, mainA), interruptingKA }
  return {
    panel: {
      busA: rules.defaults.panelBusA.find((a) => a >= mainA) ?? mainA,
      ways,
      main,
      interruptingKA,
      feed: feed.run,
      bond: feed.bond,
    },
    circuits,
    electrode: electrodeFor(rules, feed.run.line.size),
    transformer: feed.transformer,
    fedFrom:
      box.fedFrom === undefined
        ? null
        : {
            box: box.fedFrom.box,
            run: feed.run,
            device: { ...main, interruptingKA: interruptingAtLeast(rules, system, request.interruptingKA, false) },
          },
    warnings,
    steps: [],
    balance: { peakA: balance.peakA, boundA: balance.boundA, proven: balance.proven, triedCount: balance.triedCount },
  }
}

/** The service; of a fed box what its own feeder is. */
function mainRatingA(request: CircuitsRequest, system: System): number {
  if (request.box.fedFrom === undefined) return request.serviceA
  const needA = boxNeedA(request, system, request.box.id)
  return Math.min(request.serviceA, request.rules.nextDeviceA(needA).value ?? request.serviceA)
}

const itemOf = (d: Draft, system: System): BalanceItem => ({
  id: d.circuit.id,
  options: legOptions(d.circuit.connection, system),
  profileA: d.profileA,
  allOnA: d.allOnA,
})

/** All line–neutral current of the fullest leg with the others off, and how much of it is not linear. */
function neutralWorst(
  drafts: readonly Draft[],
  balance: Balanced,
  system: System,
): { readonly unbalanceA: number; readonly nonLinearFrac: number } {
  const byLeg = new Map<Leg, { all: number; nonLinear: number }>(system.legs.map((leg) => [leg, { all: 0, nonLinear: 0 }]))
  for (const d of drafts) {
    if (!hasNeutral(d.circuit.connection)) continue
    for (const leg of balance.legsOf[d.circuit.id]!) {
      const here = byLeg.get(leg)!
      here.all += d.neutralA
      here.nonLinear += d.nonLinearA
    }
  }
  const worst = [...byLeg.values()].reduce((a, b) => (b.all > a.all ? b : a))
  return { unbalanceA: worst.all, nonLinearFrac: worst.all > 0 ? worst.nonLinear / worst.all : 0 }
}

function onWays(
  circuits: readonly Omit<Circuit, 'ways'>[],
  system: System,
  spareFrac: number,
  pinnedWays: number | undefined,
): { readonly circuits: readonly Circuit[]; readonly ways: number } {
  const used = circuits.reduce((n, c) => n + c.legs.length, 0)
  const count =
    pinnedWays ??
    panelWays(circuits, system.legs, spareWanted(used, spareFrac)) ??
    panelWays(circuits, system.legs, 0) ??
    evenUp(used)
  const placed = placedWays(circuits, system.legs, count) ?? placedWays(circuits, system.legs, evenUp(used * 2 + 12))
  if (placed === null) throw new Fault('circuits/ways', { used, count })
  const top = Math.max(count, ...Object.values(placed).flat())
  return { circuits: circuits.map((c) => ({ ...c, ways: placed[c.id]! })), ways: pinnedWays ?? Math.max(count, evenUp(top)) }
}

const evenUp = (n: number): number => n + (n % 2)
