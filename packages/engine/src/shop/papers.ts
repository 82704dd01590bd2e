import type { BoxBody } from '../box/index.ts'
import type { BoxDesign, Device, FitDesign } from '../job/index.ts'
import { firmness } from '../kernel/index.ts'
import { FOOT_POUND_NM } from './figures.ts'
import type { LabelRow, NutsOf, SerialRow, TorqueRow, WirePull } from './result.ts'
import { tables } from './tables.generated.ts'

/** Channel nuts by the bolt their strut sheet chose, and every termination with the blank that only its maker fills. */
export function torqueRows(of: {
  readonly fit: FitDesign
  readonly whole: BoxDesign
  readonly nuts: readonly NutsOf[] | null
}): readonly TorqueRow[] {
  const { fit, whole, nuts } = of
  const table = tables['nut-torque']
  const hung = nuts === null ? byHand(fit) : nuts.map((n) => ({ ...n, torque: nutTorqueNm(n.bolt) }))
  const maker = (what: string, where: string, count: number): TorqueRow => ({
    what,
    where,
    count,
    torqueNm: null,
    rests: 'the maker’s sheet; unknown until it is there',
  })
  const ends = (poles: number, c: { readonly neutral: unknown; readonly protective: unknown }): number =>
    poles + (c.neutral === null ? 0 : 1) + (c.protective === null ? 0 : 1)
  return [
    ...hung.map(
      (n): TorqueRow => ({
        what: `channel nut ${n.bolt}`,
        where: n.item,
        count: n.count,
        torqueNm: n.torque,
        rests:
          n.torque === null ? 'bolt not chosen: by the strut sheet' : `table nut-torque (${firmness(table, table.provenance)})`,
      }),
    ),
    maker(`main ${whole.panel.main.ratingA} A`, 'panel', whole.panel.main.poles + 2),
    ...whole.circuits
      .filter((c) => c.own !== 'spare')
      .flatMap((c) => [
        maker(
          `device ${c.device.ratingA} A ${c.device.poles} pole, neutral and earth of ${c.id}`,
          'panel',
          ends(c.device.poles, c.run),
        ),
        ...(c.own === 'stub' ? [] : [maker(`${c.outlet} of ${c.id}`, c.plugs.join(', ') || c.id, ends(c.legs.length, c.run))]),
      ]),
    maker('earth bar', 'earth bar', fit.bonds.length + 1),
  ]
}

function byHand(fit: FitDesign) {
  return fit.items
    .filter((i) => i.hangsOn.length > 0)
    .map((i) => ({ item: i.id, bolt: 'by the strut sheet', count: 2 * i.hangsOn.length, torque: null }))
}

/** Torque of a channel nut by its bolt; null: none is printed. @source table `nut-torque`. Provenance: memory */
export function nutTorqueNm(bolt: string): number | null {
  const row = tables['nut-torque'].rows.find(([one]) => one === bolt)
  return row === undefined ? null : row[1] * FOOT_POUND_NM
}

const rated = (d: Device): string => `${d.ratingA} A, ${d.poles} pole, ${d.interruptingKA} kA, ${d.family}`

/** Everything whose serial number is written down: the box, the gear, each protective device. */
export function serialRows(of: {
  readonly body: BoxBody
  readonly fit: FitDesign
  readonly whole: BoxDesign
}): readonly SerialRow[] {
  const { body, fit, whole } = of
  const KINDS = [
    'meter',
    'service disconnect',
    'transfer',
    'transformer',
    'panel',
    'surge device',
    'contactors',
    'controls',
    'extinguisher',
    'heater',
    'fan',
  ]
  return [
    {
      id: body.box,
      what: `${body.type} box, number on its plate`,
      rating: body.ratingKg === null ? 'unknown' : `${body.ratingKg} kg`,
    },
    ...fit.items.filter((i) => KINDS.includes(i.kind)).map((i) => ({ id: i.id, what: i.what, rating: '' })),
    { id: 'main', what: 'main device', rating: rated(whole.panel.main) },
    ...(whole.transformer === null
      ? []
      : [{ id: 'transformer primary', what: 'primary device', rating: rated(whole.transformer.primary) }]),
    ...(whole.fedFrom === null ? [] : [{ id: 'feeder', what: 'device in the feeding box', rating: rated(whole.fedFrom.device) }]),
    ...whole.circuits
      .filter((c) => c.own !== 'spare')
      .map((c) => ({ id: c.id, what: `device of ${c.label}`, rating: rated(c.device) })),
    ...whole.circuits
      .filter((c) => c.shock.kind !== 'none')
      .map((c) => ({
        id: `${c.id} shock`,
        what: `shock protection of ${c.label}`,
        rating: `${c.shock.kind}${c.shock.sensitivityMA === null ? '' : `, ${c.shock.sensitivityMA} mA`}`,
      })),
  ]
}

/** Labels to print, counted from the design. */
export function labelRows(of: {
  readonly fit: FitDesign
  readonly whole: BoxDesign
  readonly wires: readonly WirePull[]
}): readonly LabelRow[] {
  const { fit, whole, wires } = of
  const kind = (...kinds: readonly string[]) => fit.items.filter((i) => kinds.includes(i.kind)).length
  const sources = 1 + (whole.transfer === 'none' ? 0 : 1)
  return [
    { what: 'panel directory', count: kind('panel') },
    { what: 'circuit and plug at its outlet', count: kind('receptacle', 'junction box', 'stub') },
    {
      what: 'cord, both ends',
      count: 2 * whole.circuits.flatMap((c) => c.cords).filter((c) => c.sharedWith === undefined).length,
    },
    { what: 'wire, both ends', count: 2 * wires.length },
    {
      what: 'gear: name, voltage, fault current and date',
      count: kind('panel', 'service disconnect', 'transfer', 'transformer', 'contactors'),
    },
    { what: 'source of supply', count: sources },
    ...(sources > 1 ? [{ what: 'more than one source', count: kind('panel', 'service disconnect') }] : []),
    { what: 'rating plate, box number, mass and centre of gravity', count: 3 },
    { what: 'no storage; emergency number; inside release', count: 3 },
  ]
}
