import type { Cord, SizeName } from '../../job/index.ts'
import { isHardWired } from './connection.ts'
import { CORD_AMBIENT_C, cordFor, cordLoaded, cordType } from './cord.ts'
import type { ChosenDevice } from './device.ts'
import { pinnedText } from './draft.ts'
import { type CircuitLoad, type OutletLoad, sum } from './group.ts'
import type { CircuitsRequest } from './request.ts'

/** Metres that a hard-wired machine needs as a fixed run because no cord of the list carries its current; 0 where a cord does. */
export function fixedRunM(request: CircuitsRequest, load: CircuitLoad, chosen: ChosenDevice): number {
  const { rules, job } = request
  const { plug } = load.outlets[0]!.loads[0]!
  if (!isHardWired(load.outlets[0]!.outletName) || plug.cordM <= 0) return 0
  const needA = chosen.motor?.conductorA ?? Math.max(chosen.device.ratingA, sum(load.outlets, 'currentA'))
  const { type } = cordType(rules, job.site.designMinC)
  const sizes = rules.cordSizes()
  const most = rules.cordAmpacityA({
    size: sizes[sizes.length - 1]!,
    type,
    loaded: cordLoaded(load.connection),
    ambientC: job.site.designMaxC ?? CORD_AMBIENT_C,
  }).value
  return most >= needA ? 0 : plug.cordM
}

/** One cord for each plug; rows that share a physical plug name the same cord, sized for their sum. */
export function cordsOf(
  request: CircuitsRequest,
  outlet: OutletLoad,
  chosen: ChosenDevice,
  line: SizeName,
  runM: number,
): readonly Cord[] {
  const { job, rules, grown } = request
  const lead = outlet.loads[0]!.plug
  if (lead.cordM <= 0) return []
  const tags = outlet.loads.map((l) => l.plug.tag)
  const currentA = sum([outlet], 'currentA')
  const { r } = rules.impedanceOhmPerM({ size: line, metal: 'cu', where: rules.defaults.raceway, temperatureC: 60 }).value
  const three = outlet.connection === 'LLL' || outlet.connection === 'LLLN'
  const least = tags
    .map((t) => grown?.cords?.[t])
    .filter((s): s is SizeName => s !== undefined)
    .sort((a, b) => rules.cordSizes().indexOf(b) - rules.cordSizes().indexOf(a))[0]
  const cord = cordFor({
    rules,
    plug: lead.tag,
    connection: outlet.connection,
    currentA,
    deviceA: chosen.device.ratingA,
    motorConductorA: chosen.motor?.conductorA ?? null,
    lengthM: Math.max(...outlet.loads.map((l) => l.plug.cordM)),
    kind: lead.kind,
    feedV: outlet.feedV,
    designMinC: job.site.designMinC,
    ambientC: job.site.designMaxC ?? CORD_AMBIENT_C,
    runDropFrac: ((three ? Math.sqrt(3) : 2) * currentA * r * runM) / outlet.feedV,
    privateSource: request.offer.kind === 'generator',
    least,
  })
  return tags.map((plug) => ({
    ...cord,
    plug,
    size: pinnedText(job.pins, `cords.${plug}.size`) ?? cord.size,
    ...(plug === lead.tag ? {} : { sharedWith: lead.tag }),
  }))
}
