import type { Circuit, SizeName } from '../../job/index.ts'
import type { System } from '../../rules/index.ts'
import { ownLoadsOf } from '../own-loads.ts'
import { boxesBehind } from '../staging/index.ts'
import { balancedLegs } from './balance.ts'
import { legOptions } from './connection.ts'
import { interruptingAtLeast } from './device.ts'
import { type Draft, hotC, mainFamily } from './draft.ts'
import { feedRun } from './feed.ts'
import { groupedCircuits, sum } from './group.ts'
import { SLOTS } from './loads.ts'
import type { UnplacedCircuit } from './own-circuits.ts'
import type { CircuitsRequest } from './request.ts'
import { sizeIndex } from './wire.ts'

/** A way for each box that this one feeds: its device by that box's own need. */
export function feederDrafts(request: CircuitsRequest, system: System): Draft[] {
  const told = request.feeds
  const { job, rules, box } = request
  const fed =
    told ??
    job.boxes
      .filter((b) => b.fedFrom?.box === box.id)
      .map((b) => ({
        box: b.id,
        lengthM: b.fedFrom!.lengthM,
        needA: boxNeedA(request, system, b.id),
        connection: panelFeeder(system),
      }))
  return [...fed]
    .sort((a, b) => (a.box < b.box ? -1 : 1))
    .map((f) => {
      const ratingA = rules.nextDeviceA(f.needA).value ?? Math.ceil(f.needA)
      const id = `feeder-${f.box}`
      const device = {
        ratingA,
        poles: system.legs.length as 1 | 2 | 3,
        family: mainFamily(rules, ratingA),
        interruptingKA: interruptingAtLeast(rules, system, request.interruptingKA, false),
      }
      const run = feedRun({
        rules,
        system,
        deviceA: ratingA,
        lengthM: f.lengthM,
        overhead: false,
        ambientC: hotC(request),
        neutralA: ratingA,
        protective: true,
        least: feederLeast(request, f.box),
      })
      const circuit: UnplacedCircuit = {
        id,
        connection: f.connection,
        device,
        shock: { kind: 'none', sensitivityMA: null, form: null },
        run,
        outlet: 'hard-wired',
        plugs: [],
        own: null,
        cords: [],
        label: `Feeder to box ${f.box}`,
      }
      const allOnA = boxAllOnA(request, system, f.box)
      return { circuit, profileA: Array<number>(SLOTS).fill(allOnA), allOnA, neutralA: allOnA, nonLinearA: 0 }
    })
}

/** One run with two names: the feeder of the box it leaves, the feed of the box it ends at. */
export function feederLeast({ rules, grown }: CircuitsRequest, box: string): SizeName | undefined {
  const asked = [grown?.lines?.feed, grown?.lines?.[`feeder-${box}`]].filter((size) => size !== undefined)
  return asked.toSorted((a, b) => sizeIndex(rules, b) - sizeIndex(rules, a))[0]
}

const panelFeeder = (system: System): Circuit['connection'] =>
  system.legs.length === 3 ? 'LLLN' : system.legs.length === 2 ? 'LLN' : 'LN'

/** Steady and needed current on the worst leg of another box of the job, its own loads and the boxes behind it among them. */
function boxLegs(request: CircuitsRequest, system: System, boxId: string): { readonly allOnA: number; readonly needA: number } {
  const { job, rules } = request
  const behind = boxesBehind(job, boxId)
  const plugs = job.plugs.filter((p) => behind.some((b) => p.fedBy[request.phase] === b.id))
  const grouped = groupedCircuits(plugs, rules, system).circuits
  const own = behind.flatMap((b) => ownLoadsOf(job, b, rules)).map((l) => l.powerW / (system.lineNeutralV * l.powerFactorFrac))
  const flat = Array<number>(SLOTS).fill(0)
  const items = [
    ...grouped.map((g) => ({
      id: g.id,
      options: legOptions(g.connection, system),
      profileA: flat,
      allOnA: sum(g.outlets, 'currentA'),
    })),
    ...own.map((a, i) => ({ id: `own ${i}`, options: legOptions('LN', system), profileA: flat, allOnA: a })),
  ]
  const allOnA = balancedLegs({ legs: system.legs, items, allOnLimitA: 0 }).overA
  return { allOnA, needA: rules.deviceNeedA({ continuousA: allOnA, otherA: 0 }).value }
}
export const boxNeedA = (request: CircuitsRequest, system: System, boxId: string): number => boxLegs(request, system, boxId).needA
const boxAllOnA = (request: CircuitsRequest, system: System, boxId: string): number => boxLegs(request, system, boxId).allOnA
