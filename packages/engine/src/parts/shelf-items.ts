import type { BoxDesign, Circuit, ItemKind, Job } from '../job/index.ts'
import type { RuleSet } from '../rules/index.ts'
import { stripsOf, stripW } from './light/lamps.ts'
import { stubCount } from './materials.ts'
import { type PartName, partFor, type ShelfPart, transformerPart } from './shelf.ts'

/** A thing to hang, as the electrical design asks for it. */
export interface ShelfItem {
  /** Unique in its box: `panel`, `receptacle G4C`. */
  readonly id: string
  readonly kind: ItemKind
  readonly what: string
  readonly part: ShelfPart
  /** Circuits that end in it or pass through it. */
  readonly circuits: readonly string[]
  /** Plug that goes into it; null: none. */
  readonly plug: string | null
}

/** Ways of one panel section; more hang as further sections. Common practice. */
export const SECTION_WAYS = 42
const MOST_CONTACTORS = 24

/**
 * Everything one box needs hung, from its electrical designs: all phases share one build, so a circuit used in any phase is there.
 * In the order of the names. Nothing is typed twice: counts, ratings and circuits are the design's own.
 */
export function shelfItems(designs: readonly BoxDesign[], job: Pick<Job, 'offers'>, rules: RuleSet): readonly ShelfItem[] {
  const whole = wholeBuild(designs)
  if (whole === null) return []
  const items = [
    ...serviceItems(whole, job),
    ...panelItems(whole),
    ...controlItems(whole),
    ...outletItems(whole, rules),
    ...roomItems(whole),
  ]
  return items.toSorted((a, b) => (a.id < b.id ? -1 : a.id > b.id ? 1 : 0))
}

/** One design with every circuit of every phase; a circuit that is spare in one phase and used in another counts as used. */
export function wholeBuild(designs: readonly BoxDesign[]): BoxDesign | null {
  const ordered = designs.toSorted((a, b) => (a.phase < b.phase ? -1 : a.phase > b.phase ? 1 : 0))
  const first = ordered[0]
  if (first === undefined) return null
  const circuits = new Map<string, Circuit>()
  for (const c of ordered.flatMap((d) => d.circuits)) {
    const had = circuits.get(c.id)
    if (had === undefined || c.plugs.length > had.plugs.length) circuits.set(c.id, c)
  }
  const startH = Object.assign({}, ...ordered.map((d) => d.staging.startH)) as Record<string, number>
  return {
    ...first,
    circuits: [...circuits.values()].toSorted((a, b) => (a.id < b.id ? -1 : 1)),
    staging: { ...first.staging, startH },
  }
}

const item = (
  id: string,
  kind: ItemKind,
  what: string,
  part: ShelfPart,
  circuits: readonly string[] = [],
  plug: string | null = null,
): ShelfItem => ({
  id,
  kind,
  what,
  part,
  circuits,
  plug,
})

/** Meter where the supply is metered; a disconnect always; transfer, surge device and own transformer as the design says. */
function serviceItems(box: BoxDesign, job: Pick<Job, 'offers'>): readonly ShelfItem[] {
  const mainA = box.panel.main.ratingA
  const atDoorA = box.transformer?.primary.ratingA ?? mainA
  const offer = job.offers.find((o) => o.id === box.offer)
  const items: ShelfItem[] = [
    item('service disconnect', 'service disconnect', `service disconnect ${atDoorA} A`, partFor('service disconnect', atDoorA)),
    item('surge device', 'surge device', 'surge device', partFor('surge device', mainA)),
    item('earth bar', 'earth bar', 'earth bar with test link', partFor('earth bar', 1)),
  ]
  if (box.fedFrom === null && offer !== undefined && offer.kind !== 'generator') {
    const direct = atDoorA <= 200
    items.push(
      item(
        'meter',
        'meter',
        direct ? 'meter base' : 'instrument-transformer cabinet with meter',
        partFor(direct ? 'meter base' : 'instrument-transformer cabinet', atDoorA),
      ),
    )
  }
  if (box.transfer !== 'none')
    items.push(item('transfer', 'transfer', `transfer switch ${mainA} A`, partFor('transfer switch', mainA)))
  if (box.transformer !== null) {
    items.push(item('transformer', 'transformer', `own transformer ${box.transformer.kVA} kVA`, transformerPart(box.transformer)))
  }
  return items
}

/** Sections of at most 42 ways; the circuits of a section are those whose first way lies in it. */
function panelItems(box: BoxDesign): readonly ShelfItem[] {
  const { busA, ways, main } = box.panel
  const sections = Math.max(1, Math.ceil(ways / SECTION_WAYS))
  const each = Math.ceil(ways / sections / 2) * 2
  const small = main.poles <= 2 && busA <= 225
  const part = small ? partFor('load centre', each > 20 ? Math.max(busA, 126) : busA) : partFor('panelboard', busA)
  return Array.from({ length: sections }, (_, k) => {
    const circuits = box.circuits.filter((c) => {
      const way = Math.min(...c.ways)
      return c.ways.length === 0 ? k === 0 : way > k * each && (way <= (k + 1) * each || k === sections - 1)
    })
    const id = k === 0 ? 'panel' : `panel ${k + 1}`
    return item(id, 'panel', `${busA} A panel, ${each} ways`, part, circuits.map((c) => c.id).toSorted())
  })
}

/** Circuits that are switched, box by box in the order of their ways: as even as can be, at most 24 in one. */
export function contactorBoxes(box: Pick<BoxDesign, 'circuits' | 'staging'>): readonly (readonly Circuit[])[] {
  if (box.staging.control === 'none') return []
  const staged = box.circuits
    .filter((c) => c.plugs.length > 0)
    .toSorted((a, b) => Math.min(...a.ways) - Math.min(...b.ways) || (a.id < b.id ? -1 : 1))
  const boxes = Math.ceil(staged.length / MOST_CONTACTORS)
  const each = Math.ceil(staged.length / Math.max(1, boxes))
  return Array.from({ length: boxes }, (_, k) => staged.slice(k * each, (k + 1) * each))
}

function controlItems(box: BoxDesign): readonly ShelfItem[] {
  const own = box.circuits.filter((c) => c.own === 'control').map((c) => c.id)
  if (box.staging.control === 'none') {
    return own.length === 0 ? [] : [item('controls', 'controls', 'controls', partFor('control box', 1), own)]
  }
  const boxes = contactorBoxes(box)
  const contactors = boxes.map((here, k) =>
    item(
      boxes.length === 1 ? 'contactors' : `contactors ${k + 1}`,
      'contactors',
      `contactor box, ${here.length} contactors`,
      partFor('contactor box', here.length),
      here.map((c) => c.id),
    ),
  )
  const words = box.staging.control === 'interlock' ? 'timers, interlock and hand switches' : 'timers and hand switches'
  return [...contactors, item('controls', 'controls', words, partFor('staging control box', 1), own)]
}

/** One box for each outlet: plugs that share a cord share it; hard-wired ones end in a junction box; an empty stub for every four spare ways. */
function outletItems(box: BoxDesign, rules: RuleSet): readonly ShelfItem[] {
  const items: ShelfItem[] = []
  for (const c of box.circuits) {
    const wired = /^hard[ -]?wired/i.test(c.outlet)
    if (c.own === 'receptacle')
      items.push(item('receptacle service', 'receptacle', `service receptacle ${c.outlet}`, receptaclePart(c, rules), [c.id]))
    if (c.own === 'stub') items.push(item(`stub ${c.id}`, 'stub', c.label, partFor('stub box', 1), [c.id]))
    if (c.own !== null) continue
    if (c.plugs.length === 0) {
      items.push(item(`junction box ${c.id}`, 'junction box', c.label, partFor('junction box', c.device.ratingA), [c.id]))
      continue
    }
    const shared = new Set(c.cords.filter((cord) => cord.sharedWith !== undefined).map((cord) => cord.plug))
    for (const plug of c.plugs) {
      if (shared.has(plug)) continue
      items.push(
        wired
          ? item(
              `junction box ${plug}`,
              'junction box',
              `connection of ${plug}, hard-wired`,
              partFor('junction box', c.device.ratingA),
              [c.id],
              plug,
            )
          : item(`receptacle ${plug}`, 'receptacle', `receptacle ${c.outlet} of ${plug}`, receptaclePart(c, rules), [c.id], plug),
      )
    }
  }
  const used = box.circuits.reduce((n, c) => n + c.ways.length, 0)
  const stubs = stubCount(box.panel.ways - used)
  for (let k = 1; k <= stubs; k++)
    items.push(item(`stub ${k}`, 'stub', 'empty raceway for the next electrician, four spare ways', partFor('stub box', 1)))
  return items
}

/** By the rating of the outlet, or of its device where the set does not know the name. Pin and sleeve ones of 60 A and more are interlocked. */
export function receptaclePart(c: Circuit, rules: RuleSet): ShelfPart {
  const outlet = rules.outletNamed(c.outlet) ?? rules.outlets.find((o) => o.id.toLowerCase() === c.outlet.toLowerCase()) ?? null
  const ratingA = outlet?.ratingA ?? c.device.ratingA
  const name: PartName = /pin/i.test(c.outlet) && ratingA > 32 ? 'interlocked receptacle' : 'receptacle box'
  return partFor(name, ratingA)
}

/** The room itself: light with sensor and plain switch, heater with thermostat, fan, extinguisher. */
function roomItems(box: BoxDesign): readonly ShelfItem[] {
  const items: ShelfItem[] = [
    item('extinguisher', 'extinguisher', 'extinguisher, 6 kg, for electrical fires', partFor('extinguisher', 1)),
  ]
  for (const c of box.circuits) {
    const watts = c.ownLoad?.powerW ?? 0
    if (c.own === 'light') {
      const count = stripsOf(c)
      for (let k = 1; k <= count; k++)
        items.push(
          item(
            `light ${k}`,
            'light',
            `sealed strip ${Math.round(watts / count)} W`,
            partFor('light strip', Math.min(stripW(), watts / count)),
            [c.id],
          ),
        )
      items.push(item('light switch', 'light switch', 'plain light switch at the door', partFor('light switch', 1), [c.id]))
      items.push(item('light sensor', 'light sensor', 'motion sensor', partFor('light sensor', 1), [c.id]))
    }
    // What stands inside the panel's cabinet hangs nowhere.
    if (c.own === 'heater' && c.ownLoad?.at !== 'cabinet') {
      items.push(item('heater', 'heater', `heater ${watts} W`, partFor('heater', watts), [c.id]))
      items.push(item('thermostat', 'thermostat', 'thermostat of the heater', partFor('thermostat', 1), [c.id]))
    }
    if (c.own === 'fan') items.push(item('fan', 'fan', `fan ${watts} W`, partFor('fan', watts), [c.id]))
  }
  return items
}
